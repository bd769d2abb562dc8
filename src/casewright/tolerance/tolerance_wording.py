"""Gaps, causes and cures in a maker's words."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from ..casework.build.meetings import Meeting
from ..casework.parts.part import Part
from ..casework.project import Project
from .as_built.cures import Act, Cure, Step
from .chains.made_sizes import Kind
from .figures import fine, length
from .outcomes.gap_spread import Fit, GapSpread

FEW = 6  # more marks than this make no sentence


def title(spread: GapSpread) -> str:
    """What meets where, without the case's mark that begins a gap's name."""
    _, _, where = spread.gap.name.partition(": ")
    return where or spread.gap.name


def off(project: Project, spread: GapSpread) -> str:
    """How a gap that is out of its range stands: `B1-K flush with B1-L, up: 1/16" out of plane`."""
    wrong = spread.mean - project.sizes.of(spread.gap.aim)
    way = "too tight" if wrong < 0 else "too open"
    if spread.gap.meeting is Meeting.FLUSH:
        way = "out of plane"
    return f"{title(spread)}: {fine(project, abs(wrong))} {way}"


def sentence(project: Project, cure: Cure) -> str:
    """What to do: `trim 2 sides (B1-L, B1-R) 1/32" narrower`."""
    return ", and ".join(_step(project, step) for step in cure.steps)


_DOES = {Act.CUT: "cut", Act.TRIM: "trim", Act.DEEPEN: "deepen", Act.WIDEN: "widen", Act.REMAKE: "make again"}
_WAYS: Mapping[Kind, tuple[str, str]] = {
    Kind.LENGTH: ("longer", "shorter"),
    Kind.WIDTH: ("wider", "narrower"),
    Kind.DEPTH: ("deeper", "shallower"),
    Kind.CHANNEL: ("wider", "narrower"),
    Kind.PLACE: ("further in", "nearer the edge"),
}


def _step(project: Project, step: Step) -> str:
    change = length(project, abs(step.change))
    way = _WAYS[step.kind][0 if step.change > 0 else 1]
    what = named(project, step.parts)
    if step.feature:
        channel = step.feature.replace("-", " ")
        if step.act in (Act.DEEPEN, Act.WIDEN):
            return f"{_DOES[step.act]} {channel} of {what} by {change}"
        return f"{_DOES[step.act]} {what} with {channel} {change} {way}"
    return f"{_DOES[step.act]} {what} {change} {way}"


def named(project: Project, marks: Iterable[str]) -> str:
    """Parts as a maker calls them: `4 sides (B1-L, B1-R, B2-L, B2-R)`, `the back B1-K`."""
    marks = list(dict.fromkeys(marks))
    groups: dict[str, list[str]] = {}
    for mark in marks:
        groups.setdefault(_role(project.parts[mark]), []).append(mark)
    said = []
    for role, among in groups.items():
        if len(among) == 1:
            said.append(f"the {role} {among[0]}")
        else:
            plural = role[:-1] + "ves" if role.endswith("f") else role + "s"
            which = f" ({', '.join(among)})" if len(among) <= FEW else ""
            said.append(f"{len(among)} {plural}{which}")
    return " and ".join(said)


def sizes_of(fit: Fit, sizes: Iterable[str]) -> str:
    """Made sizes in words: `the groove back in 2 sides (B1-L, B1-R)`, `the width of the bottom B1-B`."""
    by: dict[str, list[str]] = {}
    for name in sizes:
        made = fit.made[name]
        kind = f"the {made.feature.replace('-', ' ')} in" if made.feature else f"the {made.kind.value} of"
        by.setdefault(kind, []).append(made.part)
    return " and ".join(f"{kind} {named(fit.project, parts)}" for kind, parts in by.items())


def _role(part: Part) -> str:
    return (
        part.role.value.removeprefix("left ")
        .removeprefix("right ")
        .replace("front s", "s")
        .replace("back s", "s")
    )


def alike(found: Iterable[Cure], project: Project) -> tuple[Cure, ...]:
    """Cures that do the same in several cases, told as one."""
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
    return tuple(_joined(cures) for cures in kept.values())


def _case(gap: str) -> str:
    return gap.partition(": ")[0]


def _joined(cures: list[Cure]) -> Cure:
    steps = tuple(
        Step(
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
