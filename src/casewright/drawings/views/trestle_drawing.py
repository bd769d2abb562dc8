"""A sheet at the trestles: its cuts by hand and the pieces they leave, with what to chalk; no parts."""

from __future__ import annotations

from ...lengths.length import Rule
from ...planner.plan import PieceRole, SheetPlan
from ...workshop.sheets.sheet_marks import SheetMarks
from ..kit.lettering import dimension_text
from ..kit.pens import BOLD, Layer, Tint
from ..kit.scene import Dimension, DimensionAxis, Item, Point, Scene, Shape, Words, rectangle
from .sheet_cut_marks import cut_line, cut_number

APART = 16.0
"""Points that two letters on a small map keep from each other."""


def trestle_scene(sheet: SheetPlan, mark: Rule, marks: SheetMarks, printed: float) -> Scene:
    """The sheet about `printed` points wide: cuts by hand numbered, each piece for the table saw lettered in
    its middle, offcuts that come off here hatched."""
    root = sheet.root
    long, wide = float(root.length), float(root.width)
    point = long / printed
    items: list[Item] = [Shape(rectangle(0.0, 0.0, long, wide), Layer.SHEET, None, Tint.CALM)]
    cuts = [(piece, cut) for piece in root.walk() for cut in piece.cuts if cut.order in marks.numbers]
    freed = {id(child) for piece, _ in cuts for child in piece.children}
    for piece in root.walk():
        if id(piece) in freed and piece.role in (PieceRole.OFFCUT, PieceRole.PART):
            part = piece.role is PieceRole.PART
            place = (float(piece.x), float(piece.y), float(piece.length), float(piece.width))
            layer, tint = (Layer.PARTS, Tint.FACE) if part else (Layer.OFFCUTS, Tint.PAPER)
            items.append(Shape(rectangle(*place), layer, None, tint, hatched=not part))
            if part:
                middle = (place[0] + place[2] / 2, place[1] + place[3] / 2)
                items.append(Words(middle, piece.item or "", 9.0, bold=True, within=(place[2], place[3])))
    items.append(Shape(rectangle(0.0, 0.0, long, wide), Layer.SHEET, BOLD, name=f"sheet {sheet.number}"))
    items += [cut_line(piece, cut, by_hand=True) for piece, cut in cuts]
    taken: list[Point] = []
    numbers = [
        cut_number(piece, cut, marks.numbers[cut.order], root, point, taken)
        for piece, cut in sorted(cuts, key=lambda pair: pair[1].order)
    ]
    items += _letters(marks, point)
    items += numbers
    below = min((number.shift[1] for number in numbers), default=0.0)
    size = f"{dimension_text(root.length, mark)} × {dimension_text(root.width, mark)}"
    # One line for both sizes: what a whole sheet measures is no news at the trestles.
    items.append(
        Dimension(DimensionAxis.ACROSS, 0.0, long, 0.0, 0.0, min(-14.0, below - 14.0), size, size=8.5)
    )
    return Scene(tuple(items), f"sheet {sheet.number}")


def _letters(marks: SheetMarks, point: float) -> list[Words]:
    """What is chalked on each piece, in its middle; a piece out of another one a little lower."""
    found: list[Words] = []
    for carried in marks.carried:
        if carried.letter:
            middle = (
                float(carried.x) + float(carried.length) / 2,
                float(carried.y) + float(carried.width) / 2,
            )
            near = sum(
                abs(middle[0] - other.at[0]) < 2 * APART * point
                and abs(middle[1] - other.at[1]) < APART * point
                for other in found
            )
            found.append(
                Words(
                    middle,
                    carried.chalk,
                    10.0,
                    bold=True,
                    pill=True,
                    shift=(0.0, -APART * near),
                    layer=Layer.CUTS_BY_HAND,
                )
            )
    return found
