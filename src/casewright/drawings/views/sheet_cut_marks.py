"""What a map of a sheet shows of the work: lines of cuts, numbers where the hand-held saw enters, letters."""

from __future__ import annotations

from ...planner.plan import Cut, Piece, PieceRole
from ...planner.problem import Direction
from ...workshop.freed_pieces import StackedPiece
from ..kit.pens import HAND_CUT, TABLE_CUT, Layer
from ..kit.scene import Point, Shape, Words

TRIES = 4

LETTER_WIDE, LETTER_TALL = 18.0, 11.0
WORDS_WIDE, WORDS_TALL = 55.0, 14.0
"""Points from the middle of a letter in its pill, and of a part's mark with its size, to their edges."""

CROWDED = 1000.0
"""A place that is taken is worse than any part's words."""


def cut_line(piece: Piece, cut: Cut, *, by_hand: bool) -> Shape:
    """A line along the middle of the kerf, across the piece that is cut."""
    at = float(cut.at) + float(cut.kerf) / 2
    x, y, long, wide = (float(size) for size in (piece.x, piece.y, piece.length, piece.width))
    ends = ((at, y), (at, y + wide)) if cut.direction is Direction.CROSSCUT else ((x, at), (x + long, at))
    layer = Layer.CUTS_BY_HAND if by_hand else Layer.CUTS_AT_TABLE
    pen = HAND_CUT if by_hand else TABLE_CUT
    return Shape(ends, layer, pen, closed=False, name=f"cut {cut.order}")


def chalked_letter(carried: StackedPiece, root: Piece, point: float, taken: list[Point]) -> Words:
    """What is chalked on a piece, in the corner where it covers the words of a part or offcut least, and
    nothing that is in `taken`. A point on paper covers about `point` inches."""
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


def cut_number(piece: Piece, cut: Cut, number: int, root: Piece, point: float, taken: list[Point]) -> Words:
    """The number of a cut by hand where the saw enters: beside the sheet if the cut begins at its edge.

    Where that place is in `taken`, the number moves along its cut or away from the sheet. A point on paper
    covers about `point` inches.
    """
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
        8.0,
        bold=True,
        pill=True,
        shift=shift,
        layer=Layer.CUTS_BY_HAND,
    )
