"""A case as bars seen from the front, and the joints between them, found from where the parts lie.

Only places and sizes are read: the corner and size of each part's blank and the channels cut into it. What
meets what is found from them: an end within a channel is housed there, an end on a face butts against it.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field
from enum import Enum
from fractions import Fraction

from casewright.casework.directions import Axis, Way
from casewright.casework.extents import part_extent
from casewright.casework.parts.features.channel import Channel, ChannelKind
from casewright.casework.parts.part import Part, Role
from casewright.casework.project import Project

X, Y, Z = 0, 1, 2
NEAR = 1e-6  # inches: nominal places are exact, floats of them are not


@dataclass(frozen=True, slots=True)
class Slot:
    """A channel in a part: walls from `low` to `high` along `across`, in the face that looks `face`.

    `at`, `width` and `depth` are the numbers it is cut to, `at` from the edge on the side `edge` (-1 low).
    """

    name: str
    face: Way
    across: int
    edge: int
    low: float
    high: float
    floor: float
    at: float
    width: float
    depth: float
    rabbet: bool
    back: bool


@dataclass(frozen=True)
class Piece:
    """A part by its place: its low corner and size along x, y, z in inches."""

    mark: str
    role: Role
    material: str
    cut_with: str  # parts of one name are clamped together and sawn at once by the hand-held saw
    corner: tuple[float, float, float]
    size: tuple[float, float, float]
    length: int  # the axis of its length, and of its width
    width: int
    slots: tuple[Slot, ...] = ()

    def end(self, axis: int, sign: int) -> float:
        """Where its side towards `sign` lies along an axis."""
        return self.corner[axis] + (self.size[axis] if sign > 0 else 0.0)


class Held(Enum):
    """What holds an end across its own direction."""

    WALLS = "walls"  # between both walls of a dado
    SHOULDER = "shoulder"  # on a rabbet's shoulder
    FLUSH = "flush"  # set flush or to a line by hand, then fastened
    FREE = "free"


@dataclass(frozen=True, slots=True)
class Joint:
    """The end of `bar` on the side `sign` at `at` (a bar across it), in `slot` or against its face.

    A placing joint is closed first: bottom, top and stretchers set the sides apart, a divider stands in the
    bottom. What comes after them meets what they left.
    """

    bar: str
    sign: int
    onto: str
    slot: Slot | None
    held: Held
    placing: bool


@dataclass(frozen=True)
class CaseShape:
    """What a case is made of, and how its bars meet. `along` gives the axis of each bar."""

    mark: str
    pieces: Mapping[str, Piece]
    along: Mapping[str, int]
    joints: tuple[Joint, ...]
    back: Piece | None
    on_pins: tuple[Piece, ...] = field(default=())


UPRIGHT = (Role.LEFT_SIDE, Role.RIGHT_SIDE, Role.DIVIDER)
FLAT = (Role.BOTTOM, Role.TOP, Role.FRONT_STRETCHER, Role.FIXED_SHELF, Role.TOE_KICK)
"""The back stretcher is none of them: that it is not quite as long as the front one twists a side, by under a
pound for 0.01 in. Nor are mounting strips, plinths and fillers, which go on a case that stands."""

PLACING = (Role.BOTTOM, Role.TOP, Role.FRONT_STRETCHER)


def shapes_of(project: Project, fitted: Collection[Role] = ()) -> tuple[CaseShape, ...]:
    """Every case of a job. Parts in the roles `fitted` are cut to the standing case: none is a bar."""
    return tuple(_case(project, mark, fitted) for mark in project.cases)


def _case(project: Project, mark: str, fitted: Collection[Role]) -> CaseShape:
    pieces = {part.mark: _piece(project, part) for part in project.cases[mark].parts}
    along = {
        piece.mark: Z if piece.role in UPRIGHT else X
        for piece in pieces.values()
        if piece.role in UPRIGHT + FLAT and piece.role not in fitted
    }
    joints = tuple(
        joint
        for bar in along
        if pieces[bar].role not in (Role.LEFT_SIDE, Role.RIGHT_SIDE)
        for sign in (-1, 1)
        for joint in _joints(pieces, along, bar, sign)
    )
    back = next((piece for piece in pieces.values() if piece.role is Role.BACK), None)
    shelves = tuple(piece for piece in pieces.values() if piece.role is Role.ADJUSTABLE_SHELF)
    return CaseShape(mark, pieces, along, joints, back, shelves)


def _piece(project: Project, part: Part) -> Piece:
    extent = part_extent(project, part)
    low, size = _floats(extent.low), _floats(extent.size)
    slots = tuple(_slot(project, part, channel, low) for channel in part.channels)
    pair = part.match or part.mark
    length, width = part.lie.length.value, part.lie.width.value
    return Piece(part.mark, part.role, part.material, pair, low, size, length, width, slots)


def _slot(project: Project, part: Part, channel: Channel, corner: tuple[float, float, float]) -> Slot:
    of = project.sizes.of
    box = channel.cut(part)
    walls = box.along(channel.edge.axis)
    across, into = channel.edge.axis.value, channel.face.axis.value
    return Slot(
        channel.name,
        channel.face,
        across,
        channel.edge.sign,
        corner[across] + float(of(walls.low)),
        corner[across] + float(of(walls.high)),
        corner[into] + float(of(channel.floor(part))),
        float(of(channel.at)),
        float(of(channel.width)),
        float(of(channel.depth)),
        channel.kind is ChannelKind.RABBET,
        channel.takes_back,
    )


def _joints(pieces: Mapping[str, Piece], along: Mapping[str, int], bar: str, sign: int) -> Iterator[Joint]:
    """What the end of a bar meets: its channel if it is in one, else every face it touches."""
    piece, axis = pieces[bar], along[bar]
    end = piece.end(axis, sign)
    across = X if axis == Z else Z
    span = (piece.corner[across], piece.end(across, 1))
    low_end = piece.role is Role.DIVIDER and sign < 0
    placing = piece.role in PLACING or low_end
    touched = []
    for other in (pieces[mark] for mark, way in along.items() if way != axis):
        if not _beside(piece, other):
            continue
        for slot in other.slots:
            faces = slot.face.axis.value == axis and slot.face.sign == -sign and not slot.back
            within = slot.low - NEAR < span[0] and span[1] < slot.high + NEAR
            if faces and within and abs(slot.floor - end) < NEAR:
                held = Held.SHOULDER if slot.rabbet else Held.WALLS
                yield Joint(bar, sign, other.mark, slot, held, placing)
                return
        reach = other.corner[across] - NEAR < span[0] and span[1] < other.end(across, 1) + NEAR
        if reach and abs(other.end(axis, -sign) - end) < NEAR:
            touched.append(other.mark)
    free = piece.role in (Role.TOE_KICK, Role.DIVIDER)
    for mark in touched:
        yield Joint(bar, sign, mark, None, Held.FREE if free else Held.FLUSH, placing)


def _beside(one: Piece, other: Piece) -> bool:
    return one.corner[Y] < other.end(Y, 1) - NEAR and other.corner[Y] < one.end(Y, 1) - NEAR


def _floats(point: tuple[Fraction, Fraction, Fraction]) -> tuple[float, float, float]:
    return float(point[0]), float(point[1]), float(point[2])


assert (Axis.X.value, Axis.Y.value, Axis.Z.value) == (X, Y, Z)
