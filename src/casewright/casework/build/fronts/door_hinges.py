"""The hinges of a door: its cups, and the screws of their plates in the side that it is hung on."""

from __future__ import annotations

from fractions import Fraction

from ....shop.hinges import LOW_DOOR, Hinge, cup_edge_for, hinges_needed, plate_line
from ....sizes.affine import Affine
from ...directions import Way
from ...parts.features.hinge_holes import HingeCups, HingePlate
from ...size_names import FeatureSizes, thickness_of
from ..bays import Upright
from ..case_draft import CaseDraft, PartDraft
from ..meetings import Meeting, Surface
from .front_room import FrontRoom
from .leaf import FrontLeaf

CUPS = "cups"


def hang_on_hinges(case: CaseDraft, leaf: FrontLeaf, way: Way, room: FrontRoom, low: Affine) -> int:
    """Bore the cups of a door that is hung on the side `way`, and its plates' screws in the upright there;
    gives the number of its hinges.

    `low` is the height of its lower edge above the lower ends of the case's sides. Nothing is bored where the
    case has no hinge, or one that cannot give the lap; nothing into an upright behind a face frame.
    """
    hinge, lap, upright = case.fittings.hinge(case.spec), room.laps[way], room.uprights[way]
    if hinge is None or cup_edge_for(case.book.value(lap), hinge) is None:
        return 0
    cups = _cups(case, leaf, way, lap, hinge)
    number = int(case.book.value(cups.number))
    if case.has_frame:
        return number
    for at in range(number):
        place = cups.first + cups.pitch * at
        plate = _plate(case, leaf, way, hinge, upright, low + place - upright.foot, at + 1)
        if at == 0:
            _lined_up(case, leaf.at[way], upright.part, cups, plate)
    return number


def _cups(case: CaseDraft, leaf: FrontLeaf, way: Way, lap: Affine, hinge: Hinge) -> HingeCups:
    """Evenly spaced from near the lower end to near the upper one, as far from the edge as the lap wants."""
    part, height = leaf.at[way], leaf.height
    number = _number(case, leaf, hinge)
    end = Affine(hinge.from_end)
    if case.book.value(height) * LOW_DOOR < hinge.from_end:
        end = height * LOW_DOOR
    sizes = FeatureSizes(part.mark, CUPS)
    words = f"{part.mark} hinge cups"
    from_edge = lap + hinge.cup_edge[0] - hinge.overlays[0] + hinge.cup / 2
    cups = HingeCups(
        CUPS,
        part.lie.worked,
        way,
        case.book.form(sizes.setback, from_edge, f"{words} from the edge"),
        Way.DOWN,
        case.book.form(sizes.first, end, f"{words}, the first from the lower end"),
        (height - 2 * end) / (number - 1),
        Affine(number),
        Affine(hinge.cup),
        Affine(hinge.cup_depth),
    )
    part.features.append(cups)
    return cups


def _number(case: CaseDraft, leaf: FrontLeaf, hinge: Hinge) -> int:
    height, width = case.book.value(leaf.height), case.book.value(leaf.width)
    if height <= 0 or width <= 0:
        return 2  # a finding says that there is no room for it
    weight = case.fittings.weight(case.spec.materials.front, height * width)
    return hinges_needed(weight, height, width, hinge).hinges


def _plate(
    case: CaseDraft, leaf: FrontLeaf, way: Way, hinge: Hinge, upright: Upright, center: Affine, number: int
) -> HingePlate:
    part, name = upright.part, f"plate-{leaf.short}-{number}"
    sizes = FeatureSizes(part.mark, name)
    words = f"{part.mark} plate {number} of {leaf.mark}"
    setback = Affine(plate_line(hinge, Fraction(0)))
    if hinge.inset:
        setback = setback + thickness_of(case.spec.materials.front)
    plate = HingePlate(
        name,
        way.opposite,
        Way.FRONT,
        case.book.form(sizes.setback, setback, f"{words} from the front"),
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
