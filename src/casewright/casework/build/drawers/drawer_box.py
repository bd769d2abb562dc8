"""A drawer box from its outside sizes: five parts, their joints, and how they meet.

The sides are as long as the box, or as their dovetails make them. Front and back reach between them, or into
them by the corner joint, and the bottom lies in grooves.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ....sizes.affine import NOTHING, Affine
from ...directions import Axis, Way
from ...front_choices import DrawerBottom, DrawerJoint
from ...parts.features.channel import Channel, ChannelKind
from ...parts.part import Hand, Lie, PartName, Role
from ...size_names import part_mark, thickness_of
from ..case_draft import CaseDraft, PartDraft
from ..joints.channel_walls import near_and_far
from ..joints.housing import house
from ..meetings import Meeting, Surface
from .dovetailed_corner import dovetail, past_the_ends
from .placed_drawers import BoxSizes, DrawerParts

LEFT = Lie(Axis.Y, Axis.Z, Way.RIGHT)
RIGHT = Lie(Axis.Y, Axis.Z, Way.LEFT)
FRONT = Lie(Axis.X, Axis.Z, Way.BACK)
BACK = Lie(Axis.X, Axis.Z, Way.FRONT)
BOTTOM = Lie(Axis.X, Axis.Y, Way.UP)
"""The face that looks into the box takes the groove of the bottom."""


@dataclass(frozen=True)
class _Box:
    """The parts of a box that stand on their edges: its sides, front and back."""

    number: str
    left: PartDraft
    right: PartDraft
    front: PartDraft
    back: PartDraft

    @property
    def sides(self) -> tuple[tuple[PartDraft, Way], tuple[PartDraft, Way]]:
        """Both sides, each with the direction that its inner face looks."""
        return (self.left, Way.RIGHT), (self.right, Way.LEFT)

    @property
    def ends(self) -> tuple[tuple[PartDraft, Way], tuple[PartDraft, Way]]:
        """Front and back, each with the direction that its outer face looks."""
        return (self.front, Way.FRONT), (self.back, Way.BACK)


def draw_drawer_box(case: CaseDraft, number: str, sizes: BoxSizes) -> DrawerParts:
    """Draw up the box of the drawer of that `number`. Nothing says yet where in the case it stands."""
    sides = _sides(case, number, sizes)
    box = _Box(number, *sides, *_ends(case, number, sizes, sides))
    for end, way in box.ends:
        for side, face in box.sides:
            _corner(case, side, face, end, way)
    _level(case, box)
    bottom = _bottom(case, box, sizes)
    return DrawerParts(box.left.mark, box.right.mark, box.front.mark, box.back.mark, bottom.mark)


def reach_into_side(case: CaseDraft, side: PartDraft) -> Affine:
    """How far the front and back of a box go into one of its sides: dovetailed they go through it."""
    joint = case.spec.construction.drawer_joint
    if joint.is_dovetailed:
        return side.thickness + case.of("drawer_proud")
    return NOTHING if joint is DrawerJoint.BUTT else case.of("drawer_cut")


def side_thickness(case: CaseDraft, number: str) -> Affine:
    """How thick the sides of the drawer of that `number` are: of its own material, where it has one."""
    mark = part_mark(case.spec.mark, f"{PartName.DRAWER_LEFT}{number}")
    return thickness_of(case.sheet_of.get(mark, case.spec.materials.drawer))


def _sides(case: CaseDraft, number: str, sizes: BoxSizes) -> tuple[PartDraft, PartDraft]:
    match = f"{case.spec.mark} drawer {number} sides"
    material = case.spec.materials.drawer

    long = sizes.length + past_the_ends(case, number)

    def side(name: str, lie: Lie, hand: Hand) -> PartDraft:
        short = f"{name}{number}"
        return case.part(short, Role.DRAWER_SIDE, material, lie, long, sizes.height, hand=hand, match=match)

    return side(PartName.DRAWER_LEFT, LEFT, Hand.LEFT), side(PartName.DRAWER_RIGHT, RIGHT, Hand.RIGHT)


def _ends(
    case: CaseDraft, number: str, sizes: BoxSizes, sides: tuple[PartDraft, PartDraft]
) -> tuple[PartDraft, PartDraft]:
    """The front and the back of a box, the back lower where the bottom slides in under it."""
    left, right = sides
    material = case.spec.materials.drawer
    length = sizes.width - left.thickness - right.thickness
    length = length + reach_into_side(case, left) + reach_into_side(case, right)
    lower = case.spec.construction.drawer_bottom is DrawerBottom.SLID_IN
    behind = sizes.height - sizes.up - _bottom_groove(case) if lower else sizes.height
    match = f"{case.spec.mark} drawer {number} front and back"
    front = case.part(
        f"{PartName.INNER_FRONT}{number}",
        Role.INNER_FRONT,
        material,
        FRONT,
        length,
        sizes.height,
        match=None if lower else match,
    )
    back = case.part(
        f"{PartName.DRAWER_BACK}{number}",
        Role.DRAWER_BACK,
        material,
        BACK,
        length,
        behind,
        match=None if lower else match,
    )
    return front, back


def _corner(case: CaseDraft, side: PartDraft, face: Way, end: PartDraft, way: Way) -> None:
    """One corner of a box: `end` meets the inner `face` of a side, flush with the end of it that looks
    `way`."""
    match case.spec.construction.drawer_joint:
        case DrawerJoint.LOCKED_RABBET:
            _locked_rabbet(case, side, face, end, way)
        case DrawerJoint.RABBET:
            name = f"rabbet-{way.word}"
            cut = Channel(name, ChannelKind.RABBET, face, way, NOTHING, end.thickness, case.of("drawer_cut"))
            house(case, end, side, case.channel(side, name, cut))
        case joint if joint.is_dovetailed:
            dovetail(case, side, face, end, way)
        case DrawerJoint.BUTT:
            case.seat(end, face.opposite, side)
            case.flush(way, side, end)


def _locked_rabbet(case: CaseDraft, side: PartDraft, face: Way, end: PartDraft, way: Way) -> None:
    """A dado in the side, its inner wall as far from the side's end as the front or back is thick, and a
    rabbet over the outer face of that which leaves a tongue for it."""
    deep, wide, name = case.of("drawer_cut"), case.of("drawer_tongue"), f"dado-{way.word}"
    dado = case.channel(
        side, name, Channel(name, ChannelKind.DADO, face, way, end.thickness - wide, wide, deep)
    )
    tongue = wide - case.of("dado_play")
    cut = f"rabbet-{face.opposite.word}"
    rabbet = case.channel(
        end, cut, Channel(cut, ChannelKind.RABBET, way, face.opposite, NOTHING, deep, end.thickness - tongue)
    )
    floor = Surface(side.mark, face, dado.floor(side), f"floor of the dado in {side.mark}")
    case.meet(
        f"{end.mark} on the floor of the dado in {side.mark}",
        Meeting.SEATED,
        floor,
        end.side(face.opposite),
    )
    outer, inner = near_and_far(side, dado)
    case.meet(
        f"{end.mark} against the inner wall of the dado in {side.mark}",
        Meeting.SEATED,
        inner,
        end.side(way.opposite),
    )
    case.meet(
        f"tongue of {end.mark} in the dado of {side.mark}",
        Meeting.SLIP,
        outer,
        Surface(end.mark, way, rabbet.floor(end), f"tongue of {end.mark}"),
        case.of("dado_play"),
    )


def _level(case: CaseDraft, box: _Box) -> None:
    """The edges of front and sides are flush below; a lower back is flush above."""
    case.flush(Way.DOWN, box.front, box.left)
    case.flush(Way.DOWN, box.front, box.right)
    slid_in = case.spec.construction.drawer_bottom is DrawerBottom.SLID_IN
    case.flush(Way.UP if slid_in else Way.DOWN, box.left, box.back)


def _bottom_groove(case: CaseDraft) -> Affine:
    """How wide the groove of the bottom is."""
    return thickness_of(case.spec.materials.drawer_bottom) + case.of("groove_play")


def _bottom(case: CaseDraft, box: _Box, sizes: BoxSizes) -> PartDraft:
    """The bottom in its grooves, with its play in front of it and beside it."""
    deep, play = case.of("drawer_cut"), case.of("drawer_play")
    slid_in = case.spec.construction.drawer_bottom is DrawerBottom.SLID_IN
    holders = dict(_holders(box, slid_in))
    grooved = {face: _groove(case, part, face, sizes) for face, part in holders.items()}
    reach = reach_into_side(case, box.left) + reach_into_side(case, box.right)
    across = box.front.size(Axis.X) - reach + 2 * deep - play
    between = sizes.length - box.front.thickness - box.back.thickness
    along = between + deep + (box.back.thickness if slid_in else deep - play)
    bottom = case.part(
        f"{PartName.DRAWER_BOTTOM}{box.number}",
        Role.DRAWER_BOTTOM,
        case.spec.materials.drawer_bottom,
        BOTTOM,
        across,
        along,
    )
    for face, holder in holders.items():
        first = face in (Way.RIGHT, Way.BACK)  # pushed left and forward, so the play is on the other side
        case.meet(
            f"{bottom.mark} in the groove of {holder.mark}",
            Meeting.SEATED if first else Meeting.PLAY,
            Surface(holder.mark, face, grooved[face].floor(holder), f"groove floor of {holder.mark}"),
            bottom.side(face.opposite),
            NOTHING if first else play,
        )
    walls = grooved[Way.RIGHT].walls(box.left)
    case.meet(
        f"{bottom.mark} on the lower wall of the groove in {box.left.mark}",
        Meeting.SEATED,
        Surface(box.left.mark, Way.UP, walls.low, f"lower groove wall of {box.left.mark}"),
        bottom.side(Way.DOWN),
    )
    case.meet(
        f"{bottom.mark} under the upper wall of the groove in {box.left.mark}",
        Meeting.SLIP,
        bottom.side(Way.UP),
        Surface(box.left.mark, Way.DOWN, walls.high, f"upper groove wall of {box.left.mark}"),
        case.of("groove_play"),
    )
    if slid_in:
        case.flush(Way.BACK, box.back, bottom)
    return bottom


def _holders(box: _Box, slid_in: bool) -> Iterator[tuple[Way, PartDraft]]:
    """The parts with a groove for the bottom, by the direction that the grooved face looks."""
    for side, face in box.sides:
        yield face, side
    for end, way in box.ends[:1] if slid_in else box.ends:
        yield way.opposite, end


def _groove(case: CaseDraft, part: PartDraft, face: Way, sizes: BoxSizes) -> Channel:
    name = "groove-bottom"
    wide, deep = _bottom_groove(case), case.of("drawer_cut")
    return case.channel(part, name, Channel(name, ChannelKind.GROOVE, face, Way.DOWN, sizes.up, wide, deep))
