"""The doors and drawer fronts of a case: their heights shared out, each hung where the gaps are even."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import count

from ....sizes.affine import NOTHING, Affine, total
from ....sizes.ledger import Share
from ...directions import Way
from ...front_choices import DoorKind, DrawerGrain, FrontKind, FrontLie, Hung
from ...parts.part import Hand, PartName, Role
from ...size_names import tag
from ..bays import BayPlace
from ..case_draft import CaseDraft
from ..face_frame import BareCase
from ..meetings import Meeting
from .cross_rails import draw_cross_rails
from .door_hinges import DoorHinges, hang_on_hinges
from .framed_door import framed_door
from .front_room import FrontRoom, UnderFrame, front_rooms
from .leaf import DOOR_LIE, FRONT_LIE, FrontLeaf, slab
from .placed_fronts import BayFronts, PlacedFront

Numbers = Mapping[str, Iterator[int]]
"""The numbers of the next door, drawer front and fixed front of the case, by their short names."""

_WAY = {Hung.LEFT: Way.LEFT, Hung.RIGHT: Way.RIGHT}
_HAND = {Way.LEFT: Hand.LEFT, Way.RIGHT: Hand.RIGHT}


def draw_fronts(box: BareCase, around: UnderFrame) -> tuple[BayFronts, ...]:
    """Draw up the fronts of every bay that has any."""
    shorts = (PartName.DOOR, PartName.DRAWER_FRONT, PartName.FIXED_FRONT)
    numbers: Numbers = {short: count(1) for short in shorts}
    found = []
    for place, room in front_rooms(box, around):
        found.append(_bay_fronts(box.case, place, room, numbers))
        if around.over_all:
            heights = [front.height for front in found[-1].fronts]
            draw_cross_rails(around.over_all, around.first + place.number - 1, room, heights)
    return tuple(found)


def _bay_fronts(case: CaseDraft, place: BayPlace, room: FrontRoom, numbers: Numbers) -> BayFronts:
    """The fronts of one bay, each standing on the one below it."""
    placed: list[PlacedFront] = []
    below: dict[Way, FrontLeaf] = {}
    low = room.floor - room.laps[Way.DOWN]
    for front, height in zip(place.bay.fronts, _heights(case, place, room), strict=True):
        ways = (Way.LEFT, Way.RIGHT) if front.kind is FrontKind.TWO_DOORS else (_WAY[front.hung],)
        width = (room.width - (len(ways) - 1) * case.of("front_gap")) / len(ways)
        leaves = [_leaf(case, front.kind, width, height, _HAND[way], numbers) for way in ways]
        hinges: list[DoorHinges] = []
        for leaf, way in zip(leaves, ways, strict=True):
            _place(case, room, leaf, way, below.get(way))
            if front.kind.is_door:
                hinges.append(hang_on_hinges(case, leaf, way, room, low))
        _across(case, room, leaves, ways[-1])
        marks = tuple(leaf.mark for leaf in leaves)
        placed.append(PlacedFront(front.kind, low, height, marks, tuple(hinges)))
        below, low = {Way.LEFT: leaves[0], Way.RIGHT: leaves[-1]}, low + height + room.between
    _up_to(case, room, below[Way.LEFT], Way.UP)
    return BayFronts(place.number, room.height, room.between, tuple(placed))


def _heights(case: CaseDraft, place: BayPlace, room: FrontRoom) -> tuple[Affine, ...]:
    """The height of each front from the bottom up: as given, or a share of what is left.

    Shares are exact, so that equal fronts are the same part.
    """
    fronts = place.bay.fronts
    heights = tuple(case.sizes.front(place.number, at) for at in range(1, len(fronts) + 1))
    if len(fronts) == 1:  # nothing is shared: it takes all there is
        words = f"height of front {tag(place.number, 1)} of {case.spec.mark}"
        return (case.book.form(heights[0], room.height, words),)
    shared = [at for at, front in enumerate(fronts) if front.height is None]
    rest = room.height - (len(fronts) - 1) * room.between
    rest = rest - total(height for at, height in enumerate(heights) if at not in shared)
    weights = tuple(fronts[at].weight for at in shared)
    for number, at in enumerate(shared):
        words = f"height of front {tag(place.number, at + 1)} of {case.spec.mark}"
        case.book.enter(heights[at], Share(rest, weights, number), words)
    return heights


def _leaf(
    case: CaseDraft, kind: FrontKind, width: Affine, height: Affine, hand: Hand, numbers: Numbers
) -> FrontLeaf:
    upright = case.spec.construction.drawer_grain is DrawerGrain.UPRIGHT
    lie = DOOR_LIE if upright else FRONT_LIE
    match kind:
        case FrontKind.DRAWER:
            short = f"{PartName.DRAWER_FRONT}{next(numbers[PartName.DRAWER_FRONT])}"
            return slab(case, short, Role.DRAWER_FRONT, lie, width, height)
        case FrontKind.FIXED:
            short = f"{PartName.FIXED_FRONT}{next(numbers[PartName.FIXED_FRONT])}"
            return slab(case, short, Role.FIXED_FRONT, lie, width, height)
    short = f"{PartName.DOOR}{next(numbers[PartName.DOOR])}"
    if case.spec.construction.door is DoorKind.FRAME_AND_PANEL:
        return framed_door(case, short, width, height, hand)
    return slab(case, short, Role.DOOR, DOOR_LIE, width, height, hand)


def _place(case: CaseDraft, room: FrontRoom, leaf: FrontLeaf, way: Way, below: FrontLeaf | None) -> None:
    """The place of a leaf by the side it is hung on, by what is below it, and how far it is before the
    case."""
    beside = room.beside[way]
    _at_side(case, room, leaf, way)
    if below:
        words = f"{leaf.mark} above {below.mark}"
        case.meet(words, Meeting.PLAY, below.side(Way.UP), leaf.side(Way.DOWN), room.between)
    else:
        _at_side(case, room, leaf, Way.DOWN)
    if case.spec.construction.fronts is FrontLie.INSET:
        words = f"{leaf.mark} flush with {beside.mark}, front"
        case.meet(words, Meeting.FLUSH, beside.side(Way.FRONT), leaf.side(Way.FRONT), -room.out)
    else:
        words, off = f"{leaf.mark} before {beside.mark}", case.of("front_off") + room.out
        case.meet(words, Meeting.PLAY, leaf.side(Way.BACK), beside.side(Way.FRONT), off)


def _across(case: CaseDraft, room: FrontRoom, leaves: Sequence[FrontLeaf], hung: Way) -> None:
    """What the places of its leaves leave between them, or at the side that a single one is not hung on."""
    if len(leaves) == 1:
        _up_to(case, room, leaves[0], hung.opposite)
        return
    left, right = leaves
    words, gap = f"{right.mark} beside {left.mark}", case.of("front_gap")
    case.meet(words, Meeting.PLAY, left.side(Way.RIGHT), right.side(Way.LEFT), gap)


def _at_side(case: CaseDraft, room: FrontRoom, leaf: FrontLeaf, way: Way) -> None:
    """Place a leaf over, or beside, what bounds the opening at one side."""
    beside = room.beside[way]
    offset = way.sign * (room.laps[way] - beside.size(way.axis))
    words = f"{leaf.mark} at its place on {beside.mark}"
    case.meet(words, Meeting.FLUSH, beside.side(way), leaf.side(way), offset)


def _up_to(case: CaseDraft, room: FrontRoom, leaf: FrontLeaf, way: Way) -> None:
    """How far a leaf that is placed already comes at another side of the opening."""
    beside, lap = room.beside[way], room.laps[way]
    words = f"{leaf.mark} up to its place on {beside.mark}"
    if case.spec.construction.fronts is FrontLie.INSET and room.out == NOTHING:
        case.meet(words, Meeting.PLAY, leaf.side(way), beside.side(way.opposite), -lap)
    else:
        offset = way.sign * (beside.size(way.axis) - lap)
        case.meet(words, Meeting.FLUSH, leaf.side(way), beside.side(way), offset)
