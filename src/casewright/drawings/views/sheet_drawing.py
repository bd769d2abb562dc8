"""A sheet as a map: parts with marks and sizes, offcuts hatched, cuts by hand numbered, letters to chalk."""

from __future__ import annotations

from collections.abc import Iterator

from ...lengths.length import Rule
from ...planner.plan import Piece, PieceRole, SheetPlan
from ...workshop.sheets.sheet_marks import SheetMarks
from ..kit.lettering import dimension_text
from ..kit.pens import BOLD, FINE, SOFT, Layer, Tint
from ..kit.places import PaperBox
from ..kit.scene import Arrow, Dimension, DimensionAxis, Item, Point, Scene, Shape, Words, rectangle
from .led_words import ABOVE, BELOW
from .map_words import led_mark, offcut_words, part_words_on_map
from .sheet_cut_marks import chalked_letter, cut_line, cut_numbers, led_number, numbered_cuts

USUAL_WIDTH = 480.0
"""Points a sheet is about wide where nothing else is asked."""

GRAIN = 90.0, 9.0
"""Points that the arrow of the grain is long, and that it stands above the sheet."""


def sheet_scene(
    sheet: SheetPlan, mark: Rule, marks: SheetMarks, point: float | None = None, *, grain: bool = True
) -> Scene:
    """One sheet of a plan, its words set where a point on paper covers `point` inches, by default as large as
    sheets usually are in print. Cuts by hand are drawn in the heavy dashed line and bear their numbers; those
    at the table saw go by setting over all sheets, and so have none here."""
    root = sheet.root
    long, wide = float(root.length), float(root.width)
    point = long / USUAL_WIDTH if point is None else point
    items: list[Item] = [Shape(rectangle(0.0, 0.0, long, wide), Layer.SHEET, None, Tint.CALM)]
    leaves = [piece for piece in root.walk() if piece.role in (PieceRole.OFFCUT, PieceRole.PART)]
    items.extend(_outline(piece) for piece in leaves)
    items.append(Shape(rectangle(0.0, 0.0, long, wide), Layer.SHEET, BOLD, name=f"sheet {sheet.number}"))
    cuts = [(piece, cut) for piece in root.walk() for cut in piece.cuts]
    for piece, cut in cuts:
        items.append(cut_line(piece, cut, by_hand=cut.order in marks.numbers))
    taken: list[PaperBox] = [_grain_box(long, wide, point)] if grain else []
    numbers, without = cut_numbers(numbered_cuts(sheet, marks), root, point, taken)
    words: list[Item] = [*numbers]
    words += [chalked_letter(carried, root, point, taken) for carried in marks.carried if carried.letter]
    words += _words(leaves, root, mark, point, taken)
    for one in without:
        words += led_number(one, (ABOVE, BELOW), root, point, taken)
    # The lines to its figures come before the words beside the sheet, which may stand over them.
    below = min((box.low for box in taken), default=0.0)
    items.append(
        Dimension(
            DimensionAxis.ACROSS,
            0.0,
            long,
            0.0,
            0.0,
            min(-22.0, below - 10.0),
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
        items.append(Arrow((long / 2, wide), GRAIN[0], shift=(0.0, GRAIN[1])))
        items.append(
            Words((long / 2, wide), "grain", 8.0, backing=Tint.PAPER, colour=SOFT, shift=(0.0, GRAIN[1]))
        )
    return Scene((*items, *words), f"sheet {sheet.number}")


def sheet_size(sheet: SheetPlan) -> Point:
    """Length and width of what is drawn of a sheet, without words, in inches."""
    return float(sheet.root.length), float(sheet.root.width)


def _outline(piece: Piece) -> Shape:
    x, y, long, wide = (float(size) for size in (piece.x, piece.y, piece.length, piece.width))
    box = rectangle(x, y, long, wide)
    if piece.role is PieceRole.OFFCUT:
        return Shape(box, Layer.OFFCUTS, None, Tint.PAPER, hatched=True, name="offcut")
    return Shape(box, Layer.PARTS, FINE, Tint.FACE, name=piece.item or "")


def _grain_box(long: float, wide: float, point: float) -> PaperBox:
    x, y = long / point / 2, wide / point + GRAIN[1]
    return PaperBox(x - GRAIN[0] / 2, y - 5.0, x + GRAIN[0] / 2, y + 5.0)


def _words(
    leaves: list[Piece], root: Piece, mark: Rule, point: float, taken: list[PaperBox]
) -> Iterator[Item]:
    """The words of parts and offcuts; the mark of a part without room for it stands beside the sheet."""
    without: list[Piece] = []
    for piece in leaves:
        if piece.role is PieceRole.PART:
            words = part_words_on_map(piece, mark, point, taken)
            yield from words
            if not words:
                without.append(piece)
    led = [led_mark(piece, root, point, taken) for piece in without]
    for piece in leaves:
        if piece.role is PieceRole.OFFCUT:
            yield from offcut_words(piece, mark, point, taken)
    yield from (line for line, _ in led)
    yield from (words for _, words in led)
