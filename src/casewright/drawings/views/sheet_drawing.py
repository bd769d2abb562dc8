"""A sheet as a map: parts with marks and sizes, offcuts hatched, cuts by hand numbered, letters to chalk."""

from __future__ import annotations

from collections.abc import Iterator

from ...lengths.length import Rule
from ...planner.plan import Piece, PieceRole, SheetPlan
from ...workshop.sheets.sheet_marks import SheetMarks
from ..kit.lettering import dimension_text
from ..kit.pens import BOLD, FINE, SOFT, Layer, Tint
from ..kit.scene import Arrow, Dimension, DimensionAxis, Item, Point, Scene, Shape, Words, rectangle
from .sheet_cut_marks import chalked_letter, cut_line, cut_number

ONE_LINE = 5.0
"""Below this height, in inches, a part's mark and size share one line."""

USUAL_WIDTH = 480.0
"""Points a sheet is about wide in print; cut numbers are kept apart at that size."""

NUMBERS = 38.0
"""Points that the cut numbers at both ends of a strip take of its length."""


def sheet_scene(
    sheet: SheetPlan, mark: Rule, marks: SheetMarks, *, grain: bool = True, printed: float = USUAL_WIDTH
) -> Scene:
    """One sheet of a plan, about `printed` points wide. Cuts by hand are drawn in the heavy dashed line and
    bear their numbers; those at the table saw go by setting over all sheets, and so have none here."""
    items: list[Item] = []
    root = sheet.root
    long, wide = float(root.length), float(root.width)
    point = long / printed
    items.append(Shape(rectangle(0.0, 0.0, long, wide), Layer.SHEET, None, Tint.CALM))
    for piece in root.walk():
        if piece.role in (PieceRole.OFFCUT, PieceRole.PART):
            items.extend(_piece(piece, mark, point))
    items.append(Shape(rectangle(0.0, 0.0, long, wide), Layer.SHEET, BOLD, name=f"sheet {sheet.number}"))
    cuts = [(piece, cut) for piece in root.walk() for cut in piece.cuts]
    for piece, cut in cuts:
        items.append(cut_line(piece, cut, by_hand=cut.order in marks.numbers))
    taken: list[Point] = []
    numbers = [
        cut_number(piece, cut, marks.numbers[cut.order], root, point, taken)
        for piece, cut in sorted(cuts, key=lambda pair: pair[1].order)
        if cut.order in marks.numbers
    ]
    items.extend(chalked_letter(carried, root, point, taken) for carried in marks.carried if carried.letter)
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
        items.append(Words((long / 2, wide), "grain", 8.0, backing=Tint.PAPER, colour=SOFT, shift=(0.0, 9.0)))
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
