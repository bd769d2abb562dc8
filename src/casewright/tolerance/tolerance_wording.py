"""Sizes, gaps, chances, parts and cures as text a maker reads."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction

from ..casework.parts.part import Part
from ..casework.project import Project
from ..lengths.length import Mark, show
from ..lengths.quantities import caliper
from .as_built.cure_steps import Act, Cure, CureStep
from .chains.made_sizes import SizeKind
from .chains.roles import GapRole
from .outcomes.gap_spread import Fit, GapSpread
from .outcomes.outcome import Outcome

LEAST_SHARE = 0.001  # rarer than once in a thousand cases is not worth a word (our judgement, no source)
FEW = 6  # more marks than this make no sentence
FINE = {Mark.SIXTEENTH: Mark.SIXTY_FOURTH, Mark.THIRTY_SECOND: Mark.SIXTY_FOURTH}
FINE |= dict.fromkeys((Mark.MILLIMETRE, Mark.HALF_MILLIMETRE), Mark.TENTH_MILLIMETRE)


def gap_text(project: Project, value: Fraction | float) -> str:
    """A gap's size: on finer marks than the rule has, since gaps are smaller than marks."""
    mark = project.job.mark
    return show(Fraction(value), FINE.get(mark, mark), unit=True).plain


def amount_text(project: Project, value: Fraction) -> str:
    """A play as it is entered: on the finer marks, or as a caliper shows it where it lies on none."""
    mark = project.job.mark
    written = show(value, FINE.get(mark, mark), unit=True)
    return spread_text(project, value) if written.rounded else written.plain


def spread_text(project: Project, value: Fraction | float) -> str:
    """A gap or its spread as a caliper shows it: thousandths of an inch, hundredths of a millimetre."""
    return caliper(value, project.job.unit)


def rule_text(project: Project, value: Fraction) -> str:
    """A size on the rule's marks."""
    return show(value, project.rule, unit=True).plain


def percent_text(chance: float) -> str:
    """A chance a person can read: no `0 %` for what can happen, no `100 %` for what may not."""
    if chance <= 0.0005:
        return "under 0.1 %"
    if chance < 0.1:
        return f"{chance * 100:.1f} %"
    return "over 99 %" if 0.99 < chance < 1.0 else f"{chance * 100:.0f} %"


def share_text(chance: float) -> str:
    """A share of many builds in whole parts of a hundred: `58 %`, `under 1 %`."""
    if chance < 0.01:
        return "under 1 %"
    return "over 99 %" if 0.99 < chance < 1.0 else f"{chance * 100:.0f} %"


def share_figure(chance: float) -> str:
    """A share in a column of a table: `58 %`, `<1 %`."""
    return share_text(chance).replace("under ", "<").replace("over ", ">")


def outcome_text(outcome: Outcome) -> str:
    """The shares in a sentence's words: `by hand 58 %, with a clamp 42 %; a visible gap or step in 4 %`."""
    told = [(outcome.by_hand, "by hand"), (outcome.clamp, "with a clamp"), (outcome.ease, "a joint to ease")]
    told.append((outcome.recut, "a part to cut again"))
    shares = ", ".join(f"{words} {share_text(chance)}" for chance, words in told if chance >= LEAST_SHARE)
    if outcome.shown < LEAST_SHARE:
        return shares
    return f"{shares}; a visible gap or step in {share_text(outcome.shown)}"


def dry_fits_text(dry_fits: int) -> str:
    """What a prediction rests on besides the model: ` (by your 40 dry fits)`; empty where there are none."""
    return f" (by your {dry_fits} dry fits)" if dry_fits else ""


def happens_text(spread: GapSpread) -> str:
    """What happens to one joint, and whether the shop's own dry fits say so."""
    return outcome_text(spread.outcome) + dry_fits_text(spread.tally.joints if spread.tally else 0)


def gap_title(spread: GapSpread) -> str:
    """What meets where, without the case's mark that begins a gap's name."""
    if not spread.gap.parts:
        return f"The run “{spread.gap.place}” in its opening"
    return spread.gap.name.partition(": ")[2]


def bias_text(project: Project, spread: GapSpread) -> str:
    """What the marks of the rule leave a gap off by with every saw set right; empty where it is no quarter
    mark."""
    bias = spread.mean - spread.nominal
    if abs(bias) < project.job.mark.step / 4:
        return ""
    way = "tighter" if bias < 0 else "wider"
    if spread.gap.role in OUT_OF_LINE:
        way = OUT_OF_LINE[spread.gap.role]
    return f"the marks of the rule leave it {spread_text(project, abs(bias))} {way}"


def gap_off_text(project: Project, spread: GapSpread) -> str:
    """How a gap that is out of its range stands: `B1-K against the front wall of the groove in B1-R: 1/16"
    out of plane`."""
    wrong = spread.mean - project.sizes.of(spread.gap.aim)
    way = "too tight" if wrong < 0 else "too open"
    if spread.gap.role in OUT_OF_LINE:
        way = OUT_OF_LINE[spread.gap.role]
    return f"{gap_title(spread)}: {gap_text(project, abs(wrong))} {way}"


OUT_OF_LINE = {GapRole.STEP: "out of plane", GapRole.LEAN: "out of line", GapRole.PINS: "out of level"}


def cure_sentence(project: Project, cure: Cure) -> str:
    """What to do: `trim 2 sides (B1-L, B1-R) 1/32" narrower`."""
    return ", and ".join(_step(project, step) for step in cure.steps)


_DOES = {Act.CUT: "cut", Act.TRIM: "trim", Act.DEEPEN: "deepen", Act.WIDEN: "widen", Act.REMAKE: "remake"}
_WAYS: Mapping[SizeKind, tuple[str, str]] = {
    SizeKind.LENGTH: ("longer", "shorter"),
    SizeKind.WIDTH: ("wider", "narrower"),
    SizeKind.DEPTH: ("deeper", "shallower"),
    SizeKind.CHANNEL: ("wider", "narrower"),
    SizeKind.PLACE: ("further in", "nearer the edge"),
}


def _step(project: Project, step: CureStep) -> str:
    change = rule_text(project, abs(step.change))
    way = _WAYS[step.kind][0 if step.change > 0 else 1]
    what = parts_text(project, step.parts)
    if step.feature:
        channel = step.feature.replace("-", " ")
        if step.act in (Act.DEEPEN, Act.WIDEN):
            return f"{_DOES[step.act]} {channel} of {what} by {change}"
        return f"{_DOES[step.act]} {what} with {channel} {change} {way}"
    return f"{_DOES[step.act]} {what} {change} {way}"


def parts_text(project: Project, marks: Iterable[str]) -> str:
    """Parts as a maker calls them: `4 sides (B1-L, B1-R, B2-L, B2-R)`, `the back B1-K`. What is no part, such
    as a run, goes by its name."""
    groups: dict[str, list[str]] = {}
    phrases = []
    for mark in dict.fromkeys(marks):
        if mark in project.parts:
            groups.setdefault(_role(project.parts[mark]), []).append(mark)
        else:
            phrases.append(mark)
    for role, among in groups.items():
        if len(among) == 1:
            phrases.append(f"the {role} {among[0]}")
        else:
            plural = role[:-1] + "ves" if role.endswith("f") else role + "s"
            which = f" ({', '.join(among)})" if len(among) <= FEW else ""
            phrases.append(f"{len(among)} {plural}{which}")
    return " and ".join(phrases)


def sizes_text(fit: Fit, sizes: Iterable[str]) -> str:
    """Made sizes in words: `the groove back in 2 sides (B1-L, B1-R)`, `the width of the bottom B1-B`."""
    by: dict[str, list[str]] = {}
    for name in sizes:
        made = fit.made[name]
        kind = f"the {made.feature.replace('-', ' ')} in" if made.feature else f"the {made.kind.value} of"
        by.setdefault(kind, []).append(made.part)
    return " and ".join(f"{kind} {parts_text(fit.project, parts)}" for kind, parts in by.items())


def _role(part: Part) -> str:
    return (
        part.role.value.removeprefix("left ")
        .removeprefix("right ")
        .replace("front s", "s")
        .replace("back s", "s")
    )


def merge_alike_cures(found: Iterable[Cure], project: Project) -> tuple[Cure, ...]:
    """Cures that do the same in several cases, given as one."""
    kept: dict[object, list[Cure]] = {}
    for cure in found:
        pattern = tuple(
            (
                step.act,
                step.kind,
                step.feature,
                step.change,
                tuple(sorted({_role(project.parts[p]) for p in step.parts})),
            )
            for step in cure.steps
        )
        kept.setdefault((pattern, tuple(gap.replace(_case(gap), "") for gap in cure.gaps)), []).append(cure)
    return tuple(one for cures in kept.values() for one in _joined_or_either(cures))


def _joined_or_either(cures: list[Cure]) -> tuple[Cure, ...]:
    """What does the same in several cases, as one; but ways to mend one and the same gap are alternatives."""
    gaps = [gap for cure in cures for gap in cure.gaps]
    return (_joined(cures),) if len(set(gaps)) == len(gaps) else tuple(cures)


def _case(gap: str) -> str:
    return gap.partition(": ")[0]


def _joined(cures: list[Cure]) -> Cure:
    steps = tuple(
        CureStep(
            steps[0].act,
            steps[0].kind,
            steps[0].feature,
            tuple(name for step in steps for name in step.names),
            tuple(part for step in steps for part in step.parts),
            steps[0].change,
        )
        for steps in zip(*(cure.steps for cure in cures), strict=True)
    )
    return Cure(steps, tuple(gap for cure in cures for gap in cure.gaps), sum(cure.price for cure in cures))
