"""A sheet at the trestles: its cuts by hand and the pieces they leave, with what to chalk; no parts."""

from __future__ import annotations

from collections.abc import Iterator

from ...lengths.length import Rule
from ...planner.plan import PieceRole, SheetPlan
from ...workshop.sheets.sheet_marks import SheetMarks
from ..kit.lettering import dimension_text
from ..kit.pens import BOLD, Layer, Tint
from ..kit.places import PaperBox, box_around, box_of, placed_within, widened
from ..kit.scene import Dimension, DimensionAxis, Item, Scene, Shape, Words, rectangle
from .map_words import mark_in
from .sheet_cut_marks import cut_line, cut_number


def trestle_scene(sheet: SheetPlan, mark: Rule, marks: SheetMarks, point: float) -> Scene:
    """The sheet where a point on paper covers `point` inches: cuts by hand numbered, each piece for the table
    saw lettered in its middle, offcuts that come off here hatched."""
    root = sheet.root
    long, wide = float(root.length), float(root.width)
    items: list[Item] = [Shape(rectangle(0.0, 0.0, long, wide), Layer.SHEET, None, Tint.CALM)]
    cuts = [(piece, cut) for piece in root.walk() for cut in piece.cuts if cut.order in marks.numbers]
    freed = {id(child) for piece, _ in cuts for child in piece.children}
    for piece in root.walk():
        if id(piece) in freed and piece.role in (PieceRole.OFFCUT, PieceRole.PART):
            part = piece.role is PieceRole.PART
            place = (float(piece.x), float(piece.y), float(piece.length), float(piece.width))
            layer, tint = (Layer.PARTS, Tint.FACE) if part else (Layer.OFFCUTS, Tint.PAPER)
            items.append(Shape(rectangle(*place), layer, None, tint, hatched=not part))
    items.append(Shape(rectangle(0.0, 0.0, long, wide), Layer.SHEET, BOLD, name=f"sheet {sheet.number}"))
    items += [cut_line(piece, cut, by_hand=True) for piece, cut in cuts]
    taken: list[PaperBox] = []
    numbers = [
        cut_number(piece, cut, marks.numbers[cut.order], root, point, taken)
        for piece, cut in sorted(cuts, key=lambda pair: pair[1].order)
    ]
    items += _letters(marks, point, taken)
    items += numbers
    for piece in root.walk():
        if id(piece) in freed and piece.role is PieceRole.PART:
            items += mark_in(piece, point, taken)
    below = min((box.low for box in taken), default=0.0)
    size = f"{dimension_text(root.length, mark)} × {dimension_text(root.width, mark)}"
    # One line for both sizes: what a whole sheet measures is no news at the trestles.
    items.append(
        Dimension(DimensionAxis.ACROSS, 0.0, long, 0.0, 0.0, min(-12.0, below - 8.0), size, size=8.5)
    )
    return Scene(tuple(items), f"sheet {sheet.number}")


def _letters(marks: SheetMarks, point: float, taken: list[PaperBox]) -> Iterator[Words]:
    """What is chalked on each piece, in its middle or as near to it as is free, small ones first."""
    for carried in sorted(marks.carried, key=lambda one: float(one.length) * float(one.width)):
        if not carried.letter:
            continue
        place = ((float(carried.x), float(carried.y)), (float(carried.length), float(carried.width)))
        middle = (place[0][0] + place[1][0] / 2, place[0][1] + place[1][1] / 2)
        words = Words(middle, carried.chalk, 10.0, bold=True, pill=True, layer=Layer.CUTS_BY_HAND)
        # A strip may be narrower than its letter, which then overhangs it.
        room = widened(box_around(place, point), box_of(words, point))
        placed = placed_within(room, words, point, taken)
        if placed is None:
            taken.append(box_of(words, point))
        yield placed or words
