"""A sheet as a map: parts with marks and sizes, offcuts hatched, cuts by hand numbered, letters to chalk."""

from __future__ import annotations

from collections.abc import Iterator

from ...lengths.length import Rule
from ...planner.plan import Cut, Piece, PieceRole, SheetPlan
from ...planner.problem import Direction
from ...workshop.freed_pieces import StackedPiece
from ...workshop.sheets.sheet_marks import SheetMarks
from ..kit.lettering import dimension_text
from ..kit.pens import BOLD, FINE, HAND_CUT, SOFT, TABLE_CUT, Layer, Tint
from ..kit.scene import Arrow, Dimension, DimensionAxis, Item, Point, Scene, Shape, Words, rectangle

ONE_LINE = 5.0
"""Below this height, in inches, a part's mark and size share one line."""

USUAL_WIDTH = 480.0
"""Points a sheet is about wide in print; cut numbers are kept apart at that size."""

NUMBERS = 38.0
"""Points that the cut numbers at both ends of a strip take of its length."""

TRIES = 4

LETTER_WIDE, LETTER_TALL = 18.0, 11.0
WORDS_WIDE, WORDS_TALL = 55.0, 14.0
"""Points from the middle of a letter in its pill, and of a part's mark with its size, to their edges."""

CROWDED = 1000.0
"""A place that is taken is worse than any part's words."""


def sheet_scene(sheet: SheetPlan, mark: Rule, marks: SheetMarks, *, grain: bool = True) -> Scene:
    """One sheet of a plan. Cuts by hand are drawn in the heavy dashed line and bear their numbers; those at
    the table saw go by setting over all sheets, and so have none here."""
    items: list[Item] = []
    root = sheet.root
    long, wide = float(root.length), float(root.width)
    items.append(Shape(rectangle(0.0, 0.0, long, wide), Layer.SHEET, None, Tint.CALM))
    for piece in root.walk():
        if piece.role in (PieceRole.OFFCUT, PieceRole.PART):
            items.extend(_piece(piece, mark, long / USUAL_WIDTH))
    items.append(Shape(rectangle(0.0, 0.0, long, wide), Layer.SHEET, BOLD, name=f"sheet {sheet.number}"))
    cuts = [(piece, cut) for piece in root.walk() for cut in piece.cuts]
    for piece, cut in cuts:
        items.append(_line(piece, cut, by_hand=cut.order in marks.numbers))
    taken: list[Point] = []
    numbers = [
        _number(piece, cut, marks.numbers[cut.order], root, taken)
        for piece, cut in sorted(cuts, key=lambda pair: pair[1].order)
        if cut.order in marks.numbers
    ]
    items.extend(_letter(carried, root, taken) for carried in marks.carried if carried.letter)
    items.extend(numbers)
    below = min((number.shift[1] for number in numbers), default=0.0)
    items.append(
        Dimension(
            DimensionAxis.ACROSS,
            0.0,
            long,
            0.0,
            0.0,
            min(-30.0, below - 18.0),
            dimension_text(root.length, mark),
            bold=True,
            size=10.5,
        )
    )
    items.append(
        Dimension(
            DimensionAxis.UP,
            0.0,
            wide,
            long,
            long,
            20.0,
            dimension_text(root.width, mark),
            bold=True,
            size=10.5,
        )
    )
    if grain:
        items.append(Arrow((long / 2, wide), 90.0, shift=(0.0, 9.0)))
        items.append(Words((long / 2, wide), "grain", 7.5, backing=Tint.PAPER, colour=SOFT, shift=(0.0, 9.0)))
    return Scene(tuple(items), f"sheet {sheet.number}")


def _piece(piece: Piece, mark: Rule, point: float) -> Iterator[Item]:
    """A part or offcut with its words; `point` is about how many inches a point on paper covers."""
    x, y, long, wide = (float(size) for size in (piece.x, piece.y, piece.length, piece.width))
    box = rectangle(x, y, long, wide)
    middle = (x + long / 2, y + wide / 2)
    if piece.role is PieceRole.OFFCUT:
        yield Shape(box, Layer.OFFCUTS, None, Tint.PAPER, hatched=True, name="offcut")
        text = f"keep {dimension_text(piece.length, mark)} × {dimension_text(piece.width, mark)}"
        upright = wide > 1.5 * long
        yield Words(
            middle,
            text,
            8.5,
            turn=90.0 if upright else 0.0,
            backing=Tint.PAPER,
            within=(long, wide),
            layer=Layer.OFFCUTS,
        )
        return
    yield Shape(box, Layer.PARTS, FINE, Tint.FACE, name=piece.item or "")
    length, width = (piece.width, piece.length) if piece.turned else (piece.length, piece.width)
    size = f"{dimension_text(length, mark)} × {dimension_text(width, mark)}"
    name = piece.item or ""
    if min(long, wide) < ONE_LINE:
        upright = wide > long
        text = f"{name}   {size}"
        # The numbers of the cuts stand at either end of a strip.
        free = max(0.6 * max(long, wide), max(long, wide) - NUMBERS * point)
        room = (long, free) if upright else (free, wide)
        yield Words(middle, text, 9.0, turn=90.0 if upright else 0.0, bold=True, within=room)
        return
    upright = wide > 1.5 * long
    turn = 90.0 if upright else 0.0
    for text, points, bold, off in ((name, 14.0, True, 7.0), (size, 9.5, False, -6.5)):
        shift = (-off, 0.0) if upright else (0.0, off)
        room = (long / 2, wide) if upright else (long, wide / 2)
        yield Words(middle, text, points, turn=turn, bold=bold, shift=shift, within=room)


def _line(piece: Piece, cut: Cut, *, by_hand: bool) -> Shape:
    """A line along the middle of the kerf, across the piece that is cut."""
    at = float(cut.at) + float(cut.kerf) / 2
    x, y, long, wide = (float(size) for size in (piece.x, piece.y, piece.length, piece.width))
    ends = ((at, y), (at, y + wide)) if cut.direction is Direction.CROSSCUT else ((x, at), (x + long, at))
    layer = Layer.CUTS_BY_HAND if by_hand else Layer.CUTS_AT_TABLE
    pen = HAND_CUT if by_hand else TABLE_CUT
    return Shape(ends, layer, pen, closed=False, name=f"cut {cut.order}")


def _letter(carried: StackedPiece, root: Piece, taken: list[Point]) -> Words:
    """What is chalked on a piece, in the corner where it covers the words of a part or offcut least, and
    nothing that is in `taken`."""
    point = float(root.length) / USUAL_WIDTH
    low, high = float(carried.x), float(carried.x) + float(carried.length)
    near, far = float(carried.y), float(carried.y) + float(carried.width)
    leaves = [leaf for leaf in root.walk() if leaf.role in (PieceRole.PART, PieceRole.OFFCUT)]
    corners = [
        ((x, y), (along, up))
        for x, along in ((low, LETTER_WIDE), (high, -LETTER_WIDE))
        for y, up in ((near, LETTER_TALL), (far, -LETTER_TALL))
    ]

    def clear(corner: tuple[Point, Point]) -> float:
        (x, y), (along, up) = corner
        at = (x / point + along, y / point + up)
        crowded = any(abs(at[0] - other[0]) < 28.0 and abs(at[1] - other[1]) < 16.0 for other in taken)
        room = min((_clearance(leaf, at, point) for leaf in leaves), default=0.0)
        return room - (CROWDED if crowded else 0.0)

    start, shift = max(corners, key=clear)
    taken.append((start[0] / point + shift[0], start[1] / point + shift[1]))
    return Words(start, carried.chalk, 10.0, bold=True, pill=True, shift=shift, layer=Layer.CUTS_BY_HAND)


def _clearance(leaf: Piece, at: Point, point: float) -> float:
    """How many points a letter at `at` keeps from the words in the middle of a piece; less than 0 on them."""
    middle = (float(leaf.x) + float(leaf.length) / 2, float(leaf.y) + float(leaf.width) / 2)
    upright = float(leaf.width) > 1.5 * float(leaf.length)
    wide, tall = (WORDS_TALL, WORDS_WIDE) if upright else (WORDS_WIDE, WORDS_TALL)
    across = abs(at[0] - middle[0] / point) - wide - LETTER_WIDE
    up = abs(at[1] - middle[1] / point) - tall - LETTER_TALL
    return max(across, up)


def _number(piece: Piece, cut: Cut, number: int, root: Piece, taken: list[Point]) -> Words:
    """The number of a cut by hand where the saw enters: beside the sheet if the cut begins at its edge.

    Where that place is in `taken`, the number moves along its cut or away from the sheet.
    """
    point = float(root.length) / USUAL_WIDTH
    at = float(cut.at) + float(cut.kerf) / 2
    if cut.direction is Direction.CROSSCUT:
        start = (at, float(piece.y))
        way = (0.0, -1.0) if piece.y == root.y else (0.0, 1.0)
    else:
        start = (float(piece.x), at)
        way = (-1.0, 0.0) if piece.x == root.x else (1.0, 0.0)
    # Left of the sheet, a rip's number must clear numbers at the sheet's very edge.
    aside = 19.0 if way[0] < 0 else 9.0
    for steps in range(TRIES):
        shift = ((aside + 18.0 * steps) * way[0], (8.0 + 12.0 * steps) * way[1])
        centre = (start[0] / point + shift[0], start[1] / point + shift[1])
        if not any(abs(centre[0] - x) < 17.0 and abs(centre[1] - y) < 11.0 for x, y in taken):
            break
    taken.append(centre)
    return Words(
        start,
        str(number),
        7.5,
        bold=True,
        pill=True,
        shift=shift,
        layer=Layer.CUTS_BY_HAND,
    )
