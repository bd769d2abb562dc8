"""The parts inside the shell: dividers, fixed shelves, shelves on pins, mounting strips."""

from __future__ import annotations

from fractions import Fraction

from ...sizes.affine import NOTHING, Affine, total
from ...sizes.ledger import Share
from ..directions import Axis, Way
from ..job import BackKind, ShelfJoint
from ..parts.part import PartName, Role
from ..size_names import part_mark, tag, thickness_of
from .bays import BayPlace, Clear, Upright
from .case_draft import CaseDraft, PartDraft
from .joints.back import Shell
from .joints.housing import cut_dado, house
from .meetings import Meeting, Surface
from .pin_shelves import shelves_on_pins
from .shell import FLAT, ON_EDGE, UPRIGHT_LEFT


def draw_contents(
    case: CaseDraft, shell: Shell, depth: Affine, back: PartDraft | None
) -> tuple[BayPlace, ...]:
    """Draw up dividers, shelves, pin rows and mounting strips in a finished shell; gives its bays."""
    base = shell.under + shell.bottom.thickness
    widths = _bay_widths(case, shell)
    uprights = [
        Upright(shell.left, NOTHING),
        *_dividers(case, shell, widths, depth, back),
        Upright(shell.right, NOTHING),
    ]
    places = tuple(
        BayPlace(bay, index + 1, uprights[index], uprights[index + 1], widths[index], depth)
        for index, bay in enumerate(case.spec.bays)
    )
    shelves_so_far = 0
    for place in places:
        clears = _fixed_shelves(case, place, Clear(base, shell.clear), back)
        shelves_so_far = shelves_on_pins(case, place, clears, shelves_so_far)
    _strips(case, shell, uprights, widths, back)
    return places


def _bay_widths(case: CaseDraft, shell: Shell) -> tuple[Affine, ...]:
    """The clear width of each bay: as given, or a share of the width that is left.

    Shares are exact: a case has no filler to take what rounding leaves, and bays that differ by a hair would
    each need shelves and drawer boxes of their own.
    """
    bays = case.spec.bays
    if len(bays) == 1:
        return (shell.inside,)
    room = shell.inside - (len(bays) - 1) * thickness_of(case.spec.materials.case)
    widths = tuple(case.sizes.bay(number) for number in range(1, len(bays) + 1))
    shared = [index for index, bay in enumerate(bays) if bay.width is None]
    rest = room - total(width for index, width in enumerate(widths) if index not in shared)
    weights = tuple(bays[index].weight for index in shared)
    for place, index in enumerate(shared):
        share = Share(rest, weights, place)
        case.book.enter(widths[index], share, f"{case.spec.mark} bay {index + 1} width")
    return widths


def _dividers(
    case: CaseDraft, shell: Shell, widths: tuple[Affine, ...], depth: Affine, back: PartDraft | None
) -> list[Upright]:
    """The dividers, let into dados in the bottom, and in the top if that is a panel."""
    material = case.spec.materials.case
    uprights: list[Upright] = []
    before = shell.left
    for index in range(len(widths) - 1):
        name = f"{PartName.DIVIDER}{index + 1}"
        reach = total(widths[: index + 1]) + index * thickness_of(material)
        start = (shell.bottom.size(Axis.X) - shell.inside) / 2 + reach
        below = cut_dado(case, shell.bottom, Way.UP, Way.LEFT, start, material, f"dado-{name}")
        length = shell.clear + below.depth
        above = None
        if shell.top:
            start = (shell.top.size(Axis.X) - shell.inside) / 2 + reach
            above = cut_dado(case, shell.top, Way.DOWN, Way.LEFT, start, material, f"dado-{name}")
            length = length + above.depth
        divider = case.part(name, Role.DIVIDER, material, UPRIGHT_LEFT, length, depth)
        house(case, divider, shell.bottom, below)
        if shell.top and above:
            house(case, divider, shell.top, above)
        else:
            case.seat(divider, Way.UP, case.front_stretcher)
        case.flush(Way.FRONT, before, divider)
        if back:
            case.seat(divider, Way.BACK, back)
        uprights.append(Upright(divider, shell.under + shell.bottom.thickness - below.depth))
        before = divider
    return uprights


def _fixed_shelves(case: CaseDraft, place: BayPlace, whole: Clear, back: PartDraft | None) -> list[Clear]:
    """Draw up the fixed shelves of a bay from the bottom up; returns the clear heights between them."""
    thick = thickness_of(case.spec.materials.shelf)
    clears: list[Clear] = []
    floor, left_over = whole.floor, whole.height
    for number in range(1, len(place.bay.fixed) + 1):
        rise = case.sizes.below(place.number, number)
        clears.append(Clear(floor, rise))
        shelf = _fixed_shelf(case, f"{PartName.FIXED_SHELF}{tag(place.number, number)}", place, floor + rise)
        _front_of_shelf(case, place, shelf)
        if back:
            case.seat(shelf, Way.BACK, back)
        floor = floor + rise + thick
        left_over = left_over - rise - thick
    if place.bay.fixed:
        words = f"clear height above the fixed shelves in bay {place.number} of {case.spec.mark}"
        left_over = case.book.form(case.sizes.above(place.number), left_over, words)
    clears.append(Clear(floor, left_over))
    return clears


def _front_of_shelf(case: CaseDraft, place: BayPlace, shelf: PartDraft) -> None:
    """A fixed shelf comes flush with the front, or as far as inset doors leave it room."""
    left, into = place.left.part, case.behind_fronts(place.bay)
    if into == NOTHING:
        case.flush(Way.FRONT, left, shelf)
    else:
        words = f"{shelf.mark} behind the fronts, from the front of {left.mark}"
        case.meet(words, Meeting.FLUSH, left.side(Way.FRONT), shelf.side(Way.FRONT), into)


def _fixed_shelf(case: CaseDraft, name: str, place: BayPlace, height: Affine) -> PartDraft:
    material = case.spec.materials.shelf
    depth = place.depth - case.behind_fronts(place.bay)
    if case.spec.construction.shelf is ShelfJoint.BUTT:
        shelf = case.part(name, Role.FIXED_SHELF, material, FLAT, place.width, depth)
        for upright, face in place.uprights:
            case.seat(shelf, face.opposite, upright.part)
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
        for upright, face in place.uprights
    ]
    length = place.width + channels[0].depth + channels[1].depth
    shelf = case.part(name, Role.FIXED_SHELF, material, FLAT, length, depth)
    for (upright, _), channel in zip(place.uprights, channels, strict=True):
        house(case, shelf, upright.part, channel)
    return shelf


def _strips(
    case: CaseDraft,
    shell: Shell,
    uprights: list[Upright],
    widths: tuple[Affine, ...],
    back: PartDraft | None,
) -> None:
    """Mounting strips: behind a grooved back in one piece, otherwise one in each bay."""
    count = case.spec.construction.strips
    behind = case.spec.construction.back is BackKind.GROOVE
    stretches = (
        [(shell.left, shell.right, shell.inside)]
        if behind
        else [(uprights[index].part, uprights[index + 1].part, width) for index, width in enumerate(widths)]
    )
    for level in range(count):
        for place, (left, right, length) in enumerate(stretches):
            name = f"{PartName.STRIP}{level + 1}" + (_letters(place) if len(stretches) > 1 else "")
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


def _letters(place: int) -> str:
    """a, b, ... z, aa, ab, ...: the strips of one level from the left."""
    before, last = divmod(place, 26)
    return (_letters(before - 1) if before else "") + chr(ord("a") + last)


def _place_strip(
    case: CaseDraft,
    shell: Shell,
    strip: PartDraft,
    back: PartDraft | None,
    behind: bool,
    level: int,
    count: int,
) -> None:
    """Place the first strip under the top, the last on the bottom, the others evenly between."""
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
            case.seat(strip, Way.UP, case.parts[part_mark(case.spec.mark, PartName.BACK_STRETCHER)])
        return
    spare = shell.clear - strip.size(Axis.Z)
    case.meet(
        f"{strip.mark} above {shell.bottom.mark}",
        Meeting.SEATED if level == count - 1 else Meeting.FLUSH,
        shell.bottom.side(Way.UP),
        strip.side(Way.DOWN),
        spare * Fraction(count - 1 - level, count - 1),
    )
