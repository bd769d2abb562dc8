"""What happens at the dry fit: a job's cases, joints, readings and cures as a way in prints them."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import asdict, dataclass, replace
from fractions import Fraction
from typing import Any

from ...casework.project import Project
from ...drawings.kit.pages import fit_to_room
from ...drawings.kit.svg import svg
from ...drawings.views.chain_view import chain_scene
from ...errors import JobError, LengthError
from ...findings import Finding
from ...lengths.did_you_mean import did_you_mean
from ...lengths.length import parse_length
from ...shop.measuring_tools import MeasuringTool
from ...tolerance.advice.advice_wording import too_much_play_text
from ...tolerance.advice.play_and_grade import too_much_play
from ...tolerance.as_built.doubtful import DoubtfulReading, doubt_reading
from ...tolerance.as_built.readings import AsBuilt
from ...tolerance.as_built.sheets_in_doubt import fit_without_doubts, sheet_doubts
from ...tolerance.as_built.square import SquareReport, square_figures, square_report
from ...tolerance.chains.gaps import steps_of
from ...tolerance.outcomes.case_outcome import case_outcome, job_outcome
from ...tolerance.outcomes.gap_spread import WORTH_A_WORD, GapSpread
from ...tolerance.outcomes.gap_spread import Fit as Fit  # named by the ways in, which may not import the core
from ...tolerance.outcomes.outcome import Outcome
from ...tolerance.tolerance_wording import (
    bias_text,
    gap_text,
    gap_title,
    outcome_text,
    percent_text,
    rule_text,
    share_text,
    spread_text,
)
from .closing_as_built import ClosingAsBuilt, closing_as_built

PICTURE = (520.0, 380.0)
SEVERAL = 5  # cases named on one line


@dataclass(frozen=True)
class GapLine:
    """One gap, printed: what it comes out as, the range `wanted`, in which it goes together by hand and shows
    nothing, what happens at the dry fit, and why.

    `chance` is that of having something to do, or of seeing it.
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
    why: tuple[str, ...]
    bias: str
    reason: str

    @property
    def sound(self) -> bool:
        """Whether it goes together by hand and shows nothing, in all but one build of a thousand."""
        return self.outcome.by_hand > 0.999 and self.outcome.shown < 0.001


@dataclass(frozen=True)
class CaseLine:
    """One case, or a run against its opening: the five shares, and a sentence that says them."""

    place: str
    sentence: str
    by_hand: float
    clamp: float
    shown: float
    ease: float
    recut: float
    diagonal: str = ""
    back_allows: str = ""

    def share(self, name: str) -> str:
        """One of its shares, printed."""
        return share_text(getattr(self, name))


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
        raise _unknown(place, "the job has no case or run with this name.", places)
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
        outcome_text(spread.outcome),
        percent_text(spread.chance),
        spread.chance,
        spread.outcome,
        tuple(f"{kind.value} {share * 100:.0f} %" for kind, share in spread.share_of_kinds()[:3]),
        bias_text(project, spread),
        spread.gap.limits.reason,
    )


def case_lines(fit: Fit) -> tuple[CaseLine, ...]:
    """Every case with what happens to it at the dry fit, and its diagonals; then the runs."""
    places = (*fit.project.cases, *(run.run.name for run in fit.project.runs))
    return tuple(case_line(fit, place) for place in places)


def case_line(fit: Fit, place: str) -> CaseLine:
    """One case, or one run against its opening."""
    case = fit.project.cases.get(place)
    line = _line_of(place, case_outcome(fit, place))
    if case is None:
        return line
    square = square_figures(fit.project, case)
    allows = "" if square.differ is None else gap_text(fit.project, square.differ)
    return replace(line, diagonal=gap_text(fit.project, square.diagonal), back_allows=allows)


def job_line(fit: Fit) -> CaseLine:
    """The whole job: the shares of its cases, and the runs that are too wide for their openings.

    A thickness reading that stands apart is told first, and then the shares with it and without; where the
    play of the dados is what shows, that and what mends it.
    """
    line = _line_of(fit.project.job.name, job_outcome(fit))
    if doubts := sheet_doubts(fit):
        said = f"{doubts} {line.place}, with it: {outcome_text(job_outcome(fit))}."
        if without := fit_without_doubts(fit):
            said += f" Without it: {outcome_text(job_outcome(without))}."
        line = replace(line, sentence=said)
    runs = (case_line(fit, run.run.name) for run in fit.project.runs)
    tight = [
        f" The run “{run.place}” is too wide for its opening in {run.share('ease')} of all builds:"
        " give it a filler or a gap at its end."
        for run in runs
        if run.ease > WORTH_A_WORD
    ]
    play = too_much_play(fit)
    why = f" {too_much_play_text(fit, play)}" if play else ""
    return replace(line, sentence=line.sentence + why + "".join(tight))


def _line_of(place: str, outcome: Outcome) -> CaseLine:
    return CaseLine(place, f"{place}: {outcome_text(outcome)}.", **asdict(outcome))


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
        alike = (spread.gap.role.value, part, outcome_text(spread.outcome))
        found.setdefault(alike, []).append(spread)
    return tuple(_look_at(fit, spreads) for spreads in found.values())


def _look_at(fit: Fit, spreads: list[GapSpread]) -> LookAt:
    worst = spreads[0]
    place = worst.gap.place
    most, share = worst.share_of_kinds()[0]
    others = [spread.gap.parts[1] for spread in spreads[1:] if spread.gap.place == place]
    others += dict.fromkeys(spread.gap.place for spread in spreads if spread.gap.place != place)
    more = f" … and {len(others) - SEVERAL} more" if len(others) > SEVERAL else ""
    also = f" (and in {', '.join(others[:SEVERAL])}{more})" if others else ""
    cause = f"{share * 100:.0f} % of it from {most.value}"
    bias = bias_text(fit.project, worst)
    cause += f"; {bias}" if bias else ""
    text = f"{gap_title(worst)}{also}: {outcome_text(worst.outcome)}; {cause}."
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
        raise _unknown(name, "the job has no gap with this name.", fit.gaps)
    line = gap_line(fit, spread)
    loose = f"{line.comes_out}, wanted {line.wanted}"
    return svg(fit_to_room(chain_scene(fit.project, spread.gap, loose), *PICTURE))


@dataclass(frozen=True)
class AskedFirst:
    """Readings that look like slips, each with its place among those typed, to be answered before any of them
    is used."""

    doubts: tuple[tuple[int, DoubtfulReading], ...]


def check_square(
    fit: Fit, case: str, rising: str, falling: str, *, sure: bool = False
) -> SquareReport | AskedFirst:
    """Whether a case is square, from its diagonals: lower left to upper right, and the other. What looks
    like a slip is asked about, unless the maker is `sure`.

    Raises JobError for a case the job does not have and for lengths that cannot be diagonals.
    """
    project = fit.project
    if case not in project.cases:
        raise _unknown(case, "the job has no case with this mark.", project.cases)
    try:
        ends = [parse_length(text, project.job.unit) for text in (rising, falling)]
        names = [name for name, _ in project.cases[case].diagonals]
        read = zip(names, ends, (rising, falling), strict=True)
        if not sure and all(end > 0 for end in ends) and (doubts := _doubts(project, read)):
            return AskedFirst(doubts)
        return square_report(project, case, ends[0], ends[1])
    except ValueError as fault:
        fix = "Measure both diagonals over the outside of the sides."
        raise JobError((Finding("diagonals", case, f"{str(fault).rstrip('.')}.", fix),)) from None


def as_built(
    fit: Fit, readings: Sequence[str], cut: Iterable[str], *, sure: Collection[str] = ()
) -> ClosingAsBuilt | AskedFirst:
    """What readings (`NAME=LENGTH`, `NAME=LENGTH caliper`) and finished parts break and how to mend it.
    Of those not in `sure`, what looks like a slip is asked about first.

    Raises JobError for a reading that cannot be read, and for a size or part the job does not have.
    """
    known = fit.project.parts
    for mark in cut:
        if mark not in known:
            raise _unknown(mark, "the job has no part with this mark.", known)
    so_far = AsBuilt().cut_now(fit, cut)
    diagonals = {name for case in fit.project.cases.values() for name, _ in case.diagonals}
    sizes = {**fit.project.sizes.values, **dict.fromkeys(diagonals)}
    read: list[tuple[str, Fraction, str]] = []
    for text in readings:
        name, value, tool, said = _reading(fit.project, text)
        if name not in sizes:
            raise _unknown(name, "the job has no size with this name.", sizes)
        so_far = so_far.read(name, value, tool)
        read.append((name, value, "" if text in sure else said))
    if doubts := _doubts(fit.project, read):
        return AskedFirst(doubts)
    return closing_as_built(fit, so_far)


def _doubts(
    project: Project, read: Iterable[tuple[str, Fraction, str]]
) -> tuple[tuple[int, DoubtfulReading], ...]:
    """The questions that these readings raise: the name of each, its value, and what was typed for it, empty
    where the maker is sure of it."""
    all_read = tuple(read)
    doubts: list[tuple[int, DoubtfulReading]] = []
    for at, (name, value, said) in enumerate(all_read):
        earlier = [(of, other) for of, other, _ in all_read[:at]]
        doubt = doubt_reading(project, name, value, said, earlier) if said else None
        if doubt is not None:
            doubts.append((at, doubt))
    return tuple(doubts)


def as_meant(line: str, doubt: DoubtfulReading) -> str:
    """The typed line of a reading with what was likely meant in place of what was typed."""
    name, _, rest = line.partition("=")
    return f"{name.strip()} = {rest.replace(doubt.said, doubt.meant, 1).strip()}"


def _reading(project: Project, text: str) -> tuple[str, Fraction, MeasuringTool, str]:
    """The name, the value, the tool, and the value as it was typed."""
    name, equals, rest = text.partition("=")
    tool = next((tool for tool in MeasuringTool if rest.endswith(f" {tool.value}")), None)
    try:
        if not equals:
            raise LengthError("there is no = between the size and its length")
        said = rest.removesuffix(f" {tool.value}") if tool else rest
        value = parse_length(said, project.job.unit)
    except LengthError as fault:
        fix = "Write it as B1-L.length=34 1/2, followed by rule, tape, caliper or depth gauge if you wish."
        raise JobError((Finding("reading", text, f"{str(fault).rstrip('.')}.", fix),)) from None
    return name.strip(), value, tool or MeasuringTool.RULE, said.strip()


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


def _unknown(name: str, text: str, known: Iterable[str]) -> JobError:
    return JobError((Finding("no-such-name", name, text, did_you_mean(name, known)),))
