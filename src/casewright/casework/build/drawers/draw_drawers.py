"""The drawers of a case: each box as large as its slides allow, behind its front and between the uprights.

A drawer's own stretch of the opening reaches from the middle of the gap below its front to the middle of the
gap above it, from rail to rail of a face frame, or to the end of the opening. The box is sized from the
opening, so a case that was measured drives its drawers.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from ....shop.slides import Slide, screw_holes, slide_length
from ....sizes.affine import NOTHING, Affine
from ...directions import Way
from ...front_choices import FrontKind, FrontLie
from ...job import BackKind
from ...parts.part import PartName
from ...size_names import part_mark, tag, thickness_of
from ..bays import BayPlace
from ..case_draft import CaseDraft
from ..face_frame import BareCase
from ..fronts.front_room import ACROSS, FrontRoom, UnderFrame, front_rooms
from ..fronts.placed_fronts import BayFronts
from ..meetings import Meeting
from .drawer_box import draw_drawer_box, side_thickness
from .placed_drawers import BoxSizes, DrawerParts, DrawerRoom, OnSlides, PlacedDrawer
from .slide_screws import bore_for_slides

LEAST_SIDE = Fraction(1)
"""Inches that the sides of a drawer stand above its bottom at least, and that it is wide inside; less holds
nothing. Common practice, no source."""


def draw_drawers(
    box: BareCase, around: UnderFrame, fronts: tuple[BayFronts, ...]
) -> tuple[PlacedDrawer, ...]:
    """Draw up a box behind every drawer front, as far as there are slides for it that the case takes."""
    case = box.case
    slide = case.fittings.slide(case.spec)
    found = []
    for (place, room), closed in zip(front_rooms(box, around), fronts, strict=True):
        for number, one in enumerate(closed.fronts, 1):
            if one.kind is FrontKind.DRAWER:
                low, high = _stretch(case, closed, room, number)
                deep = _depth(case, place, one.leaves[0])
                wide = place.width - _into(case, room, Way.LEFT) - _into(case, room, Way.RIGHT)
                drawer = PlacedDrawer(place.number, number, one.leaves[0], DrawerRoom(wide, high, deep))
                lows = (one.low, low)
                found.append(_on_slides(case, place, room, drawer, lows, slide) if slide else drawer)
    return tuple(found)


def _stretch(case: CaseDraft, closed: BayFronts, room: FrontRoom, number: int) -> tuple[Affine, Affine]:
    """Where a drawer's stretch of the opening begins, above the lower edge of its front, and how high it
    is."""
    half = -room.over_rail if case.has_frame else case.of("front_gap") / 2
    first, last = number == 1, number == len(closed.fronts)
    low = room.laps[Way.DOWN] if first else -half
    above = half
    if last:  # the rail of a frame that is drawn with a neighbour hangs below what bounds the opening here
        above = -room.laps[Way.UP] - (room.into[Way.UP] if room.out != NOTHING else NOTHING)
    return low, closed.fronts[number - 1].height - low + above


def _depth(case: CaseDraft, place: BayPlace, front: str) -> Affine:
    """The clear depth from the back of a drawer front to what stands behind."""
    made = case.spec.construction
    depth = place.depth + case.front_strip
    if made.fronts is FrontLie.INSET:
        depth = depth - case.parts[front].thickness
    if made.strips and made.back is not BackKind.GROOVE:
        depth = depth - thickness_of(case.spec.materials.strip)
    return depth


def _into(case: CaseDraft, room: FrontRoom, way: Way) -> Affine:
    """How far a face frame narrows the bay at one side: blocking brings the slide level with it."""
    return room.into[way] if case.book.value(room.into[way]) > 0 else NOTHING


def _on_slides(
    case: CaseDraft,
    place: BayPlace,
    room: FrontRoom,
    drawer: PlacedDrawer,
    low: tuple[Affine, Affine],
    slide: Slide,
) -> PlacedDrawer:
    """The drawer on the longest of these slides that the case takes, with its box if there is room for it.

    `low` is how far the lower edge of its front is above the lower ends of the case's sides, and its stretch
    of the opening above that edge. Behind a face frame the slides are screwed to blocking: nothing is bored.
    """
    length = slide_length(case.book.value(drawer.room.deep), slide)
    if length is None:
        return replace(drawer, slide=slide)
    number = drawer.front.removeprefix(part_mark(case.spec.mark, PartName.DRAWER_FRONT))
    thick = side_thickness(case, number)
    beside = Affine(slide.narrower) / 2 - (thick if slide.from_inside else NOTHING)
    sizes = BoxSizes(
        drawer.room.wide - 2 * beside,
        _height(case, place, drawer, slide),
        Affine(length),
        Affine(slide.recess) if slide.recess else case.of("drawer_up"),
    )
    blocking = (_into(case, room, Way.LEFT), _into(case, room, Way.RIGHT))
    on = OnSlides(slide, length, sizes, beside, blocking)
    high, up, inside = (case.book.value(form) for form in (sizes.height, sizes.up, sizes.width - 2 * thick))
    if high >= least_height(slide, up) and inside >= LEAST_SIDE:
        box = draw_drawer_box(case, number, sizes)
        on = replace(on, box=box)
        above = low[1] + max(slide.below, slide.lower / 2)
        _place(case, place, box, drawer.front, above, on)
        holes = screw_holes(slide, length)
        if holes and not case.has_frame:
            bore_for_slides(case, place, box, drawer.front, low[0] + above, holes)
    return replace(drawer, slide=slide, on=on)


def _height(case: CaseDraft, place: BayPlace, drawer: PlacedDrawer, slide: Slide) -> Affine:
    """How high a box is: as the maker says, or as high as its slides allow."""
    height = case.sizes.drawer_box(drawer.bay, drawer.place)
    if place.bay.fronts[drawer.place - 1].box_height is None:
        words = f"height of the drawer box behind front {tag(drawer.bay, drawer.place)} of {case.spec.mark}"
        case.book.form(height, drawer.room.high - slide.lower, words)
    return height


def least_height(slide: Slide, up: Fraction) -> Fraction:
    """How high the sides of a drawer are at least, in inches: so that it holds something above its bottom,
    which is `up` from their lower edges, and so that the slides can be screwed to them."""
    return max(up + LEAST_SIDE, slide.least_side or Fraction(0))


def _place(
    case: CaseDraft,
    bay: BayPlace,
    box: DrawerParts,
    front: str,
    up: Affine,
    on: OnSlides,
) -> None:
    """A box against the back of its front, `up` above the lower edge of that, between its slides."""
    inner = case.parts[box.front]
    case.seat(inner, Way.FRONT, case.parts[front])
    words = f"{inner.mark} at its height on {front}"
    case.meet(words, Meeting.FLUSH, case.parts[front].side(Way.DOWN), inner.side(Way.DOWN), up)
    sides = (case.parts[box.left], case.parts[box.right])
    for side, way, upright, block in zip(sides, ACROSS, (bay.left, bay.right), on.blocking, strict=True):
        words = f"{side.mark} beside its slide on {upright.part.mark}"
        case.meet(words, Meeting.PLAY, upright.part.side(way.opposite), side.side(way), on.beside + block)
