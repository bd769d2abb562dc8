"""A sheet with its cuts: parts with marks and sizes, offcuts hatched, each cut numbered."""

from __future__ import annotations

from collections.abc import Iterator

from ...lengths.length import Mark
from ...planner.plan import Cut, Piece, PieceRole, SheetPlan
from ...planner.problem import Direction
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


def sheet_scene(sheet: SheetPlan, mark: Mark, hand_saws: frozenset[str], *, grain: bool = True) -> Scene:
    """One sheet of a plan. `hand_saws` names the tools whose cuts are drawn in the heavy dashed line."""
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
        items.append(_line(piece, cut, by_hand=cut.tool in hand_saws))
    taken: list[Point] = []
    numbers = [
        _number(piece, cut, root, taken, by_hand=cut.tool in hand_saws)
        for piece, cut in sorted(cuts, key=lambda pair: pair[1].order)
    ]
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


def _piece(piece: Piece, mark: Mark, point: float) -> Iterator[Item]:
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


def _number(piece: Piece, cut: Cut, root: Piece, taken: list[Point], *, by_hand: bool) -> Words:
    """The cut's number where the saw enters: beside the sheet if the cut begins at its edge.

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
        str(cut.order),
        7.5,
        bold=by_hand,
        pill=True,
        shift=shift,
        layer=Layer.CUTS_BY_HAND if by_hand else Layer.CUTS_AT_TABLE,
    )
