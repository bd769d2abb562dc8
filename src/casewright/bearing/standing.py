"""Cases on the floor: whether they tip over their front with everything open, and what holds them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from ..casework.build.case import Case
from ..casework.build.drawers.placed_drawers import PlacedDrawer
from ..casework.directions import Axis
from ..casework.extents import RoomBox, around, case_body, part_extent
from ..casework.hung import hangs_on_wall
from ..casework.job import ToeKind
from ..casework.parts.part import Part, Role
from ..casework.parts.weights import weight_of
from ..casework.project import Project
from ..casework.worktops import worktop_over
from ..shop.walls import Framing, KnownWall
from ..strength.tipping import (
    FreestandingCase,
    StandingDoor,
    StandingDrawer,
    StandingWeight,
    TippingCheck,
    tips_when_open,
)
from ..workshop.assembly.case_lifts import LEFT_OUT

X, Y, Z = (axis.value for axis in Axis)
LOOSE = LEFT_OUT - {Role.FIXED_FRONT}
"""Not in the box that holds a case down: what opens, and what may lie on the floor while it does."""


@dataclass(frozen=True)
class WallFastening:
    """How high above the floor a case on the floor can be fixed to the wall (the middle of its highest strip,
    or the upper end of its back where it has none), and the studs behind it, inches from the left end of the
    wall; no studs where nobody has said where they are."""

    up: Fraction
    by_strip: bool
    studs: tuple[Fraction, ...]


@dataclass(frozen=True)
class OpenedCase:
    """A case on the floor with everything open, and by itself: the check, and where it can be fixed."""

    mark: str
    check: TippingCheck
    fastening: WallFastening

    @property
    def pull(self) -> Fraction:
        """Pounds that the fastening bears so that it stays on its feet."""
        return self.check.strap(self.fastening.up)


def standing_cases(project: Project) -> tuple[OpenedCase, ...]:
    """Every case on the floor that something opens on, run by run; without those of which a weight is not
    known. What lies on shelves is left out: without it a case tips sooner."""
    return tuple(
        one
        for run in project.runs
        for case in run.cases
        if not hangs_on_wall(run.run, case.spec) and (one := opened_case(project, case)) is not None
    )


def opened_case(project: Project, case: Case) -> OpenedCase | None:
    """A case on the floor with everything open; None where nothing opens or a weight is not known."""
    pounds = weight_of(project, (part for part in case.own_parts if part.role not in LOOSE))
    body = case_body(project, case)
    doors, drawers = list(_doors(project, case)), list(_drawers(project, case))
    if not pounds or None in doors or None in drawers or not (doors or drawers):
        return None
    made = case.spec.construction
    check = tips_when_open(
        FreestandingCase(
            case.mark,
            pounds,
            body.size[Y],
            body.high[Z],
            Fraction(0) if made.toe is ToeKind.NONE else made.toe_depth,
            tuple(one for one in drawers if one),
            tuple(one for one in doors if one),
            _on_top(project, case, body),
        )
    )
    return OpenedCase(case.mark, check, wall_fastening(project, case))


def wall_fastening(project: Project, case: Case) -> WallFastening:
    """Where a case on the floor is fixed to its wall."""
    body, wall = case_body(project, case), project.job.wall_of(project.run_of(case.mark).run.wall)
    strips = [part_extent(project, part) for part in case.parts if part.role is Role.MOUNTING_STRIP]
    up = max(((one.low[Z] + one.high[Z]) / 2 for one in strips), default=body.high[Z])
    return WallFastening(up, bool(strips), _studs(wall, body))


def _on_top(project: Project, case: Case, body: RoomBox) -> StandingWeight | None:
    """The stretch of a worktop over a case; none where there is none, or nobody says what it weighs."""
    laid = worktop_over(project, case.mark)
    pounds = laid.weight_over(body.size[X]) if laid else None
    if laid is None or pounds is None:
        return None
    return StandingWeight(
        pounds, laid.box.size[Y] / 2 - laid.top.overhang, (laid.box.low[Z] + laid.box.high[Z]) / 2
    )


def _studs(wall: KnownWall, body: RoomBox) -> tuple[Fraction, ...]:
    known = wall.kind is Framing.WOOD_STUDS
    return wall.studs_between(body.low[X], body.high[X]) if known else ()


def _doors(project: Project, case: Case) -> Iterator[StandingDoor | None]:
    """The doors of a case; None for one whose weight is not known."""
    for bay in case.fronts:
        for front in bay.fronts:
            if front.kind.is_door:
                for leaf in front.leaves:
                    parts = list(_leaf(case, leaf))
                    box = around(part_extent(project, one) for one in parts)
                    pounds, middle = weight_of(project, parts), (box.low[Z] + box.high[Z]) / 2
                    yield StandingDoor(pounds, box.size[X], middle) if pounds else None


def _drawers(project: Project, case: Case) -> Iterator[StandingDrawer | None]:
    """The drawers of a case, out by the length of their slides; None for one whose weight is not known."""
    for drawer in case.drawers:
        parts = [*_leaf(case, drawer.front), *_box(project, drawer)]
        pounds, all_of_it = weight_of(project, parts), around(part_extent(project, one) for one in parts)
        depth = drawer.on.length if drawer.on else project.sizes.of(drawer.room.deep)
        middle = (all_of_it.low[Z] + all_of_it.high[Z]) / 2
        inside = _inside(project, drawer)
        yield StandingDrawer(pounds, inside, depth, depth, middle) if pounds else None


def _leaf(case: Case, mark: str) -> Iterable[Part]:
    """The parts of a door or drawer front: itself, or its stiles, rails and panel."""
    return (part for part in case.parts if part.leaf == mark)


def _box(project: Project, drawer: PlacedDrawer) -> Iterable[Part]:
    return (project.parts[mark] for mark in drawer.box.marks) if drawer.box else ()


def _inside(project: Project, drawer: PlacedDrawer) -> Fraction:
    """Cubic inches that a drawer holds: in its box, or where none is drawn in all its room."""
    if drawer.box is None:
        room = drawer.room
        return project.sizes.of(room.wide) * project.sizes.of(room.high) * project.sizes.of(room.deep)
    names = ("left", "right", "front", "back", "bottom")
    left, right, front, back, bottom = (
        part_extent(project, project.parts[getattr(drawer.box, name)]) for name in names
    )
    return (right.low[X] - left.high[X]) * (back.low[Y] - front.high[Y]) * (left.high[Z] - bottom.high[Z])
