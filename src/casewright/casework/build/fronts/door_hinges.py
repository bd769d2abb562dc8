"""The hinges of a door: its cups, and the screws of their plates in the side that it is hung on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from ....shop.hinges import LOW_DOOR, Hinge, cup_edge_for, hinges_needed, plate_line
from ....sizes.affine import NOTHING, Affine
from ...directions import Axis, Way
from ...parts.features.hinge_holes import HingeCups, HingePlate
from ...parts.part import Role
from ...size_names import FeatureSizes
from ..bays import Upright
from ..case_draft import CaseDraft, PartDraft
from ..meetings import Meeting, Surface
from .front_room import FrontRoom
from .leaf import FrontLeaf

CUPS = "cups"

PLATE_REACH = Fraction(3, 4)
"""How far a plate stands above and below its middle, inches: an inch and a half over all, from memory."""


@dataclass(frozen=True)
class DoorHinges:
    """The hinges of a door: what is hung, on which side and on what, and how far it laps over that; `hinge`
    is None where the case names none, and `number` is zero where nothing could be bored. `packing` is what
    its plates are packed out by to come level with a face frame."""

    leaf: str
    way: Way
    upright: str
    lap: Affine
    hinge: Hinge | None
    number: int
    packing: Affine = NOTHING


def hang_on_hinges(case: CaseDraft, leaf: FrontLeaf, way: Way, room: FrontRoom, low: Affine) -> DoorHinges:
    """Bore the cups of a door that is hung on the side `way`, and its plates' screws in the upright there.

    `low` is the height of its lower edge above the lower ends of the case's sides. Nothing is bored where the
    case has no hinge, or one that cannot give the lap; nothing into an upright behind a face frame.
    """
    lap, upright = room.covers[way], room.uprights[way]
    hinge = case.fittings.hinge(case.spec, upright.part.role is Role.DIVIDER)
    if hinge is None or cup_edge_for(case.book.value(lap), hinge) is None:
        return DoorHinges(leaf.mark, way, upright.part.mark, lap, hinge, 0)
    number = _number(case, leaf, way, hinge)
    end = _from_end(case, leaf, hinge)
    pitch = (leaf.height - 2 * end) / (number - 1)
    first = end
    if not case.has_frame:
        places = [end + pitch * at + low - upright.foot for at in range(number)]
        first = end + _clear_of_the_rest(case, leaf, upright.part, hinge, way, places)
    cups = _cups(case, leaf, way, lap, hinge, (first, pitch, number))
    if not case.has_frame:
        for at in range(number):
            center = first + pitch * at + low - upright.foot
            plate = _plate(case, leaf, way, hinge, upright, center, at + 1)
            if at == 0:
                _lined_up(case, leaf.at[way], upright.part, cups, plate)
    packing = room.into[way] if case.has_frame else NOTHING
    return DoorHinges(leaf.mark, way, upright.part.mark, lap, hinge, number, packing)


SHIFTS = tuple(sign * step * Fraction(1, 8) for step in range(9) for sign in ((1, -1) if step else (1,)))
"""Inches by which all hinges of a door may be moved along it, so that their plates are clear of what else is
in the side: up to an inch, which nobody sees. Common practice, no source."""


def _from_end(case: CaseDraft, leaf: FrontLeaf, hinge: Hinge) -> Affine:
    """How far the outermost cups are from the door's ends: as is usual, nearer on a door so low or so wide
    that its hinges would come closer together than it is wide."""
    height, width = case.book.value(leaf.height), case.book.value(leaf.width)
    if height * LOW_DOOR < hinge.from_end:
        return leaf.height * LOW_DOOR
    nearer = max(LEAST_FROM_END, (height - width) / 2 - NEARER_BY)
    if hinge.from_end > LEAST_FROM_END and height - 2 * hinge.from_end <= width:
        return Affine(min(nearer, hinge.from_end))
    return Affine(hinge.from_end)


LEAST_FROM_END = Fraction(3)
"""Inches from a door's end to its cup at least: a hardware page, 76 to 100 mm."""

NEARER_BY = Fraction(1, 4)
"""Inches by which the outermost hinges are further from each other than the door is wide, each way, where
they are moved for it. Common practice, no source."""


def _clear_of_the_rest(
    case: CaseDraft, leaf: FrontLeaf, part: PartDraft, hinge: Hinge, way: Way, places: Sequence[Affine]
) -> Fraction:
    """The least shift at which no plate stands at a shelf's dado and no screw hole runs into a pin hole;
    none where every shift meets something."""
    of, face = case.book.value, way.opposite
    setback = of(_from_front(case, leaf.at[way], hinge))
    dados: list[tuple[Fraction, Fraction]] = []
    pins: list[tuple[Fraction, Fraction]] = []
    for feature in part.features:
        if feature.face is not face:
            continue
        if (channel := feature.channel) and channel.edge.axis is Axis.Z:
            walls = channel.walls(part)
            dados.append((of(walls.low) - PLATE_REACH, of(walls.high) + PLATE_REACH))
        if feature.serves and feature.edges[0] is Way.FRONT:
            in_from, first, pitch, across, _ = (of(size.form) for size in feature.sizes)
            reach = (across + hinge.plate_pilot) / 2
            if abs(in_from - setback) < reach:
                holes = (first + pitch * at for at in range(int(of(feature.count))))
                pins += [(hole - reach, hole + reach) for hole in holes]
    middles = [of(place) for place in places]

    def clear(shift: Fraction) -> bool:
        at = [middle + shift for middle in middles]
        holes = [one + half for one in at for half in (-hinge.plate_holes / 2, hinge.plate_holes / 2)]
        return not any(low < one < high for low, high in dados for one in at) and not any(
            low < one < high for low, high in pins for one in holes
        )

    return next((shift for shift in SHIFTS if clear(shift)), Fraction(0))


def _from_front(case: CaseDraft, door: PartDraft, hinge: Hinge) -> Affine:
    """How far the holes of a door's plates are from the front edge of the side as it is bored: a strip that
    goes over the front of the case at the end adds to it."""
    setback = Affine(plate_line(hinge, Fraction(0))) - case.front_edging
    return setback + door.thickness if hinge.inset else setback


def _cups(
    case: CaseDraft,
    leaf: FrontLeaf,
    way: Way,
    lap: Affine,
    hinge: Hinge,
    row: tuple[Affine, Affine, int],
) -> HingeCups:
    """The cups in a row (the first from the lower end, their pitch, their number), as far from the edge as
    the lap wants."""
    part = leaf.at[way]
    first, pitch, number = row
    sizes = FeatureSizes(part.mark, CUPS)
    words = f"{part.mark} hinge cups"
    from_edge = lap + hinge.cup_edge[0] - hinge.overlays[0] + hinge.cup / 2
    cups = HingeCups(
        CUPS,
        part.lie.worked,
        way,
        case.book.form(sizes.setback, from_edge, f"{words} from the edge"),
        Way.DOWN,
        case.book.form(sizes.first, first, f"{words}, the first from the lower end"),
        pitch,
        Affine(number),
        Affine(hinge.cup),
        Affine(hinge.cup_depth),
    )
    part.features.append(cups)
    return cups


def _number(case: CaseDraft, leaf: FrontLeaf, way: Way, hinge: Hinge) -> int:
    height, width = case.book.value(leaf.height), case.book.value(leaf.width)
    if height <= 0 or width <= 0:
        return 2  # a finding says that there is no room for it
    weight = case.fittings.weight(leaf.at[way].material, height * width)
    return hinges_needed(weight, height, width, hinge).hinges


def _plate(
    case: CaseDraft, leaf: FrontLeaf, way: Way, hinge: Hinge, upright: Upright, center: Affine, number: int
) -> HingePlate:
    part, name = upright.part, f"plate-{leaf.short}-{number}"
    sizes = FeatureSizes(part.mark, name)
    words = f"{part.mark} plate {number} of {leaf.mark}"
    plate = HingePlate(
        name,
        way.opposite,
        Way.FRONT,
        case.book.form(sizes.setback, _from_front(case, leaf.at[way], hinge), f"{words} from the front"),
        Way.DOWN,
        case.book.form(sizes.first, center - hinge.plate_holes / 2, f"{words}, its lower hole"),
        Affine(hinge.plate_holes),
        Affine(Fraction(2)),
        Affine(hinge.plate_pilot),
        Affine(hinge.plate_pilot_depth),
    )
    part.features.append(plate)
    return plate


def _lined_up(
    case: CaseDraft, door: PartDraft, upright: PartDraft, cups: HingeCups, plate: HingePlate
) -> None:
    """The plates hold the door's lower edge as far below the lowest of them as it is below its lowest cup."""
    edge = plate.first + plate.pitch / 2 - cups.first
    case.meet(
        f"{door.mark} level on the plates in {upright.mark}",
        Meeting.FLUSH,
        Surface(upright.mark, Way.DOWN, edge, f"where the plates in {upright.mark} hold {door.mark}"),
        door.side(Way.DOWN),
    )
