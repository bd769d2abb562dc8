"""From a plan back to layouts, for the parts and sheets of today's problem.

A plan made before is where planning begins again: its sheets keep their parts in their places as far as
those still fit. Lengths are the new problem's: a part that has become smaller leaves its place as it is,
one that has grown keeps it while its sheet has room.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, replace

from ..plan import Piece, PieceRole, Plan, Purpose, SheetPlan
from ..problem import Direction, Problem
from .cut_draft import layout_fits, trimmed_first
from .integer_grid import IntegerGrid
from .layout_tree import (
    CarriedPiece,
    HandNode,
    HandStack,
    Leaf,
    Node,
    SheetLayout,
    Stack,
    leaves,
    node_extent,
)
from .one_piece import folded


@dataclass(frozen=True)
class KeptLayouts:
    """What is left of a plan: the layout of each sheet that keeps a part, and how many of each item have no
    place."""

    layouts: tuple[SheetLayout, ...]
    missing: tuple[int, ...]


def kept_layouts(problem: Problem, grid: IntegerGrid, plan: Plan) -> KeptLayouts:
    """The plan's sheets with the parts that are still asked for, so far as there is room for them.

    Items are known by their names; parts of one piece stay where all of them lie side by side. A sheet of a
    kind that is no longer there, or of which there are no more, loses its parts.
    """
    reader = _PlanReader(problem, grid)
    sheets = (replace(sheet, root=folded(problem, sheet.root)) for sheet in plan.sheets)
    layouts = tuple(layout for sheet in sheets if (layout := reader.layout(sheet)) is not None)
    return KeptLayouts(layouts, tuple(reader.left))


class _PlanReader:
    """Reads sheets one after another; `left` counts the copies of each item that still have no place."""

    def __init__(self, problem: Problem, grid: IntegerGrid) -> None:
        self.grid = grid
        self.problem = problem
        self.places = {item.name: place for place, item in enumerate(problem.items)}
        self.bins = {bin_.name: place for place, bin_ in enumerate(problem.bins)}
        self.left = [item.count for item in problem.items]
        self.sheets_left = {
            place: bin_.count for place, bin_ in enumerate(problem.bins) if bin_.count is not None
        }
        self.settings = _settings_of(grid)

    def layout(self, sheet: SheetPlan) -> SheetLayout | None:
        """The sheet's layout; None when nothing on it has a place any more."""
        bin_ = self.bins.get(sheet.bin)
        if bin_ is None or self.sheets_left.get(bin_, 1) == 0:
            return None
        parts = self._wanted(sheet)
        while parts:
            root = self._hand(sheet.root, parts)
            layout = SheetLayout(bin_, root) if root is not None else None
            if layout is not None and layout_fits(self.grid, layout):
                for leaf in leaves(layout.root):
                    self.left[leaf.item] -= 1
                if bin_ in self.sheets_left:
                    self.sheets_left[bin_] -= 1
                return layout
            del parts[max(parts, key=lambda one: (self._grown(parts[one]), one))]
        return None

    def _wanted(self, sheet: SheetPlan) -> dict[int, Piece]:
        """The parts of a sheet that are still asked for, by their identity in its tree."""
        taken: Counter[int] = Counter()
        wanted: dict[int, Piece] = {}
        for piece in sheet.parts:
            item = self.places.get(piece.item or "")
            if item is not None and taken[item] < self.left[item]:
                taken[item] += 1
                wanted[id(piece)] = piece
        return wanted

    def _grown(self, piece: Piece) -> int:
        """By how many grid units a part is larger than its piece, over both sides; the largest leaves first
        where none has grown (a sheet or a kerf has changed)."""
        x, y = self.grid.items[self.places[piece.item or ""]].size(piece.turned)
        was_x, was_y = (int(side // self.grid.step) for side in (piece.length, piece.width))
        return max(0, x - was_x) + max(0, y - was_y)

    def _hand(self, piece: Piece, parts: Mapping[int, Piece]) -> HandNode | Node | None:
        """A whole sheet: a tree of hand cuts where it has any, trimmed first or not, else what the table saw
        cuts from it."""
        parted = next((one for one in (piece, *piece.children) if _is_parted(one)), None)
        return self._table(piece, parts) if parted is None else self._parted(parted, parts)

    def _parted(self, piece: Piece, parts: Mapping[int, Piece]) -> HandNode | None:
        if not _is_parted(piece):
            node = self._table(piece, parts)
            return None if node is None else CarriedPiece(node)
        children = [child for one in piece.children if (child := self._parted(one, parts)) is not None]
        if not children:
            return None
        rest = not _holds(piece.children[-1], parts)
        if len(children) == 1 and not rest:
            return children[0]  # its neighbours are gone, and the cuts to them
        along_x = piece.cuts[0].direction is Direction.CROSSCUT
        return HandStack(along_x, tuple(children), rest)

    def _table(self, piece: Piece, parts: Mapping[int, Piece]) -> Node | None:
        if piece.role is PieceRole.PART:
            if id(piece) not in parts:
                return None
            turned = piece.turned and self.problem.items[self.places[piece.item or ""]].may_turn
            return Leaf(self.places[piece.item or ""], turned)
        if not piece.cuts:
            return None
        along_x = piece.cuts[0].direction is Direction.CROSSCUT
        found = [(one, node) for one in piece.children if (node := self._table(one, parts)) is not None]
        if not found:
            return None
        last_piece, last = found[-1]
        if all(cut.purpose is Purpose.TRIM for cut in piece.cuts) and trimmed_first(self.problem, last):
            return last
        keeps_rest = last_piece is piece.children[-1] and self._is_larger(last_piece, last, along_x)
        if keeps_rest and len(found) == 1 and piece.cuts[0].purpose is not Purpose.TRIM:
            return last  # its neighbours are gone, and the cuts to them
        children = [
            node if keeps_rest and node is last else self._widened(one, node, along_x) for one, node in found
        ]
        return Stack(along_x, tuple(children), open=keeps_rest)

    def _is_larger(self, piece: Piece, node: Node, along_x: bool) -> bool:
        """Whether the piece is larger than its content needs, along the axis it was cut off along."""
        return self._units(piece, along_x) > node_extent(node, self.grid)[0 if along_x else 1]

    def _widened(self, piece: Piece, node: Node, along_x: bool) -> Node:
        """The node cut off on its piece's old size, where that is the size of some part."""
        size = self._units(piece, along_x)
        if isinstance(node, Leaf) or not self._is_larger(piece, node, along_x):
            return node
        if size not in self.settings[0 if along_x else 1]:
            return node
        least_x, least_y = (size, node.least_y) if along_x else (node.least_x, size)
        return Stack(node.along_x, node.children, least_x, least_y, node.open)

    def _units(self, piece: Piece, along_x: bool) -> int:
        return int((piece.length if along_x else piece.width) // self.grid.step)


def _settings_of(grid: IntegerGrid) -> tuple[set[int], set[int]]:
    """The sizes of parts along x and along y, as they may lie."""
    lying = [
        item.size(turned) for item in grid.items for turned in ((False, True) if item.may_turn else (False,))
    ]
    return {x for x, _ in lying}, {y for _, y in lying}


def _is_parted(piece: Piece) -> bool:
    return bool(piece.cuts) and piece.cuts[0].purpose is Purpose.CARRY


def _holds(piece: Piece, parts: Mapping[int, Piece]) -> bool:
    return any(id(one) in parts for one in piece.walk())
