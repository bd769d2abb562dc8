"""What a map of a sheet shows of the work: lines of cuts, numbers where the hand-held saw enters, letters."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from ...planner.plan import Cut, Piece, PieceRole, SheetPlan
from ...planner.problem import Direction
from ...workshop.freed_pieces import StackedPiece
from ...workshop.sheets.sheet_marks import SheetMarks
from ..kit.pens import HAND_CUT, TABLE_CUT, Layer
from ..kit.places import PaperBox, box_around, box_of, is_free
from ..kit.scene import Item, Point, Shape, Words
from .led_words import led_out

TRIES = 9
"""Places tried along a cut for the line to its number."""

FROM_EDGE, FROM_ENTRY, STEP = 2.0, 1.5, 3.0
"""Points from the sheet's edge to a number beside it, from there to one inside, and between places tried."""

FROM_CORNER = 2.0
"""Points between a letter's frame and the corner of the piece that it is chalked on."""


@dataclass(frozen=True)
class NumberedCut:
    """A cut by hand, the piece it divides, and its number on the map."""

    piece: Piece
    cut: Cut
    number: int

    @property
    def entry(self) -> tuple[Point, Point]:
        """Where the saw enters, and the way it goes from there."""
        at = float(self.cut.at) + float(self.cut.kerf) / 2
        if self.cut.direction is Direction.CROSSCUT:
            return (at, float(self.piece.y)), (0.0, 1.0)
        return (float(self.piece.x), at), (1.0, 0.0)

    @property
    def long(self) -> float:
        """Inches from where it enters to where it leaves."""
        crosscut = self.cut.direction is Direction.CROSSCUT
        return float(self.piece.width if crosscut else self.piece.length)


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


def numbered_cuts(sheet: SheetPlan, marks: SheetMarks) -> tuple[NumberedCut, ...]:
    """The cuts of a sheet by hand, in the order in which they are made."""
    found = [
        NumberedCut(piece, cut, marks.numbers[cut.order])
        for piece in sheet.root.walk()
        for cut in piece.cuts
        if cut.order in marks.numbers
    ]
    return tuple(sorted(found, key=lambda one: one.number))


def cut_numbers(
    cuts: Iterable[NumberedCut], root: Piece, point: float, taken: list[PaperBox]
) -> tuple[list[Words], list[NumberedCut]]:
    """The number of each cut by hand where the saw enters: beside the sheet if the cut begins at its edge.

    Where that place is in `taken`, the number stands a row further out or along its cut. Second, the cuts
    that have no room there either. A point on paper covers `point` inches.
    """
    found, without = [], []
    for one in cuts:
        words = _beside_or_along(one, root, point, taken)
        if words is None:
            without.append(one)
        else:
            found.append(words)
    return found, without


def _beside_or_along(one: NumberedCut, root: Piece, point: float, taken: list[PaperBox]) -> Words | None:
    start, way = one.entry
    words = _number(one.number, start)
    box = box_of(replace(words, at=(0.0, 0.0)), point)
    frame = (box.right, box.high)
    long = one.long / point
    half = frame[0] if way[0] else frame[1]
    inside = [half + FROM_ENTRY + STEP * step for step in range(int(long / STEP) + 1)]
    # On a short cut it would leave no place for the line of another that ends there.
    along = [there for there in inside if there <= long - half and long > 4 * half]
    outside = [-(half + FROM_EDGE), -(3 * half + FROM_EDGE + 2.0)] if _at_edge(start, way, root) else []
    for there in (*outside, *along):
        moved = replace(words, shift=(way[0] * there, way[1] * there))
        if is_free(box_of(moved, point), taken):
            taken.append(box_of(moved, point))
            return moved
    return None


def led_number(
    one: NumberedCut, sides: Sequence[Point], root: Piece, point: float, taken: list[PaperBox]
) -> tuple[Item, Item]:
    """The number of a cut that has no room along it, beside the sheet, and the line that leads to the cut."""
    (x, y), way = one.entry
    shares = [(step + 0.5) / TRIES * one.long for step in range(TRIES)]
    tips = [(x + way[0] * share, y + way[1] * share) for share in shares]
    return led_out(_number(one.number, (x, y)), tips, sides, root, point, taken)


def _number(number: int, at: Point) -> Words:
    return Words(at, str(number), 8.0, bold=True, pill=True, layer=Layer.CUTS_BY_HAND)


def _at_edge(start: Point, way: Point, root: Piece) -> bool:
    return start[0] == float(root.x) if way[0] else start[1] == float(root.y)
