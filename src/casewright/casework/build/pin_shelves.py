"""Adjustable shelves, and the rows of pin holes they rest on."""

from __future__ import annotations

from fractions import Fraction

from ...sizes.affine import NOTHING, Affine
from ...sizes.ledger import HowMany, WholeSteps
from ..directions import Way
from ..job import BackKind
from ..parts.features.pin_row import PinRow
from ..parts.part import PartName, Role
from ..size_names import FeatureSizes, PartSizes, tag, thickness_of
from .bays import BayPlace, Clear, Upright
from .case_draft import CaseDraft, PartDraft, ShelvesOnPins
from .meetings import Meeting, Surface
from .shell import FLAT


def _taken_by_strips(case: CaseDraft) -> Affine:
    """How much shallower shelves on pins must be to clear mounting strips in front of the back.

    Zero if the strips are above the highest hole and below the lowest.
    """
    made = case.spec.construction
    if made.back is BackKind.GROOVE or not made.strips:
        return NOTHING
    reach = case.of("strip_width") + case.of("pin_diameter") / 2 + thickness_of(case.spec.materials.shelf)
    if made.strips <= 2 and case.book.value(reach) <= case.book.value(case.of("pin_first")):
        return NOTHING
    return thickness_of(case.spec.materials.strip)


def shelves_on_pins(case: CaseDraft, place: BayPlace, clears: list[Clear], so_far: int) -> int:
    """Draw up pin rows and the shelves on them; the tallest clear heights get shelves first.

    `so_far` is the number of such shelves already in the case; returns the new number.
    """
    shares = _shared_among(place.bay.adjustable, [case.book.value(clear.height) for clear in clears])
    for level, (clear, shelves) in enumerate(zip(clears, shares, strict=True), 1):
        if not shelves:
            continue
        here = tag(place.number, level)
        height = case.book.form(
            case.sizes.clear_height(place.number, level),
            clear.height,
            f"clear height {here} of {case.spec.mark}",
        )
        steps = case.book.enter(
            case.sizes.pin_steps(place.number, level),
            HowMany(clear.height - 2 * case.of("pin_first"), case.of("pin_pitch")),
            f"steps in pin rows {here} of {case.spec.mark}",
        )
        rows = [
            _pin_rows(case, upright, face, clear, steps + 1, (place.number, level))
            for upright, face in place.uprights
        ]
        marks = []
        for number in range(1, shelves + 1):
            so_far += 1
            shelf = _shelf(case, f"{PartName.ADJUSTABLE_SHELF}{so_far}", place, here)
            _rest(case, shelf, place, rows, clear, Fraction(number, shelves + 1))
            marks.append(shelf.mark)
        case.on_pins.append(ShelvesOnPins(place.number, level, height, tuple(marks)))
    return so_far


def _shared_among(shelves: int, heights: list[Fraction]) -> list[int]:
    """The number of shelves in each clear height: the next one always goes where the most room is left."""
    shares = [0] * len(heights)
    for _ in range(shelves):
        roomiest = max(range(len(heights)), key=lambda place: heights[place] / (shares[place] + 1))
        shares[roomiest] += 1
    return shares


def _pin_rows(
    case: CaseDraft, upright: Upright, face: Way, clear: Clear, number: Affine, serves: tuple[int, int]
) -> PinRow:
    """A front and a back row. Both are measured from the lower end, so all rows come out level."""
    part = upright.part
    rear = part.deep - case.sizes.inside_depth + case.of("pin_setback")
    rows = []
    for edge, setback in ((Way.FRONT, case.of("pin_setback")), (Way.BACK, rear)):
        name = f"pins-{tag(*serves)}-{face.word}-{edge.word}"
        sizes = FeatureSizes(part.mark, name)
        row = PinRow(
            name,
            face,
            edge,
            case.book.form(sizes.setback, setback, f"{part.mark} pin row setback from the {edge.word}"),
            Way.DOWN,
            case.book.form(
                sizes.first,
                clear.floor - upright.foot + case.of("pin_first"),
                f"{part.mark} first pin hole",
            ),
            case.of("pin_pitch"),
            number,
            case.of("pin_diameter"),
            case.of("pin_depth"),
            serves,
        )
        part.features.append(row)
        rows.append(row)
    return rows[0]


def _shelf(case: CaseDraft, name: str, place: BayPlace, clear: str) -> PartDraft:
    """An adjustable shelf, with play at its ends and set back from the front."""
    return case.part(
        name,
        Role.ADJUSTABLE_SHELF,
        case.spec.materials.shelf,
        FLAT,
        place.width - case.of("shelf_play"),
        place.depth - _taken_by_strips(case) - _setback(case, place),
        match=f"{case.spec.mark} shelves {clear}",
    )


def _rest(
    case: CaseDraft, shelf: PartDraft, place: BayPlace, rows: list[PinRow], clear: Clear, up: Fraction
) -> None:
    """Rest the shelf on the highest pins at or below a share `up` of the way from first hole to last."""
    left, right = place.left.part, place.right.part
    case.meet(f"{shelf.mark} beside {left.mark}", Meeting.SEATED, left.side(Way.RIGHT), shelf.side(Way.LEFT))
    case.meet(
        f"{shelf.mark} between the uprights",
        Meeting.PLAY,
        shelf.side(Way.RIGHT),
        right.side(Way.LEFT),
        case.of("shelf_play"),
    )
    rise = case.book.enter(
        PartSizes(shelf.mark).hole,
        WholeSteps((clear.height - 2 * case.of("pin_first")) * up, case.of("pin_pitch")),
        f"from the first pin to {shelf.mark}",
    )
    for upright, row in zip((left, right), rows, strict=True):
        case.meet(
            f"{shelf.mark} on its pins in {upright.mark}",
            Meeting.SEATED,
            Surface(upright.mark, Way.UP, row.first + rise + row.diameter / 2, f"pin in {upright.mark}"),
            shelf.side(Way.DOWN),
        )
    case.meet(
        f"{shelf.mark} set back from the front of {left.mark}",
        Meeting.FLUSH,
        left.side(Way.FRONT),
        shelf.side(Way.FRONT),
        _setback(case, place),
    )


def _setback(case: CaseDraft, place: BayPlace) -> Affine:
    """How far a shelf is set back from the front edges of the sides as they are worked."""
    return case.of("shelf_setback") - case.front_edging + case.behind_fronts(place.bay)
