"""A wall from the front: floor, ceiling, cases, shelves, fronts in outline and chains of dimensions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from ...casework.directions import Way
from ...casework.extents import RoomBox
from ...casework.parts.features.frame_joints import Tenon
from ...casework.parts.part import DRAWER_BOX, FACE_FRAME, FRAMED_DOOR, FRONTS, Hand, Part, Role
from ..kit.draughting import TO_FIGURE
from ..kit.pages import PlacedScene, fit_set
from ..kit.pens import BOLD, FINE, FIRM, HIDDEN, SOFT, Layer, Pen, Tint
from ..kit.places import PaperBox, box_around, box_of
from ..kit.scene import Anchor, Item, Point, Scene, Shape, Words, rectangle
from .room import Standing, StandingCase, Wall
from .wall_dimensions import LEVELS, heights, widths

_TINTS = {
    Role.BACK: Tint.THIN,
    Role.FILLER: Tint.CALM,
    Role.TOE_KICK: Tint.SHADE,
    Role.PLINTH_FRONT: Tint.SHADE,
    Role.PLINTH_BACK: Tint.SHADE,
    Role.PLINTH_END: Tint.SHADE,
}
_HIDDEN_ROLES = DRAWER_BOX | {Role.MOUNTING_STRIP, Role.BACK_STRETCHER, Role.DOOR_PANEL}
_LINE = Pen(0.6)
_HINGES = {Hand.LEFT, Hand.RIGHT}
FLOOR_BELOW = 1.6


USUAL_WIDTH = 300.0
"""Points a wall is about wide where nothing else is asked."""

BESIDE = (62.0, 40.0)
"""Points that the figures take beside a wall, and above and below it, at least."""

PILLS = (13.0, 10.0)
"""Points of the marks of cases: where all have room for the larger size, else of those in a frame."""

WITHIN = 2.0
"""Points between a mark and the outline of its case."""


def elevation(wall: Wall, point: float | None = None) -> Scene:
    """The wall with its doors and drawer fronts in outline, so that what is behind them is seen.

    Its words are set where a point on paper covers `point` inches, by default as small as walls usually are
    in print."""
    left, right = wall.ends
    point = usual_point(wall) if point is None else point
    items: list[Item] = list(_room(left, right, wall))
    for case in wall.cases:
        items.extend(_case(case))
    items.extend(_worktop(top) for top in wall.worktops)
    items.extend(_frames(wall.cases))
    items.extend(_fronts(wall.cases))
    items.extend(_marks(wall.cases, point))
    items.extend(widths(wall, hung=False, base=-FLOOR_BELOW, point=point))
    items.extend(widths(wall, hung=True, base=wall.top + FLOOR_BELOW, point=point))
    items.extend(heights(wall, left, right, point))
    return Scene(tuple(items), f"{wall.name}, elevation")


def fit_elevation(wall: Wall, room: Point) -> PlacedScene:
    """The elevation alone, as large as a room in points allows."""
    left, right = wall.ends
    return fit_set(lambda point: elevation(wall, point), (right - left, wall.top), room, BESIDE)


def usual_point(wall: Wall) -> float:
    """The inches that a point on paper covers where a wall is as wide as usual."""
    left, right = wall.ends
    return (right - left) / USUAL_WIDTH


def _room(left: float, right: float, wall: Wall) -> Iterator[Item]:
    over = 0.02 * (right - left)
    floor = rectangle(left - over, -FLOOR_BELOW, right - left + 2 * over, FLOOR_BELOW)
    yield Shape(floor, Layer.ROOM, None, hatched=True)
    yield Shape(((left - over, 0.0), (right + over, 0.0)), Layer.ROOM, BOLD, closed=False)
    for x in (left, right):
        yield Shape(((x, 0.0), (x, wall.top)), Layer.ROOM, FINE, closed=False)
    if wall.ceiling is not None:
        above = rectangle(left - over, wall.top, right - left + 2 * over, FLOOR_BELOW)
        yield Shape(above, Layer.ROOM, None, hatched=True)
        yield Shape(((left - over, wall.top), (right + over, wall.top)), Layer.ROOM, BOLD, closed=False)
        at = (right, wall.top + FLOOR_BELOW)
        yield Words(at, "ceiling", colour=SOFT, anchor=Anchor.START, shift=(LEVELS + TO_FIGURE, 8.0))


def _marks(cases: Sequence[StandingCase], point: float) -> Iterator[Words]:
    """The mark of each case in its middle, of one size; without a frame, or turned, in a narrow case."""
    rooms = [_space(case, point) for case in cases]
    framed = [[_mark(case, size, pill=True) for case in cases] for size in PILLS]
    fit = (size for size in framed if all(_holds(*one, point) for one in zip(rooms, size, strict=True)))
    for case, room, words in zip(cases, rooms, next(fit, framed[-1]), strict=True):
        plain = _mark(case, PILLS[-1], pill=False)
        narrower = (words, plain, replace(plain, turn=90.0))
        yield next((one for one in narrower if _holds(room, one, point)), narrower[-1])


def _mark(case: StandingCase, size: float, *, pill: bool) -> Words:
    middle = ((float(case.low[0]) + float(case.high[0])) / 2, (float(case.low[2]) + float(case.high[2])) / 2)
    backing = Tint.NONE if pill else Tint.PAPER
    return Words(middle, case.mark, size, bold=True, pill=pill, backing=backing, name=case.mark)


def _space(case: StandingCase, point: float) -> PaperBox:
    low = (float(case.low[0]), float(case.low[2]))
    size = (float(case.high[0]) - low[0], float(case.high[2]) - low[1])
    return box_around((low, size), point)


def _holds(room: PaperBox, words: Words, point: float) -> bool:
    inner = PaperBox(room.left + WITHIN, room.low + WITHIN, room.right - WITHIN, room.high - WITHIN)
    return inner.holds(box_of(words, point))


def _case(case: StandingCase) -> Iterator[Item]:
    """The parts from back to front, so that near ones cover far ones; frame and fronts come later."""
    for standing in sorted(case.parts, key=lambda part: part.low[1], reverse=True):
        role = standing.part.role
        if role not in _HIDDEN_ROLES | FACE_FRAME | FRONTS:
            yield _seen(standing, role)
    x, z = float(case.low[0]), float(case.low[2])
    wide, high = float(case.high[0]) - x, float(case.high[2]) - z
    yield Shape(rectangle(x, z, wide, high), Layer.CASES, FIRM, name=case.mark)


def _worktop(top: RoomBox) -> Shape:
    wide, _, thick = (float(size) for size in top.size)
    return Shape(rectangle(float(top.low[0]), float(top.low[2]), wide, thick), Layer.CASES, FIRM, Tint.CALM)


def _fronts(cases: Sequence[StandingCase]) -> Iterator[Item]:
    """The doors and drawer fronts, over all else: of a framed door its rails below its stiles."""
    fronts = [one for case in cases for one in case.parts if one.part.role in FRONTS - _HIDDEN_ROLES]
    for standing in sorted(fronts, key=lambda one: one.part.role is not Role.DOOR_RAIL):
        yield _seen(standing, standing.part.role)
    for standing in fronts:
        if standing.part.hand in _HINGES:
            yield _hinged(standing.part.hand, [one for one in fronts if one.part.leaf == standing.part.leaf])


def _hinged(hung: Hand, parts: Sequence[Standing]) -> Shape:
    """The dashed lines of a door, which meet at the side that it is hung on."""
    left, low = (float(min(one.low[axis] for one in parts)) for axis in (0, 2))
    right, high = (float(max(one.high[axis] for one in parts)) for axis in (0, 2))
    at, free = (left, right) if hung is Hand.LEFT else (right, left)
    lines = ((free, low), (at, (low + high) / 2), (free, high))
    return Shape(lines, Layer.CASES, HIDDEN, closed=False)


def _frames(cases: Sequence[StandingCase]) -> Iterator[Item]:
    """The face frames over all cases, which one may cover several of: first what reaches under another of its
    parts, with a tenon or with a lap cut from the front."""
    members = [standing for case in cases for standing in case.parts if standing.part.role in FACE_FRAME]
    for standing in sorted(members, key=lambda one: _over(one.part)):
        yield _seen(standing, standing.part.role)


def _over(part: Part) -> int:
    under = any(isinstance(one, Tenon) or one.face is Way.FRONT for one in part.features)
    if not under:
        return 2
    return 0 if part.role is Role.MULLION else 1


def _seen(standing: Standing, role: Role) -> Shape:
    box = rectangle(
        float(standing.low[0]), float(standing.low[2]), float(standing.size[0]), float(standing.size[2])
    )
    if role in FRAMED_DOOR:
        return Shape(box, Layer.CASES, _LINE, Tint.EDGE, name=standing.part.mark)
    if role in FRONTS:
        return Shape(box, Layer.CASES, FIRM, name=standing.part.mark)
    if role is Role.ADJUSTABLE_SHELF:
        return Shape(box, Layer.CASES, HIDDEN, Tint.FACE, name=standing.part.mark)
    return Shape(box, Layer.CASES, _LINE, _TINTS.get(role, Tint.EDGE), name=standing.part.mark)
