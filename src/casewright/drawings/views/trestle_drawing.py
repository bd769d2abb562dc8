"""A sheet at the trestles: its cuts by hand and the pieces they leave, with what to chalk; no parts."""

from __future__ import annotations

from dataclasses import replace

from ...lengths.length import Rule
from ...planner.plan import Piece, PieceRole, SheetPlan
from ...workshop.freed_pieces import StackedPiece
from ...workshop.sheets.sheet_marks import SheetMarks
from ..kit.lettering import dimension_text
from ..kit.pens import BOLD, Layer, Tint
from ..kit.places import PaperBox, box_around, box_of, placed_within, widened
from ..kit.scene import Dimension, DimensionAxis, Item, Point, Scene, Shape, Words, rectangle
from .led_words import ABOVE, BEFORE, BELOW, BEYOND, led_out
from .map_words import mark_in
from .sheet_cut_marks import cut_line, cut_numbers, led_number, numbered_cuts

SIDES = (ABOVE, BELOW, BEFORE, BEYOND)
TIPS = 5
"""Places tried each way across a piece for the line to its letter."""


def trestle_scene(sheet: SheetPlan, mark: Rule, marks: SheetMarks, point: float) -> Scene:
    """The sheet where a point on paper covers `point` inches: cuts by hand numbered, each piece for the table
    saw lettered in its middle, offcuts that come off here hatched."""
    root = sheet.root
    long, wide = float(root.length), float(root.width)
    items: list[Item] = [Shape(rectangle(0.0, 0.0, long, wide), Layer.SHEET, None, Tint.CALM)]
    cuts = numbered_cuts(sheet, marks)
    freed = {id(child) for one in cuts for child in one.piece.children}
    for piece in root.walk():
        if id(piece) in freed and piece.role in (PieceRole.OFFCUT, PieceRole.PART):
            part = piece.role is PieceRole.PART
            place = (float(piece.x), float(piece.y), float(piece.length), float(piece.width))
            layer, tint = (Layer.PARTS, Tint.FACE) if part else (Layer.OFFCUTS, Tint.PAPER)
            items.append(Shape(rectangle(*place), layer, None, tint, hatched=not part))
    items.append(Shape(rectangle(0.0, 0.0, long, wide), Layer.SHEET, BOLD, name=f"sheet {sheet.number}"))
    items += [cut_line(one.piece, one.cut, by_hand=True) for one in cuts]
    taken: list[PaperBox] = []
    numbers, unnumbered = cut_numbers(cuts, root, point, taken)
    letters, unlettered = _letters(marks, point, taken)
    words: list[Item] = [*letters, *numbers]
    for piece in root.walk():
        if id(piece) in freed and piece.role is PieceRole.PART:
            words += mark_in(piece, point, taken)
    for one in unnumbered:
        words += led_number(one, SIDES, root, point, taken)
    for carried in unlettered:
        words += _led_letter(carried, root, point, taken)
    below = min((box.low for box in taken), default=0.0)
    size = f"{dimension_text(root.length, mark)} × {dimension_text(root.width, mark)}"
    # The line comes before the words beside the sheet, which may stand over it. It has both sizes:
    # what a whole sheet measures is no news at the trestles.
    items.append(
        Dimension(DimensionAxis.ACROSS, 0.0, long, 0.0, 0.0, min(-12.0, below - 8.0), size, size=8.5)
    )
    return Scene((*items, *words), f"sheet {sheet.number}")


def _letters(
    marks: SheetMarks, point: float, taken: list[PaperBox]
) -> tuple[list[Words], list[StackedPiece]]:
    """What is chalked on each piece, in its middle or as near to it as is free, small ones first; without
    frames where those do not all find room. Second, the pieces that have no room for their letter."""
    lettered = sorted(
        (one for one in marks.carried if one.letter), key=lambda one: float(one.length) * float(one.width)
    )
    for pill in (True, False):
        tried = list(taken)
        placed = [_letter_within(carried, point, tried, pill=pill) for carried in lettered]
        if all(placed):
            break
    taken[:] = tried
    without = [one for one, words in zip(lettered, placed, strict=True) if words is None]
    return [words for words in placed if words is not None], without


def _letter_within(carried: StackedPiece, point: float, taken: list[PaperBox], *, pill: bool) -> Words | None:
    place = ((float(carried.x), float(carried.y)), (float(carried.length), float(carried.width)))
    middle = (place[0][0] + place[1][0] / 2, place[0][1] + place[1][1] / 2)
    room = box_around(place, point)
    words = _letter(carried, middle, pill=pill)
    for turn in (0.0,) if pill else (0.0, 90.0):
        # A strip may be narrower than its letter in a frame, which then overhangs it.
        turned = replace(words, turn=turn)
        wide = widened(room, box_of(turned, point)) if pill else room
        placed = placed_within(wide, turned, point, taken)
        if placed is not None:
            return placed
    return None


def _letter(carried: StackedPiece, at: Point, *, pill: bool) -> Words:
    backing = Tint.NONE if pill else Tint.CALM
    return Words(at, carried.chalk, 10.0, bold=True, pill=pill, backing=backing, layer=Layer.CUTS_BY_HAND)


def _led_letter(carried: StackedPiece, root: Piece, point: float, taken: list[PaperBox]) -> tuple[Item, Item]:
    """The letter of a piece without room for it, beside the sheet, and the line that leads to the piece."""
    (x, y), (long, wide) = (float(carried.x), float(carried.y)), (float(carried.length), float(carried.width))
    shares = [(step + 0.5) / TIPS for step in range(TIPS)]
    tips = [(x + across * long, y + up * wide) for across in shares for up in shares]
    return led_out(_letter(carried, (x, y), pill=False), tips, SIDES, root, point, taken)
