"""What stands inside the shell: dividers, fixed shelves, pin rows, adjustable shelves, strips."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ..measure.affine import NOTHING, Affine, total
from ..measure.ledger import HowMany, Share, WholeSteps
from .assembly import Meeting, Surface
from .draft import CaseDraft, PartDraft
from .features import PinRow
from .frame import Way
from .job import BackKind, Bay, ShelfJoint
from .joints.back import Shell, thickness_of
from .joints.housing import cut_dado, house
from .parts import PartName, Role
from .shell import FLAT, ON_EDGE, UPRIGHT_LEFT


@dataclass(frozen=True)
class Upright:
    """A side or divider, with how far its lower end lies above the sides' lower ends."""

    part: PartDraft
    foot: Affine


@dataclass(frozen=True)
class Clear:
    """A clear height in a bay: its `floor` above the sides' lower ends, and its `height`."""

    floor: Affine
    height: Affine


def draw_contents(case: CaseDraft, shell: Shell, depth: Affine, back: PartDraft | None) -> None:
    """Draw up dividers, shelves, pin rows and mounting strips in a finished shell."""
    base = shell.under + shell.bottom.thickness
    widths = _bay_widths(case, shell)
    uprights = [
        Upright(shell.left, Affine()),
        *_dividers(case, shell, widths, depth, back),
        Upright(shell.right, Affine()),
    ]
    shelf_number = 0
    for index, bay in enumerate(case.spec.bays):
        between = (uprights[index], uprights[index + 1])
        clears = _fixed_shelves(
            case, bay, index, between, widths[index], depth, Clear(base, shell.clear), back
        )
        shelf_number = _adjustable(
            case, bay, index, between, widths[index], depth - _taken_by_strips(case), clears, shelf_number
        )
    _strips(case, shell, uprights, widths, back)


def _bay_widths(case: CaseDraft, shell: Shell) -> tuple[Affine, ...]:
    """The clear width of each bay: as given, or a share of what the dividers leave."""
    bays = case.spec.bays
    mark = case.spec.mark
    if len(bays) == 1:
        return (shell.inside,)
    room = shell.inside - (len(bays) - 1) * thickness_of(case.spec.materials.case)
    given = {
        index: case.book.given(f"{mark}.bay{index + 1}", bay.width, f"{mark} bay {index + 1} width")
        for index, bay in enumerate(bays)
        if bay.width is not None
    }
    shared = [index for index in range(len(bays)) if index not in given]
    rest = room - total(given.values())
    weights = tuple(bays[index].weight for index in shared)
    widths = dict(given)
    for place, index in enumerate(shared):
        widths[index] = case.book.enter(
            f"{mark}.bay{index + 1}",
            Share(rest, weights, place, case.rounding),
            f"{mark} bay {index + 1} width",
        )
    return tuple(widths[index] for index in range(len(bays)))


def _dividers(
    case: CaseDraft, shell: Shell, widths: tuple[Affine, ...], depth: Affine, back: PartDraft | None
) -> list[Upright]:
    """Upright panels, let into the bottom (and the top, where it is a panel)."""
    material = case.spec.materials.case
    uprights: list[Upright] = []
    before = shell.left
    for index in range(len(widths) - 1):
        name = f"{PartName.DIVIDER}{index + 1}"
        reach = total(widths[: index + 1]) + index * thickness_of(material)
        start = (shell.bottom.length - shell.inside) / 2 + reach
        below = cut_dado(case, shell.bottom, Way.UP, Way.LEFT, start, material, f"dado-{name}")
        length = shell.clear + below.depth
        above = None
        if shell.top:
            start = (shell.top.length - shell.inside) / 2 + reach
            above = cut_dado(case, shell.top, Way.DOWN, Way.LEFT, start, material, f"dado-{name}")
            length = length + above.depth
        divider = case.part(name, Role.DIVIDER, material, UPRIGHT_LEFT, length, depth)
        house(case, divider, shell.bottom, below)
        if shell.top and above:
            house(case, divider, shell.top, above)
        else:
            case.seat(divider, Way.UP, case.parts[f"{case.spec.mark}-{PartName.FRONT_STRETCHER}"])
        case.flush(Way.FRONT, before, divider)
        if back:
            case.seat(divider, Way.BACK, back)
        uprights.append(Upright(divider, shell.under + shell.bottom.thickness - below.depth))
        before = divider
    return uprights


def _fixed_shelves(
    case: CaseDraft,
    bay: Bay,
    index: int,
    between: tuple[Upright, Upright],
    width: Affine,
    depth: Affine,
    whole: Clear,
    back: PartDraft | None,
) -> list[Clear]:
    """Fixed shelves of a bay, from the bottom up; returns the clear heights they leave."""
    material = case.spec.materials.shelf
    thick = thickness_of(material)
    clears: list[Clear] = []
    floor, left_over = whole.floor, whole.height
    for number, below in enumerate(bay.fixed, 1):
        tag = f"{index + 1}{number}"
        rise = case.book.given(
            f"{case.spec.mark}.below{tag}", below, f"clear height below fixed shelf {tag} of {case.spec.mark}"
        )
        clears.append(Clear(floor, rise))
        shelf = _fixed_shelf(case, f"{PartName.FIXED_SHELF}{tag}", between, width, depth, floor + rise)
        case.flush(Way.FRONT, between[0].part, shelf)
        if back:
            case.seat(shelf, Way.BACK, back)
        floor = floor + rise + thick
        left_over = left_over - rise - thick
    if bay.fixed:
        words = f"clear height above the fixed shelves in bay {index + 1} of {case.spec.mark}"
        left_over = case.entry(f"above{index + 1}", left_over, words)
    clears.append(Clear(floor, left_over))
    return clears


def _fixed_shelf(
    case: CaseDraft,
    name: str,
    between: tuple[Upright, Upright],
    width: Affine,
    depth: Affine,
    height: Affine,
) -> PartDraft:
    material = case.spec.materials.shelf
    if case.spec.construction.shelf is ShelfJoint.BUTT:
        shelf = case.part(name, Role.FIXED_SHELF, material, FLAT, width, depth)
        for upright, way in zip(between, (Way.LEFT, Way.RIGHT), strict=True):
            case.seat(shelf, way, upright.part)
            case.meet(
                f"{shelf.mark} at its height on {upright.part.mark}",
                Meeting.FLUSH,
                Surface(
                    upright.part.mark, Way.DOWN, height - upright.foot, f"shelf line on {upright.part.mark}"
                ),
                shelf.side(Way.DOWN),
            )
        return shelf
    channels = [
        cut_dado(case, upright.part, face, Way.DOWN, height - upright.foot, material, f"dado-{name}")
        for upright, face in zip(between, (Way.RIGHT, Way.LEFT), strict=True)
    ]
    length = width + channels[0].depth + channels[1].depth
    shelf = case.part(name, Role.FIXED_SHELF, material, FLAT, length, depth)
    for upright, channel in zip(between, channels, strict=True):
        house(case, shelf, upright.part, channel)
    return shelf


def _taken_by_strips(case: CaseDraft) -> Affine:
    """How much shallower shelves on pins must be to pass the strips that stand before the back.

    Nothing where the strips lie above the highest hole and below the lowest.
    """
    made = case.spec.construction
    if made.back is BackKind.GROOVE or not made.strips:
        return NOTHING
    reach = case.of("strip_width") + case.of("pin_diameter") / 2 + thickness_of(case.spec.materials.shelf)
    if made.strips <= 2 and case.book.value(reach) <= case.book.value(case.of("pin_first")):
        return NOTHING
    return thickness_of(case.spec.materials.strip)


def _adjustable(
    case: CaseDraft,
    bay: Bay,
    index: int,
    between: tuple[Upright, Upright],
    width: Affine,
    depth: Affine,
    clears: list[Clear],
    numbered: int,
) -> int:
    """Pin rows and the shelves on them, the tallest clear heights first; returns shelves so far."""
    shares = _shared_among(bay.adjustable, [case.book.value(clear.height) for clear in clears])
    for level, (clear, shelves) in enumerate(zip(clears, shares, strict=True), 1):
        if not shelves:
            continue
        tag = f"{index + 1}{level}"
        case.entry(f"height{tag}", clear.height, f"clear height {tag} of {case.spec.mark}")
        steps = case.book.enter(
            f"{case.spec.mark}.pins{tag}",
            HowMany(clear.height - 2 * case.of("pin_first"), case.of("pin_pitch")),
            f"steps in pin rows {tag} of {case.spec.mark}",
        )
        rows = [
            _pin_rows(case, upright, face, clear, steps + 1, tag)
            for upright, face in zip(between, (Way.RIGHT, Way.LEFT), strict=True)
        ]
        for place in range(1, shelves + 1):
            numbered += 1
            _adjustable_shelf(
                case, numbered, between, rows, width, depth, clear, Fraction(place, shelves + 1), tag
            )
    return numbered


def _shared_among(shelves: int, heights: list[Fraction]) -> list[int]:
    """How many shelves each clear height gets: always the one with most room per shelf next."""
    shares = [0] * len(heights)
    for _ in range(shelves):
        roomiest = max(range(len(heights)), key=lambda place: heights[place] / (shares[place] + 1))
        shares[roomiest] += 1
    return shares


def _pin_rows(case: CaseDraft, upright: Upright, face: Way, clear: Clear, number: Affine, tag: str) -> PinRow:
    """A front and a back row; both are measured from the lower end and so level with all others."""
    part = upright.part
    rear = part.width - size_inside(case) + case.of("pin_setback")
    rows = []
    for edge, setback in ((Way.FRONT, case.of("pin_setback")), (Way.BACK, rear)):
        name = f"pins-{tag}-{face.name.lower()}-{edge.name.lower()}"
        stem = f"{part.mark}.{name}"
        row = PinRow(
            name,
            face,
            edge,
            case.book.form(
                f"{stem}.setback", setback, f"{part.mark} pin row setback from the {edge.name.lower()}"
            ),
            Way.DOWN,
            case.book.form(
                f"{stem}.first",
                clear.floor - upright.foot + case.of("pin_first"),
                f"{part.mark} first pin hole",
            ),
            case.of("pin_pitch"),
            number,
            case.of("pin_diameter"),
            case.of("pin_depth"),
        )
        part.features.append(row)
        rows.append(row)
    return rows[0]


def size_inside(case: CaseDraft) -> Affine:
    """The depth inside the case, as entered in the ledger."""
    return Affine(0, ((f"{case.spec.mark}.inside_depth", Fraction(1)),))


def _adjustable_shelf(
    case: CaseDraft,
    number: int,
    between: tuple[Upright, Upright],
    rows: list[PinRow],
    width: Affine,
    depth: Affine,
    clear: Clear,
    up: Fraction,
    tag: str,
) -> None:
    name = f"{PartName.ADJUSTABLE_SHELF}{number}"
    shelf = case.part(
        name,
        Role.ADJUSTABLE_SHELF,
        case.spec.materials.shelf,
        FLAT,
        width - case.of("shelf_play"),
        depth - case.of("shelf_setback"),
        match=f"{case.spec.mark} shelves {tag}",
        optional=True,
    )
    left, right = between[0].part, between[1].part
    case.meet(f"{shelf.mark} beside {left.mark}", Meeting.SEATED, left.side(Way.RIGHT), shelf.side(Way.LEFT))
    case.meet(
        f"{shelf.mark} between the uprights",
        Meeting.PLAY,
        shelf.side(Way.RIGHT),
        right.side(Way.LEFT),
        case.of("shelf_play"),
    )
    rise = case.book.enter(
        f"{shelf.mark}.hole",
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
        case.of("shelf_setback"),
    )


def _strips(
    case: CaseDraft,
    shell: Shell,
    uprights: list[Upright],
    widths: tuple[Affine, ...],
    back: PartDraft | None,
) -> None:
    """Mounting strips: behind a grooved back in one piece, otherwise inside, one for each bay."""
    count = case.spec.construction.strips
    behind = case.spec.construction.back is BackKind.GROOVE
    stretches = (
        [(shell.left, shell.right, shell.inside)]
        if behind
        else [(uprights[index].part, uprights[index + 1].part, width) for index, width in enumerate(widths)]
    )
    for level in range(count):
        for place, (left, right, length) in enumerate(stretches):
            name = f"{PartName.STRIP}{level + 1}" + (chr(ord("a") + place) if len(stretches) > 1 else "")
            strip = case.part(
                name,
                Role.MOUNTING_STRIP,
                case.spec.materials.strip,
                ON_EDGE,
                length,
                case.of("strip_width"),
                match=f"{case.spec.mark} strips {place + 1}",
            )
            case.seat(strip, Way.LEFT, left)
            case.seat(strip, Way.RIGHT, right)
            _place_strip(case, shell, strip, back, behind, level, count)


def _place_strip(
    case: CaseDraft,
    shell: Shell,
    strip: PartDraft,
    back: PartDraft | None,
    behind: bool,
    level: int,
    count: int,
) -> None:
    """The first strip under the top, the last on the bottom, the others evenly between."""
    if behind or not back:
        case.flush(Way.BACK, shell.left, strip)
        if back:
            case.meet(
                f"{strip.mark} behind {back.mark}",
                Meeting.SLIP,
                back.side(Way.BACK),
                strip.side(Way.FRONT),
                case.of("groove_play"),
            )
    else:
        case.seat(strip, Way.BACK, back)
    if level == 0:
        if shell.top:
            case.seat(strip, Way.UP, shell.top)
        elif behind:
            case.flush(Way.UP, shell.left, strip)
        else:
            case.seat(strip, Way.UP, case.parts[f"{case.spec.mark}-{PartName.BACK_STRETCHER}"])
        return
    spare = shell.clear - strip.width
    case.meet(
        f"{strip.mark} above {shell.bottom.mark}",
        Meeting.SEATED if level == count - 1 else Meeting.FLUSH,
        shell.bottom.side(Way.UP),
        strip.side(Way.DOWN),
        spare * Fraction(count - 1 - level, count - 1),
    )
