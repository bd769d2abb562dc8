"""What a map of a sheet shows of the work: lines of cuts, numbers where the hand-held saw enters, letters."""

from __future__ import annotations

from dataclasses import replace

from ...planner.plan import Cut, Piece, PieceRole
from ...planner.problem import Direction
from ...workshop.freed_pieces import StackedPiece
from ..kit.pens import HAND_CUT, TABLE_CUT, Layer
from ..kit.places import PaperBox, box_around, box_of, is_free
from ..kit.scene import Shape, Words

TRIES = 12

FROM_CORNER = 2.0
"""Points between a letter's frame and the corner of the piece that it is chalked on."""


def cut_line(piece: Piece, cut: Cut, *, by_hand: bool) -> Shape:
    """A line along the middle of the kerf, across the piece that is cut."""
    at = float(cut.at) + float(cut.kerf) / 2
    x, y, long, wide = (float(size) for size in (piece.x, piece.y, piece.length, piece.width))
    ends = ((at, y), (at, y + wide)) if cut.direction is Direction.CROSSCUT else ((x, at), (x + long, at))
    layer = Layer.CUTS_BY_HAND if by_hand else Layer.CUTS_AT_TABLE
    pen = HAND_CUT if by_hand else TABLE_CUT
    return Shape(ends, layer, pen, closed=False, name=f"cut {cut.order}")


def chalked_letter(carried: StackedPiece, root: Piece, point: float, taken: list[PaperBox]) -> Words:
    """What is chalked on a piece, in the corner or middle that is not in `taken` and that a part's words can
    best spare: that of the largest part or offcut. A point on paper covers `point` inches."""
    low, high = float(carried.x), float(carried.x) + float(carried.length)
    near, far = float(carried.y), float(carried.y) + float(carried.width)
    plain = Words((0.0, 0.0), carried.chalk, 10.0, bold=True, pill=True, layer=Layer.CUTS_BY_HAND)
    frame = box_of(plain, point)
    along, up = frame.right + FROM_CORNER, frame.high + FROM_CORNER
    leaves = [leaf for leaf in root.walk() if leaf.role in (PieceRole.PART, PieceRole.OFFCUT)]
    corners = [
        replace(plain, at=(x, y), shift=(aside, rise))
        for x, aside in ((low, along), (high, -along), ((low + high) / 2, 0.0))
        for y, rise in ((far, -up), (near, up), ((near + far) / 2, 0.0))
    ]

    def worth(words: Words) -> tuple[bool, float]:
        box = box_of(words, point)
        # An offcut spares a corner sooner than a part of its size: its words may be left out.
        under = [
            float(leaf.length) * float(leaf.width) * (2.0 if leaf.role is PieceRole.OFFCUT else 1.0)
            for leaf in leaves
            if _space(leaf, point).over(box)
        ]
        return is_free(box, taken), min(under, default=float(root.length) * float(root.width))

    words = max(corners, key=worth)
    taken.append(box_of(words, point))
    return words


def _space(piece: Piece, point: float) -> PaperBox:
    return box_around(((float(piece.x), float(piece.y)), (float(piece.length), float(piece.width))), point)


def cut_number(
    piece: Piece, cut: Cut, number: int, root: Piece, point: float, taken: list[PaperBox]
) -> Words:
    """The number of a cut by hand where the saw enters: beside the sheet if the cut begins at its edge.

    Where that place is in `taken`, the number moves along its cut or away from the sheet. A point on paper
    covers `point` inches.
    """
    at = float(cut.at) + float(cut.kerf) / 2
    if cut.direction is Direction.CROSSCUT:
        start = (at, float(piece.y))
        way = (0.0, -1.0) if piece.y == root.y else (0.0, 1.0)
    else:
        start = (float(piece.x), at)
        way = (-1.0, 0.0) if piece.x == root.x else (1.0, 0.0)
    plain = Words(start, str(number), 8.0, bold=True, pill=True, layer=Layer.CUTS_BY_HAND)
    frame = box_of(replace(plain, at=(0.0, 0.0)), point)
    tries = [
        replace(
            plain,
            shift=(
                way[0] * (frame.right + 1.5 + (2 * frame.right + 2.0) * step),
                way[1] * (frame.high + 2.5 + (2 * frame.high + 2.0) * step),
            ),
        )
        for step in range(TRIES)
    ]
    words = next((one for one in tries if is_free(box_of(one, point), taken)), tries[-1])
    taken.append(box_of(words, point))
    return words
