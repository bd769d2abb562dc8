"""Fillers and stiles that are scribed to the walls at the ends of a run: the line each is cut to.

A plumb line hangs at the end of the opening. The part is cut wider than what is seen of it by its scribe, so
that it reaches a wall that stands back from the line by as much as that.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from ..casework.directions import Axis
from ..casework.extents import case_extent, part_extent
from ..casework.job import CaseSpec, Run
from ..casework.parts.part import END_STILES, Part, PartName
from ..casework.project import DrawnRun, Project
from ..casework.size_names import part_mark
from ..findings import Finding, Weight
from ..lengths.length import Unit
from ..lengths.told_lengths import FINE_MARKS, told, told_at_least
from ..strength.scribe import ScribeLine, ScribePoint, scribe_line
from .wall_shims import even_readings

Z = Axis.Z.value

OFFSET_STEPS = {Unit.INCH: Fraction(6), Unit.MM: 150 * Unit.MM.length}
"""How far apart the offsets of a cut line are given."""


class WallEnd(Enum):
    """The end of a run that a part closes."""

    LEFT = "left"
    RIGHT = "right"


@dataclass(frozen=True)
class ScribedPart:
    """A part to be cut to the wall's line, inches: `width` as it is cut, `scribe` of it to plane away.

    `line` goes up from its lower end, its widths from the edge at the case. `entry` is where its scribe
    stands in the job file.
    """

    part: Part
    end: WallEnd
    length: Fraction
    width: Fraction
    thickness: Fraction
    scribe: Fraction
    entry: str
    line: ScribeLine

    @property
    def needed(self) -> Fraction:
        """The scribe with which it reaches the wall everywhere, inches."""
        return self.scribe + self.line.widest.width - self.width

    def offsets(self, step: Fraction) -> tuple[ScribePoint, ...]:
        """The line's width at the lower end, at every `step` up from it, and at the upper end."""
        steps = int(self.length / step)
        places = [number * step for number in range(steps + 1)]
        whole = (*places, self.length) if places[-1] < self.length else tuple(places)
        return tuple(ScribePoint(place, self.line.width_at(place)) for place in whole)


def scribed_parts(project: Project) -> tuple[ScribedPart, ...]:
    """Every part at an end of a run for which the wall there was read, run by run."""
    return tuple(one for run in project.runs for one in _of_run(project, run))


def _of_run(project: Project, drawn: DrawnRun) -> Iterator[ScribedPart]:
    run = drawn.run
    if not (run.left_gaps or run.right_gaps):
        return
    extents = [case_extent(project, case) for case in drawn.cases]
    cases = min(one.low[Z] for one in extents), max(one.high[Z] for one in extents)
    for end, gaps in _read_ends(run):
        found = _at_end(project, run, end)
        if found is not None:
            yield _scribed(project, found, end, gaps, cases)


def _read_ends(run: Run) -> Iterator[tuple[WallEnd, Sequence[Fraction]]]:
    """The ends of a run at which the wall was read, with the readings."""
    ends = ((WallEnd.LEFT, run.left_gaps), (WallEnd.RIGHT, run.right_gaps))
    return ((end, gaps) for end, gaps in ends if gaps)


@dataclass(frozen=True)
class _AtEnd:
    """What closes an end, with its scribe and where that stands in the job file."""

    part: Part
    scribe: Fraction
    entry: str


def _at_end(project: Project, run: Run, end: WallEnd) -> _AtEnd | None:
    """What closes an end of a run: a filler, or the stile of a frame that reaches the wall."""
    at_left = end is WallEnd.LEFT
    filler, stile = (run.left, run.left_scribe) if at_left else (run.right, run.right_scribe)
    case: CaseSpec = run.cases[0 if at_left else -1]
    if filler is not None:
        mark = part_mark(case.mark, PartName.FILLER_LEFT if at_left else PartName.FILLER_RIGHT)
        scribe, entry = filler.scribe, f"runs.{run.name}.{end.value}_filler.scribe"
    elif stile is not None:
        group = run.framed_together[0 if at_left else -1]
        mark = part_mark(group[0].mark, END_STILES[0 if at_left else 1])
        scribe, entry = stile, f"runs.{run.name}.{end.value}_scribe"
    else:
        return None
    part = project.parts.get(mark)
    return _AtEnd(part, scribe, entry) if part is not None else None


def _scribed(
    project: Project, at: _AtEnd, end: WallEnd, gaps: Sequence[Fraction], cases: tuple[Fraction, Fraction]
) -> ScribedPart:
    """The part with its cut line. What came out narrower than drawn has less to plane away."""
    part = at.part
    length, width, thickness = project.dimensions(part)
    sight = project.planned_size(part)[1] - at.scribe
    extent = part_extent(project, part)
    low, high = min(cases[0], extent.low[Z]), max(cases[1], extent.high[Z])
    line = scribe_line(even_readings(gaps, low, high), extent.low[Z], length, sight)
    return ScribedPart(part, end, length, width, thickness, width - sight, at.entry, line)


def scribe_findings(project: Project, scribed: Iterable[ScribedPart]) -> tuple[Finding, ...]:
    """A finding for each part that does not reach its wall, or of which little is left, and for each wall
    that was read where nothing is scribed to it."""
    of_parts = (finding for one in scribed for finding in _of_part(project, one))
    return (*of_parts, *_read_for_nothing(project))


def _read_for_nothing(project: Project) -> Iterator[Finding]:
    for run in (drawn.run for drawn in project.runs):
        for end, _ in _read_ends(run):
            if _at_end(project, run, end) is None:
                side = end.value
                text = (
                    f"the wall at the {side} end of {run.name} was read, and nothing there is scribed to it."
                )
                fix = f"Give it a filler at the {side}, or its end stile a scribe; or leave the readings out."
                yield Finding("gaps-not-used", f"runs.{run.name}.{side}_gaps", text, fix, Weight.NOTE)


def _of_part(project: Project, one: ScribedPart) -> Iterator[Finding]:
    mark = one.part.mark
    finest = FINE_MARKS[project.job.unit]
    if one.needed > one.scribe:
        most = one.line.widest
        needed, up, scribe = (told(of, finest) for of in (one.needed, most.along, one.scribe))
        text = (
            f"the wall stands {needed} back from the plumb line {up} up {mark}, which has {scribe} to plane "
            "away: it does not reach the wall there."
        )
        scribe = told_at_least(one.needed, finest)
        wide = told_at_least(one.width + one.needed - one.scribe, finest)
        fix = f"Give it a scribe of {scribe}: it is then cut {wide} wide."
        yield Finding("scribe-too-narrow", one.entry, text, fix, Weight.WARN)
    least = one.line.narrowest
    # Common practice, no source.
    if least.width < one.thickness:
        up, left, thick = (told(of, finest) for of in (least.along, least.width, one.thickness))
        text = (
            f"{up} up, {left} is left of {mark} once it is cut to the wall, less than it is thick ({thick}): "
            "it splits where it is screwed."
        )
        fix = "Give it more width in sight, and the cases less."
        yield Finding("scribed-too-thin", one.entry, text, fix, Weight.WARN)
