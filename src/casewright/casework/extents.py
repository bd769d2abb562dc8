"""Where parts and cases stand along their wall, how far they reach, and a case's diagonal.

The frame of a wall: x along it from its left end, y towards it (the backs of the deepest cases of a
run stand at nothing, so y is negative before the wall), z up from the floor. Inches.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from math import hypot

from ..sizes.affine import Affine
from .build.case import Case
from .directions import Axis
from .parts.part import Part, Role
from .project import DrawnRun, Project

Corner = tuple[Fraction, Fraction, Fraction]


@dataclass(frozen=True, slots=True)
class RoomBox:
    """A box square to the wall, from its `low` corner to its `high` one."""

    low: Corner
    high: Corner

    @property
    def size(self) -> Corner:
        x, y, z = (high - low for low, high in zip(self.low, self.high, strict=True))
        return x, y, z

    def shared(self, other: RoomBox, axis: Axis) -> Fraction:
        """How far the two run side by side along an axis; nothing where they pass each other."""
        place = axis.value
        both = min(self.high[place], other.high[place]) - max(self.low[place], other.low[place])
        return max(both, Fraction(0))


def part_extent(project: Project, part: Part) -> RoomBox:
    """What a part takes up as a blank."""
    run = project.run_of(part.case)
    x, y, z = project.corner(part)
    low = (run.run.along + x, y - project.depths[run.number], z)
    long, deep, high = (project.sizes.of(part.size(axis)) for axis in Axis)
    return RoomBox(low, (low[0] + long, low[1] + deep, low[2] + high))


def case_extent(project: Project, case: Case) -> RoomBox:
    """What a case takes up, without fillers, which belong to the wall."""
    return around(part_extent(project, part) for part in case.parts if part.role is not Role.FILLER)


def around(extents: Iterable[RoomBox]) -> RoomBox:
    """The smallest box around all of them."""
    found = tuple(extents)
    x, y, z = (min(one.low[place] for one in found) for place in range(3))
    far_x, far_y, far_z = (max(one.high[place] for one in found) for place in range(3))
    return RoomBox((x, y, z), (far_x, far_y, far_z))


@dataclass(frozen=True, slots=True)
class Stretch:
    """From `low` to `high` along a wall, which is as far as the named `size` says."""

    low: Fraction
    high: Fraction
    size: Affine


def stretches_of(project: Project, run: DrawnRun) -> tuple[Stretch, ...]:
    """A run's opening, then what fills it from left to right, without what is nothing.

    Filler or gap, the cases, filler or gap, and what the opening has left over.
    """
    start = at = run.run.along
    found = [Stretch(start, start + project.sizes.of(run.opening), run.opening)]
    for size in (run.left, *(case.width for case in run.cases), run.right, run.spare):
        if long := project.sizes.of(size):
            found.append(Stretch(at, at + long, size))
            at += long
    return tuple(found)


def face_of(project: Project, case: Case) -> tuple[Fraction, Fraction]:
    """A case's width and height over the outside of its sides, which its diagonals run across."""
    side = next(part for part in case.parts if part.role is Role.LEFT_SIDE)
    return project.sizes.of(case.outside), project.sizes.of(side.length)


def diagonal(width: Fraction, height: Fraction) -> float:
    """Corner to corner of a square case, in inches."""
    return hypot(float(width), float(height))


def case_diagonal(project: Project, case: Case) -> float:
    """What either diagonal measures, corner to corner over the sides, when the case is square; inches."""
    return diagonal(*face_of(project, case))
