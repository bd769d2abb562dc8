"""The positions and extents of parts and cases along their wall, and the diagonal of a case.

Coordinates of a wall: x along it from its left end, y towards it (zero at the backs of the deepest cases
of a run, so y is negative in front of the wall), z up from the floor. Inches.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import hypot

from ..sizes.affine import NOTHING, Affine
from .build.case import Case
from .directions import Axis
from .parts.part import DRAWER_BOX, FRONTS, Part, Role
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
        """The length along an axis over which the two boxes overlap; zero if they do not."""
        place = axis.value
        both = min(self.high[place], other.high[place]) - max(self.low[place], other.low[place])
        return max(both, Fraction(0))


def part_extent(project: Project, part: Part) -> RoomBox:
    """The box that a part fills as a blank."""
    run = project.run_of(part.case)
    x, y, z = project.corner(part)
    low = (run.run.along + x, y - project.depths[run.number], z)
    long, deep, high = (project.sizes.of(part.size(axis)) for axis in Axis)
    return RoomBox(low, (low[0] + long, low[1] + deep, low[2] + high))


def case_extent(project: Project, case: Case) -> RoomBox:
    """The box that a case fills, without what is hung on it, without fillers, which belong to the wall, and
    without a frame that covers its neighbours too."""
    apart = FRONTS | DRAWER_BOX | {Role.FILLER}
    return around(part_extent(project, part) for part in case.own_parts if part.role not in apart)


def case_body(project: Project, case: Case) -> RoomBox:
    """The box between the outer faces of a case's sides, from their lower ends to their upper: what a level
    line is struck for, whatever of a front or back reaches past it."""
    sides = (part for part in case.parts if part.role in (Role.LEFT_SIDE, Role.RIGHT_SIDE))
    return around(part_extent(project, side) for side in sides)


def around(extents: Iterable[RoomBox]) -> RoomBox:
    """The smallest box around all the extents."""
    found = tuple(extents)
    x, y, z = (min(one.low[place] for one in found) for place in range(3))
    far_x, far_y, far_z = (max(one.high[place] for one in found) for place in range(3))
    return RoomBox((x, y, z), (far_x, far_y, far_z))


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch from `low` to `high` along a wall; `size` is the form for its length."""

    low: Fraction
    high: Fraction
    size: Affine


def stretches_of(project: Project, run: DrawnRun) -> tuple[Stretch, ...]:
    """A run's opening, then what fills it from left to right: filler or gap, the cases, filler or gap, and
    the room left over. Stretches of zero length are left out.
    """
    start = at = run.run.along
    found = [Stretch(start, start + project.sizes.of(run.opening), run.opening)]
    for size in (run.left, *(case.width for case in run.cases), run.right, run.spare):
        if long := project.sizes.of(size):
            found.append(Stretch(at, at + long, size))
            at += long
    return tuple(found)


def heights_of(project: Project, case: Case) -> tuple[Stretch, ...]:
    """How a case stands: the stretches from the floor to its bottom's lower face, and on to the top of its
    sides. Stretches of zero length are left out.
    """
    foot, corners = project.run_of(case.mark).origins[case.mark][2], case.placement.corners
    bottom = next(part for part in case.parts if part.role is Role.BOTTOM)
    side = next(part for part in case.parts if part.role is Role.LEFT_SIDE)
    under = foot + corners[bottom.mark, Axis.Z]
    top = foot + corners[side.mark, Axis.Z] + side.length
    levels = (NOTHING, under, top)
    spans = ((project.sizes.of(low), project.sizes.of(high), high - low) for low, high in pairwise(levels))
    return tuple(Stretch(low, high, size) for low, high, size in spans if high > low)


def face_of(project: Project, case: Case) -> tuple[Fraction, Fraction]:
    """The width and height over the outside of a case's sides, between the ends of its diagonals."""
    side = next(part for part in case.parts if part.role is Role.LEFT_SIDE)
    return project.sizes.of(case.outside), project.sizes.of(side.length)


def diagonal(width: Fraction, height: Fraction) -> Fraction:
    """The diagonal of a square case, in inches: a root, so as near as a float comes to it."""
    return Fraction(hypot(float(width), float(height)))


def case_diagonal(project: Project, case: Case) -> Fraction:
    """Either diagonal of a case when it is square, corner to corner over the sides, in inches."""
    return diagonal(*face_of(project, case))
