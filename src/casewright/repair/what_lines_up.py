"""What the eye sets side by side in a finished job: whether a changed size would be noticed.

A maker asks of a change not how large it is, but whether anything that the client sees lines up with what is
moved: the joint between two cases over or under another such joint, a fixed shelf level with its neighbour's,
tops in one line below the eye. Where nothing does, an inch is not noticed. All of it is common
practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from ..casework.directions import Axis
from ..casework.parts.part import Part, Role
from ..casework.project import DrawnRun, Project
from ..casework.size_names import owner_of
from .housings import housings

IN_LINE = Fraction(1, 8)
"""Two edges no farther apart than this are seen as one line (inches)."""

UNNOTICED = Fraction(1)
"""By how much a size may change that lines up with nothing (inches)."""

EYE_LEVEL = Fraction(66)
"""Above this height from the floor, tops that differ by up to `IN_LINE` are not seen to differ (inches)."""


def joints_line_up(project: Project, moved: Mapping[str, Fraction]) -> bool:
    """Whether any joint of a run that these changes of widths shift, by name, lines up with one of another
    run of its wall."""
    return any(
        _is_in_line(project, run, at)
        for run in project.runs
        for at, shift in _joints(project, run, moved)
        if shift
    )


def _joints(
    project: Project, run: DrawnRun, moved: Mapping[str, Fraction]
) -> Iterator[tuple[Fraction, Fraction]]:
    """Where each side of a case is along its wall, and by how much it is shifted."""
    shift = moved.get(run.left_filler.name, Fraction(0))
    for case in run.cases:
        at = run.run.along + project.sizes.of(run.origins[case.mark][0])
        yield at, shift
        shift += moved.get(case.width.name, Fraction(0))
        yield at + project.sizes.of(case.outside), shift


def _is_in_line(project: Project, run: DrawnRun, at: Fraction) -> bool:
    others = (one for one in project.runs if one.run.wall == run.run.wall and one.number != run.number)
    return any(abs(place - at) <= IN_LINE for other in others for place, _ in _joints(project, other, {}))


def dividers_line_up(project: Project, case: str) -> bool:
    """Whether any divider of a case lines up with a joint between cases of another run of its wall."""
    run = project.run_of(case)
    places = (
        run.run.along + project.corner(part)[Axis.X.value] + edge
        for part in project.cases[case].parts
        if part.role is Role.DIVIDER
        for edge in (Fraction(0), project.sizes.of(part.thickness))
    )
    return any(_is_in_line(project, run, place) for place in places)


def shelf_lines_up(project: Project, shelf: Part) -> bool:
    """Whether a fixed shelf is level with one of another case of its run, or of another bay of its own."""
    height = project.corner(shelf)[Axis.Z.value]
    return any(
        other.role is Role.FIXED_SHELF
        and other.mark != shelf.mark
        and abs(project.corner(other)[Axis.Z.value] - height) <= IN_LINE
        for case in project.run_of(shelf.case).cases
        for other in case.parts
    )


def shelves_moved(project: Project, below: str) -> Iterator[Part]:
    """The fixed shelves that a clear height below one of them moves, by its name: its own and those above."""
    case = project.cases[owner_of(below)]
    for part in case.parts:
        held = housings(project, part, part.lie.length) if part.role is Role.FIXED_SHELF else ()
        if any(below in project.sizes.ledger.expand(one.channel.at).names for one in held):
            yield part


def is_above_the_eye(project: Project, case: str) -> bool:
    """Whether the upper end of a case is above the eye."""
    run, drawn = project.run_of(case), project.cases[case]
    foot = project.sizes.of(run.origins[case][Axis.Z.value])
    return foot + project.sizes.of(drawn.height) > EYE_LEVEL
