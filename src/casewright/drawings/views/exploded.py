"""A case as an exploded view: its parts pulled apart along the axes they go together on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ...casework.directions import Axis, Box, Way
from ...casework.parts.features.notch import Notch
from ...casework.parts.part import DRAWER_BOX, FACE_FRAME, FRAMED_DOOR, FRONTS, Hand, Part, Role
from ...casework.project import Project
from ..kit.isometric import Corner, SolidBox, far_to_near, project
from ..kit.pens import FINE, Layer, Pen, Tint
from ..kit.scene import Anchor, Item, Leader, Point, Scene, Shape, Words

SPREAD: Corner = (0.85, 1.1, 0.45)
"""How far a part moves, as a share of its middle's distance from the case's middle, by axis."""

PULL_FORWARD = {
    Role.ADJUSTABLE_SHELF: 0.30,
    Role.TOE_KICK: 0.25,
    **dict.fromkeys(FACE_FRAME, 0.45),
    **dict.fromkeys(FRONTS, 0.75),
    **dict.fromkeys(DRAWER_BOX, 0.6),
}
"""Parts that slide in from the front are pulled out there, by this share of the case's depth."""

OF_A_DOOR = (Role.DOOR_STILE, Role.DOOR_RAIL)
"""Parts that the mark of their door stands for."""

FILLER_ASIDE = 0.25

_EDGE = Pen(0.75)

Outline = tuple[Point, ...]


@dataclass(frozen=True)
class SpreadPart:
    """A part, and the box in which the exploded view shows it."""

    part: Part
    block: SolidBox


def exploded_view(proj: Project, mark: str) -> Scene:
    """An exploded view of the case called `mark`, each part labelled with its mark."""
    spread = _spread(proj, mark)
    by_mark = {piece.part.mark: piece for piece in spread}
    order = far_to_near([piece.block for piece in spread])
    items: list[Item] = []
    for block in order:
        items.extend(_part(proj, by_mark[block.name]))
    items.extend(_marks(_told([by_mark[block.name] for block in order])))
    return Scene(tuple(items), f"{mark}, exploded view")


MOST_MARKS = 24
"""So many marks stand beside a view at most; with more they cover each other."""


def _told(pieces: list[SpreadPart]) -> list[SpreadPart]:
    """The parts whose marks are told: where there are too many, not those of drawer boxes, and then of a
    framed door only the stile that it is hung on."""
    if len(pieces) > MOST_MARKS:
        pieces = [one for one in pieces if one.part.role not in DRAWER_BOX]
    if len(pieces) > MOST_MARKS:
        pieces = [one for one in pieces if one.part.role not in FRAMED_DOOR or one.part.hand is not Hand.NONE]
    return pieces


def _spread(proj: Project, mark: str) -> list[SpreadPart]:
    of = proj.sizes.of
    parts = proj.cases[mark].parts
    corners = {part.mark: [float(at) for at in proj.corner(part)] for part in parts}
    sizes = {part.mark: [float(of(part.size(axis))) for axis in Axis] for part in parts}
    own = [part.mark for part in parts if part.role is not Role.FILLER]
    low = [min(corners[name][axis] for name in own) for axis in range(3)]
    high = [max(corners[name][axis] + sizes[name][axis] for name in own) for axis in range(3)]
    deep = high[1] - low[1]
    found: list[SpreadPart] = []
    for part in parts:
        corner, size = corners[part.mark], sizes[part.mark]
        moved = [
            corner[axis] + SPREAD[axis] * (corner[axis] + size[axis] / 2 - (low[axis] + high[axis]) / 2)
            for axis in range(3)
        ]
        if part.role is Role.FILLER:
            beside = 1 if moved[0] > (low[0] + high[0]) / 2 else -1
            moved[0] += beside * FILLER_ASIDE * (high[0] - low[0])
        moved[1] -= PULL_FORWARD.get(part.role, 0.0) * deep
        start = (moved[0], moved[1], moved[2])
        end = (moved[0] + size[0], moved[1] + size[1], moved[2] + size[2])
        found.append(SpreadPart(part, SolidBox(part.mark, start, end)))
    return found


def _part(proj: Project, piece: SpreadPart) -> Iterator[Item]:
    """The three visible sides with their channels; notches are cut out of the right one."""
    block, part = piece.block, piece.part
    face = Tint.THIN if part.role is Role.BACK else Tint.FACE
    corner = next((feature.corner for feature in part.features if feature.corner), None)
    profile = _profile(proj, piece, corner)
    yield Shape(block.top(), Layer.CASES, _EDGE, face if part.lie.worked.axis is Axis.Z else Tint.EDGE)
    if corner:
        yield from _notched_front(proj, piece, corner)
    else:
        yield Shape(block.front(), Layer.CASES, _EDGE, face if part.lie.worked.axis is Axis.Y else Tint.EDGE)
    yield Shape(
        profile,
        Layer.CASES,
        _EDGE,
        face if part.lie.worked.axis is Axis.X else Tint.SHADE,
        name=part.mark,
    )
    for feature in part.features:
        if feature.face in (Way.RIGHT, Way.FRONT, Way.UP):
            for cut in feature.cuts(part):
                yield _mouth(proj, piece, feature.face, cut)


def _profile(proj: Project, piece: SpreadPart, corner: Notch | None) -> tuple[Point, ...]:
    """The right side's outline, a toe-kick notch taken out of its lower front corner."""
    if corner is None:
        return piece.block.right()
    (_, b, c), (d, e, f) = piece.block.low, piece.block.high
    into, up = _notch(proj, corner)
    path = ((d, b + into, c), (d, e, c), (d, e, f), (d, b, f), (d, b, c + up), (d, b + into, c + up))
    return tuple(project(corner) for corner in path)


def _notched_front(proj: Project, piece: SpreadPart, notch: Notch) -> Iterator[Item]:
    (a, b, c), (d, _, f) = piece.block.low, piece.block.high
    into, up = _notch(proj, notch)
    for y, low, high in ((b + into, c, c + up), (b, c + up, f)):
        corners = ((a, y, low), (d, y, low), (d, y, high), (a, y, high))
        yield Shape(tuple(project(corner) for corner in corners), Layer.CASES, _EDGE, Tint.EDGE)


def _notch(proj: Project, notch: Notch) -> tuple[float, float]:
    """How far a notch goes in from the front, and how far up."""
    reach = {edge.axis: form for edge, form in notch.reaches}
    return float(proj.sizes.of(reach[Axis.Y])), float(proj.sizes.of(reach[Axis.Z]))


def _mouth(proj: Project, piece: SpreadPart, face: Way, box: Box) -> Shape:
    """The mouth of what is cut into a side that is in sight."""
    of = proj.sizes.of
    lows = [piece.block.low[axis.value] + float(of(box.along(axis).low)) for axis in Axis]
    highs = [piece.block.low[axis.value] + float(of(box.along(axis).high)) for axis in Axis]
    mouth = SolidBox("", (lows[0], lows[1], lows[2]), (highs[0], highs[1], highs[2]))
    faces = {Way.RIGHT: mouth.right, Way.FRONT: mouth.front, Way.UP: mouth.top}
    return Shape(faces[face](), Layer.CASES, FINE, Tint.CUT)


def _marks(pieces: list[SpreadPart]) -> Iterator[Item]:
    """Marks in two columns beside the picture, ordered like their parts so that no leaders cross. A door that
    is framed is made up by then: it has one mark, at its panel."""
    corners = [point for piece in pieces for point in piece.block.hexagon()]
    left, right = min(x for x, _ in corners), max(x for x, _ in corners)
    low, high = min(y for _, y in corners), max(y for _, y in corners)
    outlines = [piece.block.hexagon() for piece in pieces]
    tips = {piece.part.mark: _tip(piece, outlines[place + 1 :]) for place, piece in enumerate(pieces)}
    tips = {_label(piece.part): tips[piece.part.mark] for piece in pieces if piece.part.role not in OF_A_DOOR}
    ranked = sorted(tips, key=lambda mark: tips[mark][0])
    half = (len(ranked) + 1) // 2
    for marks, x, anchor, way in (
        (ranked[:half], left, Anchor.END, -1.0),
        (ranked[half:], right, Anchor.START, 1.0),
    ):
        column = sorted(marks, key=lambda mark: -tips[mark][1])
        step = (high - low) / max(1, len(column))
        for place, mark in enumerate(column):
            y = high - step * (place + 0.5)
            yield Leader((x, y), tips[mark], (way * 12.0, 0.0))
            yield Words((x, y), mark, 11.0, anchor, bold=True, pill=True, shift=(way * 18.0, 0.0))


def _label(part: Part) -> str:
    """The mark of a part, or of the door that it is the panel of."""
    return part.leaf if part.role is Role.DOOR_PANEL else part.mark


def _tip(piece: SpreadPart, nearer: list[Outline]) -> Point:
    """A place on a side of the part that no nearer part hides."""
    (a, b, c), (d, e, f) = piece.block.low, piece.block.high
    shares = (0.5, 0.25, 0.75, 0.1, 0.9, 0.03, 0.97)

    def on_right(u: float, v: float) -> Corner:
        return d, b + u * (e - b), c + v * (f - c)

    def on_front(u: float, v: float) -> Corner:
        return a + u * (d - a), b, c + v * (f - c)

    def on_top(u: float, v: float) -> Corner:
        return a + u * (d - a), b + v * (e - b), f

    areas = (((e - b) * (f - c), on_right), ((d - a) * (f - c), on_front), ((d - a) * (e - b), on_top))
    sides = sorted(areas, key=lambda side: -side[0])
    around = 0.02 * sum(size - low for low, size in zip(piece.block.low, piece.block.high, strict=True))
    best, most = project(sides[0][1](0.5, 0.5)), -1.0
    for _, place in sides:
        for u in shares:
            for v in shares:
                x, y = project(place(u, v))
                near = ((x, y), (x - around, y), (x + around, y), (x, y - around), (x, y + around))
                hidden = [any(_covers(outline, spot) for outline in nearer) for spot in near]
                clear = min(u, 1 - u) + min(v, 1 - v) - (1.0 if any(hidden) else 0.0)
                if not hidden[0] and clear > most:
                    best, most = (x, y), clear
        if most >= 0:
            return best
    return best


def _covers(outline: Outline, point: Point) -> bool:
    """Whether a point on paper lies inside a counter-clockwise outline."""
    x, y = point
    before_x, before_y = outline[-1]
    for at_x, at_y in outline:
        if (at_x - before_x) * (y - before_y) < (at_y - before_y) * (x - before_x):
            return False
        before_x, before_y = at_x, at_y
    return True
