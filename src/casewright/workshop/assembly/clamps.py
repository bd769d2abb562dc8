"""The clamps that a glue-up has on at once, and whether they need cauls.

A clamp spans the case, so parts in one line across it share their clamps: two stretchers and a bottom
between the same sides take three lines, whichever joint each line closes.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from ...casework.build.meetings import Mate, Meeting
from ...casework.directions import Axis
from ...casework.extents import part_extent
from ...casework.parts.part import Part, Role
from ...casework.project import Project
from .butt_joints import face_met, is_on_blank

CLAMP_SPACING = Fraction(12)
"""One clamp for each so much of a joint's run, two at least on a panel. Common practice, no source."""
NARROW = Fraction(6)
"""A part up to so wide, inches, is drawn up by one clamp. Common practice, no source."""

_STANDING = (Role.DIVIDER, Role.PLINTH_END)


@dataclass(frozen=True, slots=True)
class ClampsOn:
    """How many clamps are on at once; `cauls` where panels take them in pairs or more, so that stiff bars
    across the case spread what they press."""

    number: int
    cauls: bool


def clamps_on(project: Project, mates: Iterable[Mate]) -> ClampsOn:
    """The clamps for these glued mates, each line across the case counted once."""
    lines = {line for mate in mates if (line := _line(project, mate))}
    counts = [clamps_along(high - low) for _, _, low, high in lines]
    return ClampsOn(sum(counts), any(count > 1 for count in counts))


def clamps_along(run: Fraction) -> int:
    """How many clamps draw up a joint of this run."""
    return 1 if run <= NARROW else max(2, ceil(run / CLAMP_SPACING))


def _line(project: Project, mate: Mate) -> tuple[Axis, Fraction, Fraction, Fraction] | None:
    """Where clamps press a part's end home: the way they press, how far up or along they lie, and the stretch
    over which they are spread. None for an edge that its own screws draw up."""
    met = face_met(project, mate)
    if mate.meeting is not Meeting.SEATED or met is None:
        return None
    through, part = met
    end = mate.second if mate.second.part == part.mark else mate.first
    pressed = mate.axis is Axis.X or part.role in _STANDING
    if not pressed or not is_on_blank(project, end) or Role.BACK in (through.role, part.role):
        return None
    return (mate.axis, *_spread(project, part, mate.axis))


def _spread(project: Project, part: Part, pressed: Axis) -> tuple[Fraction, Fraction, Fraction]:
    box = part_extent(project, part)
    flat = part.lie.worked.axis
    run = next(axis for axis in Axis if axis not in (pressed, flat))
    middle = (box.low[flat.value] + box.high[flat.value]) / 2
    return middle, box.low[run.value], box.high[run.value]
