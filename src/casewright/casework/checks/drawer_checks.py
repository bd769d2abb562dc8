"""Drawers that no slide fits, that have no room, or that a shelf is in the way of."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import product

from ...findings import Finding, Weight
from ...lengths.told_lengths import told_at_least, told_at_most
from ...shop.slides import Slide, least_depth
from ...sizes.ledger import Sizes
from ..build.case import Case
from ..build.drawers.draw_drawers import LEAST_SIDE, least_height
from ..build.drawers.placed_drawers import DrawerParts, OnSlides, PlacedDrawer
from ..directions import Axis
from ..front_choices import DrawerBottom, DrawerJoint, FrontKind
from ..job import CaseSpec, Job, Run
from ..parts.features.slide_holes import SlideHoles
from ..parts.holes import Bore
from ..parts.part import Part, PartName, Role
from ..size_names import part_mark, tag, thickness_of
from .pin_checks import printed_length

LEAST_LAP = Fraction(3, 32)
"""Inches that half-blind dovetails leave before the tails at least: Fine Woodworking, Building Furniture
2007, has laps of 3/32 to 3/16 in fronts of 3/4 to 7/8."""


def check_drawers(
    job: Job, standing: Iterable[tuple[Run, Sequence[Case]]], sizes: Sizes
) -> Iterator[Finding]:
    """Findings about the drawers of the cases of each run."""
    for _, cases in standing:
        for case in cases:
            if case.drawers:
                checker = _Drawers(job, case, sizes)
                yield from checker.of_the_case()
                for drawer in case.drawers:
                    yield from checker.of_one(drawer)
                for part in case.parts:
                    yield from _slide_holes(job, part, sizes)


class _Drawers:
    """The checks of the drawers of one case."""

    def __init__(self, job: Job, case: Case, sizes: Sizes) -> None:
        self._job = job
        self._case = case
        self._sizes = sizes

    def _print(self, length: Fraction) -> str:
        return printed_length(self._job, length)

    def _at_least(self, length: Fraction) -> str:
        return told_at_least(length, self._job.mark)

    def _at_most(self, length: Fraction) -> str:
        return told_at_most(length, self._job.mark)

    def of_the_case(self) -> Iterator[Finding]:
        """What holds for all drawers of a case: the slides, and the sheet that their boxes are made of."""
        spec, mark, slide = self._case.spec, self._case.mark, self._case.drawers[0].slide
        if slide is None:
            yield _without_slide(self._job, spec)
            return
        thick = self._sizes.of(thickness_of(spec.materials.drawer))
        sides = f"the sides of the drawers of {mark} are {self._print(thick)} thick"
        if slide.thickest is not None and thick > slide.thickest:
            text = f"{sides}, and {slide.name} take sides up to {self._print(slide.thickest)}."
            fix = "Choose a thinner sheet for made_of.drawer, or other slides."
            yield Finding("drawer-sides-too-thick", f"cases.{mark}.made_of.drawer", text, fix)
        made = spec.construction
        if made.drawer_joint is DrawerJoint.LOCKED_RABBET and made.drawer_tongue >= thick:
            text = f"{sides}, and the dados for their tongues are {self._print(made.drawer_tongue)} wide."
            fix = f"Make drawer_tongue {self._print(thick / 2)}, half of that, or choose another joint."
            yield Finding("drawer-tongue-too-thick", f"cases.{mark}.drawer_tongue", text, fix)
        if made.drawer_joint.has_laps:
            yield from self._laps(thick)

    def _laps(self, thick: Fraction) -> Iterator[Finding]:
        """What half-blind tails leave before them of a front that is `thick`."""
        made, mark = self._case.spec.construction, self._case.mark
        place, fronts = f"cases.{mark}.drawer_tail", f"the fronts of the drawer boxes of {mark}"
        tail, left = self._print(made.drawer_tail), thick - made.drawer_tail
        fix = f"Make drawer_tail {self._at_most(thick - LEAST_LAP)} or less, or dovetail through."
        if left <= 0:
            text = f"half-blind tails {tail} long would come out of {fronts}: {self._print(thick)} thick."
            yield Finding("no-lap", place, text, fix)
        elif left < LEAST_LAP:
            text = (
                f"half-blind tails {tail} long leave a lap of {self._print(left)} in {fronts}: less than "
                f"{self._print(LEAST_LAP)} breaks out or lets the tails show through."
            )
            yield Finding("lap-too-thin", place, text, fix, Weight.WARN)

    def of_one(self, drawer: PlacedDrawer) -> Iterator[Finding]:
        """What keeps one drawer from being made, or from opening."""
        if drawer.slide and drawer.on is None:
            yield self._no_length(drawer, drawer.slide)
        elif drawer.on and (wrong := self._height(drawer, drawer.on)):
            yield wrong
        elif drawer.on and drawer.on.box is None:
            yield self._too_narrow(drawer)
        elif drawer.on and drawer.on.box:
            yield from self._pitch(drawer, drawer.on)
            yield from self._shelves(drawer, drawer.on.box)

    def _place(self, drawer: PlacedDrawer) -> str:
        return f"cases.{self._case.mark}.bays[{drawer.bay - 1}].fronts[{drawer.place - 1}]"

    def _no_length(self, drawer: PlacedDrawer, slide: Slide) -> Finding:
        """No slide is short enough for the depth of the case."""
        room = self._sizes.of(drawer.room.deep)
        shortest = min(slide.lengths)
        lacks = least_depth(shortest, slide) - room
        text = (
            f"the shortest {slide.name} are {self._print(shortest)} long and need "
            f"{self._print(least_depth(shortest, slide))} behind {drawer.front}, where the case has "
            f"{self._print(room)}."
        )
        fix = f"Make {self._case.mark} {self._at_least(lacks)} deeper, or choose shorter slides."
        return Finding("no-slide-fits", f"cases.{self._case.mark}.depth", text, fix)

    def _height(self, drawer: PlacedDrawer, on: OnSlides) -> Finding | None:
        """An opening too low for any box, or a height of the maker's own that is too much or too little."""
        high, up, room = (self._sizes.of(form) for form in (on.sizes.height, on.sizes.up, drawer.room.high))
        most, least = room - on.slide.lower, least_height(on.slide, up)
        if most < least:
            text = (
                f"the opening behind {drawer.front} is {self._print(room)} high: a drawer on {on.slide.name} "
                f"needs {self._at_least(least + on.slide.lower)} at least."
            )
            fix = f"Make the front {self._at_least(least - most)} higher, or choose other slides."
            return Finding("drawer-too-low", f"{self._place(drawer)}.height", text, fix)
        box, place = f"the box behind {drawer.front}", f"{self._place(drawer)}.box_height"
        if high > most:
            fits, more = self._at_most(most), self._at_least(high - most)
            text = f"{box} is {self._print(high)} high, and {on.slide.name} leave room for {fits} at most."
            fix = f"Make box_height {fits} or less, or the front {more} higher."
            return Finding("drawer-box-too-high", place, text, fix)
        if high < least:
            needs = self._at_least(least)
            text = (
                f"{box} is {self._print(high)} high, and a drawer on {on.slide.name} needs {needs} at least."
            )
            return Finding("drawer-box-too-low", place, text, f"Make box_height {needs} or more.")
        return None

    def _pitch(self, drawer: PlacedDrawer, on: OnSlides) -> Iterator[Finding]:
        """A dovetailed box that is no whole number of the jig's tails high."""
        made = self._case.spec.construction
        pitch = made.drawer_pitch
        high, up, room = (self._sizes.of(form) for form in (on.sizes.height, on.sizes.up, drawer.room.high))
        if not made.drawer_joint.is_dovetailed or not pitch or not high % pitch:
            return
        whole = high // pitch * pitch
        lowest, highest = least_height(on.slide, up), room - on.slide.lower
        # A lower back is as high as the bottom leaves it, so its corners rarely come out even.
        where = "at the front " if made.drawer_bottom is DrawerBottom.SLID_IN else ""
        suit = [self._print(one) for one in (whole, whole + pitch) if lowest <= one <= highest]
        text = (
            f"the box behind {drawer.front} is {self._print(high)} high, and the jig's tails are "
            f"{self._print(pitch)} apart: {where}they do not come out even, with half a pin at both edges."
        )
        fix = f"Make box_height {' or '.join(suit)}." if suit else "Lay these dovetails out by hand."
        yield Finding("box-off-the-pitch", f"{self._place(drawer)}.box_height", text, fix, Weight.WARN)

    def _too_narrow(self, drawer: PlacedDrawer) -> Finding:
        """The opening is too narrow for a box."""
        wide = self._print(self._sizes.of(drawer.room.wide))
        text = (
            f"the opening behind {drawer.front} is {wide} wide: with its slides and sides, less than "
            f"{self._print(LEAST_SIDE)} is left inside the drawer."
        )
        bay = f"cases.{self._case.mark}.bays[{drawer.bay - 1}].width"
        return Finding("drawer-too-narrow", bay, text, "Make the bay wider.")

    def _shelves(self, drawer: PlacedDrawer, box: DrawerParts) -> Iterator[Finding]:
        """Shelves that stand where the box is to run."""
        floor = self._span(next(part for part in self._case.parts if part.role is Role.BOTTOM))[1]
        low, high = self._span(self._part(box.left))
        bay = self._case.spec.bays[drawer.bay - 1]
        for shelf in self._shelves_of(drawer.bay):
            under, over = self._span(shelf)
            if not (under < high and low < over):
                continue
            text = (
                f"{shelf.mark} stands in the way of the drawer behind {drawer.front}, whose box reaches from "
                f"{self._print(low - floor)} to {self._print(high - floor)} above the bottom."
            )
            fix = "Leave the shelf out, or give the drawers another bay."
            if shelf.role is Role.FIXED_SHELF:
                fix = "Move the shelf above or below that, or leave it out."
            elif any(front.kind is not FrontKind.DRAWER for front in bay.fronts):
                fix = "Add a fixed shelf between door and drawers, or leave the shelf out."
            yield Finding("shelf-in-drawer", f"{self._place(drawer)}.kind", text, fix)

    def _shelves_of(self, bay: int) -> Iterator[Part]:
        fixed = len(self._case.spec.bays[bay - 1].fixed)
        short = (f"{PartName.FIXED_SHELF}{tag(bay, number)}" for number in range(1, fixed + 1))
        marks = {part_mark(self._case.mark, name) for name in short}
        marks |= {mark for on in self._case.on_pins if on.bay == bay for mark in on.shelves}
        return (part for part in self._case.parts if part.mark in marks)

    def _part(self, mark: str) -> Part:
        return next(part for part in self._case.parts if part.mark == mark)

    def _span(self, part: Part) -> tuple[Fraction, Fraction]:
        """From where to where a part reaches, above the lower ends of the sides."""
        low = self._sizes.of(self._case.placement.corners[part.mark, Axis.Z])
        return low, low + self._sizes.of(part.size(Axis.Z))


def _slide_holes(job: Job, part: Part, sizes: Sizes) -> Iterator[Finding]:
    """Holes of slides that run into others in the same face, as of pins or hinge plates."""
    slides = [feature for feature in part.features if feature.kind_words == SlideHoles.called_so]
    bores = {one.name: one.bores(part, sizes) for one in part.features} if slides else {}
    for feature in slides:
        for other in part.features:
            if other is feature or other.face is not feature.face:
                continue
            if not any(_run_together(*pair) for pair in product(bores[feature.name], bores[other.name])):
                continue
            up = printed_length(job, feature.rows(sizes)[0].setback)
            text = f"the holes of the slide {up} up on {part.mark} run into its {other.kind_words}s."
            fix = "Change pin_setback or pin_first a little, or screw_height of the slides."
            yield Finding("slide-meets-holes", part.place_of(feature), text, fix, Weight.WARN)


def _run_together(one: Bore, other: Bore) -> bool:
    apart = sum((a - b) ** 2 for a, b in zip(one.mouth, other.mouth, strict=True))
    return 0 < apart < (one.radius + other.radius) ** 2


def _without_slide(job: Job, spec: CaseSpec) -> Finding:
    """Drawers that nothing says what they run on: their fronts are drawn, and no boxes."""
    text = f"nothing says on which slides the drawers of {spec.mark} run, so they have fronts and no boxes."
    fix = f"Fit {spec.mark} with one of the job's slides (fitted_with.slide)."
    if not job.slides:
        fix = (
            'Add slides to the job like some of the shop\'s list, such as "side mount", and fit '
            f"{spec.mark} with them (fitted_with.slide)."
        )
    return Finding("drawer-without-slide", f"cases.{spec.mark}.fitted_with.slide", text, fix, Weight.WARN)
