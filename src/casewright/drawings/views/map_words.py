"""The words of a sheet's map: in each part its mark and size where they fit, else the mark beside it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ...lengths.length import Rule
from ...planner.plan import Piece
from ..kit.draughting import SMALLEST
from ..kit.lettering import CAP_HEIGHT, dimension_text, width_of
from ..kit.pens import Layer, Tint
from ..kit.places import PaperBox, box_around, box_of, is_free, placed_within, places_within
from ..kit.scene import Item, Point, Words
from .led_words import ABOVE, BELOW, led_out

NAME, SIZE = 14.0, 10.0
"""Points of a part's mark and of its size where there is room."""

MARGIN = 0.5
"""Points between words and the outline of their part."""

ALONG = 24
"""Places tried along a strip for the line to its mark."""


def part_words_on_map(piece: Piece, mark: Rule, point: float, taken: list[PaperBox]) -> list[Words]:
    """A part's mark and size, as large as it has room for; else its mark alone, else nothing.

    What is in `taken` is left free, and what is set is added to it.
    """
    place = ((float(piece.x), float(piece.y)), (float(piece.length), float(piece.width)))
    room = box_around(place, point)
    inner = PaperBox(room.left + MARGIN, room.low + MARGIN, room.right - MARGIN, room.high - MARGIN)
    for block in _blocks(piece, mark, point):
        boxes = [box_of(words, point) for words in block]
        for right, up in places_within(inner, _around(boxes)):
            moved = [PaperBox(b.left + right, b.low + up, b.right + right, b.high + up) for b in boxes]
            if all(is_free(box, taken) for box in moved):
                taken.extend(moved)
                return [
                    replace(words, shift=(words.shift[0] + right, words.shift[1] + up)) for words in block
                ]
    return []


def _blocks(piece: Piece, mark: Rule, point: float) -> Iterator[tuple[Words, ...]]:
    """The ways to set a part's words in its middle, the best first."""
    long, wide = float(piece.length), float(piece.width)
    middle = (float(piece.x) + long / 2, float(piece.y) + wide / 2)
    length, width = piece.as_part
    name, size = piece.item or "", f"{dimension_text(length, mark)} × {dimension_text(width, mark)}"
    turns = (90.0, 0.0) if wide > 1.5 * long else (0.0, 90.0)
    for turn in turns:
        across = (wide if turn else long) / point
        fitted = [
            _fitted(text, most, across, bold)
            for text, most, bold in ((name, NAME, True), (size, SIZE, False))
        ]
        for sizes in (fitted, [SMALLEST, SMALLEST]):
            if min(sizes) >= SMALLEST:
                yield _two_lines(middle, (name, size), sizes, turn)
        for points in (min(SIZE, _fitted(f"{name}   {size}", SIZE, across, True)), SMALLEST):
            if points >= SMALLEST:
                yield (Words(middle, f"{name}   {size}", points, turn=turn, bold=True),)
    for turn in turns:
        for points in (11.0, SMALLEST):
            yield (Words(middle, name, points, turn=turn, bold=True),)


def _fitted(text: str, most: float, across: float, bold: bool) -> float:
    return min(most, (across - 4.0) / width_of(text, 1.0, bold=bold))


def _two_lines(middle: Point, texts: tuple[str, str], sizes: list[float], turn: float) -> tuple[Words, ...]:
    upper, lower = (CAP_HEIGHT * size for size in sizes)
    gap = 0.35 * min(sizes)
    rises = ((lower + gap) / 2, -(upper + gap) / 2)
    return tuple(
        Words(middle, text, size, turn=turn, bold=not number, shift=(-rise, 0.0) if turn else (0.0, rise))
        for number, (text, size, rise) in enumerate(zip(texts, sizes, rises, strict=True))
    )


def _around(boxes: list[PaperBox]) -> PaperBox:
    return PaperBox(
        min(box.left for box in boxes),
        min(box.low for box in boxes),
        max(box.right for box in boxes),
        max(box.high for box in boxes),
    )


def led_mark(piece: Piece, root: Piece, point: float, taken: list[PaperBox]) -> tuple[Item, Item]:
    """The mark of a part that has no room for it, above or below the sheet, and the line that leads there."""
    long, y = float(piece.length), float(piece.y) + float(piece.width) / 2
    tips = [(float(piece.x) + (step + 0.5) / ALONG * long, y) for step in range(ALONG)]
    words = Words((0.0, 0.0), piece.item or "", SMALLEST, bold=True)
    return led_out(words, tips, (ABOVE, BELOW), root, point, taken)


def offcut_words(piece: Piece, mark: Rule, point: float, taken: list[PaperBox]) -> list[Words]:
    """What an offcut measures, where it has room for that."""
    long, wide = float(piece.length), float(piece.width)
    room = box_around(((float(piece.x), float(piece.y)), (long, wide)), point)
    middle = (float(piece.x) + long / 2, float(piece.y) + wide / 2)
    text = f"keep {dimension_text(piece.length, mark)} × {dimension_text(piece.width, mark)}"
    for size in (9.0, SMALLEST):
        for turn in (90.0, 0.0) if wide > 1.5 * long else (0.0, 90.0):
            words = Words(middle, text, size, turn=turn, backing=Tint.PAPER, layer=Layer.OFFCUTS)
            placed = placed_within(room, words, point, taken)
            if placed is not None:
                return [placed]
    return []


def mark_in(piece: Piece, point: float, taken: list[PaperBox]) -> list[Words]:
    """A part's mark alone, where it has room for that."""
    long, wide = float(piece.length), float(piece.width)
    room = box_around(((float(piece.x), float(piece.y)), (long, wide)), point)
    middle = (float(piece.x) + long / 2, float(piece.y) + wide / 2)
    for turn in (0.0, 90.0):
        words = Words(middle, piece.item or "", 9.0, turn=turn, bold=True)
        placed = placed_within(room, words, point, taken)
        if placed is not None:
            return [placed]
    return []
