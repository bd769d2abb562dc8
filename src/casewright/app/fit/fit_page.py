"""What happens at the dry fit: a job's cases, joints, readings and cures as a way in prints them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import asdict, dataclass, replace
from fractions import Fraction
from typing import Any

from ...casework.project import Project
from ...drawings.kit.pages import fit_to_room
from ...drawings.kit.svg import svg
from ...drawings.views.chain_view import chain_scene
from ...errors import JobError
from ...findings import Finding
from ...lengths.did_you_mean import did_you_mean
from ...tolerance.advice.advice_wording import too_much_play_text
from ...tolerance.advice.play_and_grade import too_much_play
from ...tolerance.as_built.sheets_in_doubt import fit_without_doubts, sheet_doubts
from ...tolerance.as_built.square import square_figures
from ...tolerance.chains.gaps import steps_of
from ...tolerance.outcomes.case_outcome import case_outcome, job_outcome
from ...tolerance.outcomes.gap_spread import WORTH_A_WORD, GapSpread
from ...tolerance.outcomes.gap_spread import Fit as Fit  # named by the ways in, which may not import the core
from ...tolerance.outcomes.outcome import Outcome
from ...tolerance.tolerance_wording import (
    LEAST_SHARE,
    bias_text,
    dry_fits_text,
    gap_text,
    gap_title,
    happens_text,
    outcome_text,
    percent_text,
    rule_text,
    share_figure,
    share_text,
    spread_text,
)

PICTURE = (520.0, 380.0)
SEVERAL = 5  # cases named on one line


@dataclass(frozen=True)
class GapLine:
    """One gap, printed: what it comes out as, the range `wanted`, in which it goes together by hand and shows
    nothing, what happens at the dry fit, and why.

    `chance` is that of having something to do, or of seeing it. `dry_fits` is how many joints of its kind the
    shop has tried that these shares go by.
    """

    name: str
    role: str
    sight: str
    comes_out: str
    wanted: str
    usual: str
    worst: str
    happens: str
    wants: str
    chance: float
    outcome: Outcome
    dry_fits: int
    why: tuple[str, ...]
    bias: str
    reason: str

    @property
    def sound(self) -> bool:
        """Whether it goes together by hand and shows nothing, in all but one build of a thousand."""
        return self.outcome.by_hand > 0.999 and self.outcome.shown < 0.001


@dataclass(frozen=True)
class CaseLine:
    """One case, or all of them: the five shares, and a sentence that says them. `dry_fits` is how many joints
    that the shop has tried they go by."""

    place: str
    sentence: str
    by_hand: float
    clamp: float
    shown: float
    ease: float
    recut: float
    dry_fits: int
    diagonal: str = ""
    back_allows: str = ""

    def share(self, name: str) -> str:
        """One of its shares, as a column of a table has it."""
        return share_figure(getattr(self, name))


@dataclass(frozen=True)
class RunLine:
    """A run in its opening: how often it goes in, how often it is too wide, and how often more is left open
    beside it than filler or caulk covers."""

    place: str
    sentence: str
    goes_in: float
    too_wide: float
    shown: float


def plain(value: Any) -> dict[str, Any]:
    """Any of the lines as JSON."""
    return asdict(value)


def gap_lines(fit: Fit, limit: float, place: str | None = None) -> tuple[GapLine, ...]:
    """The gaps likelier than `limit` to want work or to show, the worst first; or all of one case or run."""
    found = fit.at_risk(limit) if place is None else only_place(fit, place).in_place(place)
    return tuple(gap_line(fit, spread) for spread in found)


def only_place(fit: Fit, place: str) -> Fit:
    """The fit of one case alone, or of one run. Raises JobError where the job has none of that name."""
    found = fit.only(place)
    if not found.gaps:
        places = sorted({gap.place for gap in fit.gaps.values()})
        raise unknown_name(place, "the job has no case or run with this name.", places)
    return found


def gap_line(fit: Fit, spread: GapSpread) -> GapLine:
    """One gap, printed."""
    project = fit.project
    return GapLine(
        spread.gap.name,
        spread.gap.role.value,
        spread.gap.sight.value,
        spread_text(project, spread.mean),
        _wanted(project, *spread.wanted),
        _range(project, spread.usual),
        _range(project, spread.worst),
        happens_text(spread),
        percent_text(spread.chance),
        spread.chance,
        spread.outcome,
        spread.tally.joints if spread.tally else 0,
        tuple(f"{kind.value} {share * 100:.0f} %" for kind, share in spread.share_of_kinds()[:3]),
        bias_text(project, spread),
        spread.gap.limits.reason,
    )


def case_lines(fit: Fit) -> tuple[CaseLine, ...]:
    """Every case with what happens to it at the dry fit, and its diagonals."""
    return tuple(case_line(fit, place) for place in fit.project.cases)


def run_lines(fit: Fit) -> tuple[RunLine, ...]:
    """Every run in its opening."""
    return tuple(_run_line(fit, run.run.name) for run in fit.project.runs)


def _run_line(fit: Fit, place: str) -> RunLine:
    outcome = case_outcome(fit, place)
    wide = 1 - outcome.by_hand
    sound = wide < LEAST_SHARE
    said = [f"The run “{place}” goes into its opening{'' if sound else f' in {share_text(outcome.by_hand)}'}"]
    if not sound:
        advice = ": give it a filler or a gap at its end" if wide > WORTH_A_WORD else ""
        said.append(f"too wide for it in {share_text(wide)}{advice}")
    if outcome.shown >= LEAST_SHARE:
        said.append(f"more open beside it than filler or caulk covers in {share_text(outcome.shown)}")
    return RunLine(place, f"{'; '.join(said)}.", outcome.by_hand, wide, outcome.shown)


def place_sentence(fit: Fit, place: str) -> str:
    """What happens to one case at the dry fit, or to one run in its opening."""
    return (case_line if place in fit.project.cases else _run_line)(fit, place).sentence


def case_line(fit: Fit, mark: str) -> CaseLine:
    """One case."""
    case = fit.project.cases[mark]
    line = _line_of(fit, mark, case_outcome(fit, mark))
    square = square_figures(fit.project, case)
    allows = "" if square.differ is None else gap_text(fit.project, square.differ)
    return replace(line, diagonal=fit.project.printed(square.diagonal), back_allows=allows)


def job_line(fit: Fit) -> CaseLine:
    """The whole job: the shares of its cases, and the runs that may not go into their openings.

    A thickness reading that stands apart is told first, and then the shares with it and without; where the
    play of the dados is what shows, that and what mends it.
    """
    outcome, name = job_outcome(fit), fit.project.job.name
    number = len(fit.project.cases)
    of = f"of {number} cases, " if number > 1 else ""
    by = dry_fits_text(fit.dry_fits)
    said = f"{name}: {of}{outcome_text(outcome)}{by}."
    if doubts := sheet_doubts(fit):
        said = f"{doubts} {name}, with it: {of}{outcome_text(outcome)}{by}."
        if without := fit_without_doubts(fit):
            said += f" Without it: {outcome_text(job_outcome(without))}{by}."
    if play := too_much_play(fit):
        said += f" {too_much_play_text(fit, play)}"
    risky = (run.sentence for run in run_lines(fit) if run.too_wide >= LEAST_SHARE)
    return CaseLine(name, " ".join((said, *risky)), **asdict(outcome), dry_fits=fit.dry_fits)


def _line_of(fit: Fit, place: str, outcome: Outcome) -> CaseLine:
    dry_fits = fit.only(place).dry_fits
    sentence = f"{place}: {outcome_text(outcome)}{dry_fits_text(dry_fits)}."
    return CaseLine(place, sentence, **asdict(outcome), dry_fits=dry_fits)


@dataclass(frozen=True)
class LookAt:
    """A joint to look at when the case is put together: the worst of those alike, and what to say of it."""

    gap: str
    text: str


def worth_a_look(fit: Fit) -> tuple[LookAt, ...]:
    """The joints likelier than one in ten to want work or to show; those alike, of a part or of the same part
    in several cases, on one line."""
    found: dict[tuple[str, ...], list[GapSpread]] = {}
    for spread in fit.at_risk(WORTH_A_WORD):
        part = fit.project.parts[spread.gap.parts[0]].role.value if spread.gap.parts else ""
        alike = (spread.gap.role.value, part, happens_text(spread))
        found.setdefault(alike, []).append(spread)
    return tuple(_look_at(fit, spreads) for spreads in found.values())


def _look_at(fit: Fit, spreads: list[GapSpread]) -> LookAt:
    worst = spreads[0]
    place = worst.gap.place
    most, share = worst.share_of_kinds()[0]
    also_in = [spread.gap for spread in spreads[1:] if spread.gap.place == place]
    # Parts that meet one and the same side, or nothing (a front's reveal), are told by their own marks.
    same = {gap.parts[1:] for gap in also_in} == {worst.gap.parts[1:]}
    met = [gap.parts[0 if same else -1] for gap in also_in if gap.parts]
    elsewhere = [spread.gap.place for spread in spreads if spread.gap.place != place]
    others = tuple(dict.fromkeys([*met, *elsewhere]))
    more = f" … and {len(others) - SEVERAL} more" if len(others) > SEVERAL else ""
    also = f" (and in {', '.join(others[:SEVERAL])}{more})" if others else ""
    cause = f"Largest cause: {most.value} ({share * 100:.0f} % of the variation)"
    bias = bias_text(fit.project, worst)
    cause += f"; {bias}" if bias else ""
    text = f"{gap_title(worst)}{also}: {happens_text(worst)}. {cause}."
    return LookAt(worst.gap.name, text)


@dataclass(frozen=True)
class ExplainedGap:
    """One gap with its chain: every link in order, and the picture to stand in a page.

    `leaves` is what the chain leaves by itself, with every setting at a mark of the rule; `gives_way` tells
    whether parts that lean or slide change it when the case is put together.
    """

    line: GapLine
    leaves: str
    gives_way: bool
    links: tuple[tuple[str, str], ...]
    parts: tuple[str, ...]
    svg: str


def explain_gap(fit: Fit, name: str) -> ExplainedGap:
    """One gap explained. Raises JobError when there is none of that name."""
    drawing = gap_picture(fit, name).decode("utf-8")
    project = fit.project
    gap = fit.gaps[name]
    links = tuple(
        (step.link.words, f"{'+' if step.added else '−'} {rule_text(project, step.length)}")
        for step in steps_of(project, gap.links)
    )
    return ExplainedGap(
        gap_line(fit, fit.spreads[name]),
        spread_text(project, fit.error_model().mean_of(gap.stacked)),
        gap.stacked != gap.form,
        links,
        gap.parts,
        drawing[drawing.index("<svg") :],
    )


def gap_picture(fit: Fit, name: str) -> bytes:
    """The SVG picture of one gap. Raises JobError when there is none of that name."""
    spread = fit.spreads.get(name)
    if spread is None:
        raise unknown_name(name, "the job has no gap with this name.", fit.gaps)
    line = gap_line(fit, spread)
    loose = f"{line.comes_out}, wanted {line.wanted}"
    return svg(fit_to_room(chain_scene(fit.project, spread.gap, loose), *PICTURE))


def _wanted(project: Project, low: Fraction | None, high: Fraction | None) -> str:
    """The range a gap is wanted in: `anything`, where nothing hangs on it."""
    if low is None or high is None:
        if high is not None:
            return f"{spread_text(project, high)} at most"
        return "anything" if low is None else f"{spread_text(project, low)} at least"
    return _range(project, (low, high))


def _range(project: Project, ends: tuple[Fraction | float, Fraction | float]) -> str:
    low, high = (spread_text(project, end) for end in ends)
    return f"{low.removesuffix(f' {project.job.unit.value}')} to {high}"


def unknown_name(name: str, text: str, known: Iterable[str]) -> JobError:
    """The refusal of a name that is not among the `known`, with the nearest of them."""
    return JobError((Finding("no-such-name", name, text, did_you_mean(name, known)),))
