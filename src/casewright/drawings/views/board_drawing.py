"""A rough board as a map: its outline with the taper, defects hatched, lengths, strips, and parts with
marks."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from ...boards.board_plan import BoardLength, BoardStrip, CutBoard
from ...lengths.length import Rule
from ..kit.lettering import dimension_text
from ..kit.pens import BOLD, FINE, HAND_CUT, HIDDEN, TABLE_CUT, Layer, Tint
from ..kit.scene import Dimension, DimensionAxis, Item, Point, Scene, Shape, Words, rectangle

LETTERS = 9.0
TALLER = 1.4
"""How much taller than its strip a mark's line may be: capitals do not fill it."""


def board_scene(one: CutBoard, mark: Rule) -> Scene:
    """One board of a plan, its near edge at the bottom. Crosscuts to rough length are the heavy dashed lines,
    rips the thin ones; what is hatched is a defect, or a part that was cut there and is spoiled, and what is
    blank is waste."""
    board = one.board
    long, name = float(board.length), f"board {one.number}"
    far = [(float(x), float(width)) for x, width in zip(board.stations, board.widths, strict=True)]
    if len(far) == 1:
        far = [(0.0, far[0][1]), (long, far[0][1])]
    outline = ((0.0, 0.0), (long, 0.0), *reversed(far))
    items: list[Item] = [Shape(outline, Layer.SHEET, None, Tint.CALM)]
    words: list[Item] = []
    for length in one.lengths:
        for strip in length.strips:
            items.extend(_spent(strip))
            for shape, label in _parts(strip):
                items.append(shape)
                words.append(label)
            items.extend(_rips(length, strip))
    for defect in board.defects:
        x, y = float(defect.start), float(defect.low)
        box = rectangle(x, y, float(defect.end) - x, min(float(defect.high), far[0][1]) - y)
        items.append(Shape(box, Layer.WASTE, HIDDEN, Tint.SHADE, hatched=True, name="defect"))
    items.append(Shape(outline, Layer.SHEET, BOLD, name=name))
    ends = dict.fromkeys(x for length in one.lengths for x in (length.x, length.end))
    items += [_crosscut(float(x), float(board.width_at(x))) for x in ends]
    items.append(
        Dimension(
            DimensionAxis.ACROSS, 0.0, long, 0.0, 0.0, -34.0, dimension_text(board.length, mark), bold=True
        )
    )
    for length in one.lengths:
        items.append(_length(length, mark))
    for x, width in dict(zip((0.0, long), (board.widths[0], board.widths[-1]), strict=True)).items():
        row = -14.0 if x == 0.0 else 14.0
        words.append(_width(x, width, row, mark))
    return Scene((*items, *words), name)


def board_extent(one: CutBoard) -> Point:
    """Length and greatest width of what is drawn of a board, in inches."""
    return float(one.board.length), float(one.board.widest)


def _parts(strip: BoardStrip) -> Iterator[tuple[Shape, Words]]:
    y, wide = float(strip.y), float(strip.width)
    for part in strip.wanted:
        x, long = float(part.x), float(part.length)
        yield (
            Shape(rectangle(x, y, long, wide), Layer.PARTS, FINE, Tint.FACE, name=part.name),
            Words((x + long / 2, y + wide / 2), part.name, LETTERS, bold=True, within=(long, wide * TALLER)),
        )


def _spent(strip: BoardStrip) -> Iterator[Shape]:
    y, wide = float(strip.y), float(strip.width)
    for part in strip.parts:
        if part.spent:
            box = rectangle(float(part.x), y, float(part.length), wide)
            yield Shape(box, Layer.WASTE, HIDDEN, Tint.SHADE, hatched=True, name="cut already")


def _rips(length: BoardLength, strip: BoardStrip) -> Iterator[Shape]:
    """The rip that frees a strip from what lies beyond it."""
    y = float(strip.y) + float(strip.width)
    yield Shape(((float(length.x), y), (float(length.end), y)), Layer.CUTS_AT_TABLE, TABLE_CUT, closed=False)


def _crosscut(x: float, width: float) -> Shape:
    return Shape(((x, 0.0), (x, width)), Layer.CUTS_BY_HAND, HAND_CUT, closed=False)


def _length(length: BoardLength, mark: Rule) -> Dimension:
    ends = (float(length.x), float(length.end))
    return Dimension(
        DimensionAxis.ACROSS, *ends, 0.0, 0.0, -14.0, dimension_text(length.length, mark), size=9.0
    )


def _width(x: float, width: Fraction, row: float, mark: Rule) -> Words:
    """A width that the board was measured with, beside its end."""
    return Words((x, float(width) / 2), dimension_text(width, mark), 9.0, turn=90.0, shift=(row, 0.0))
