"""From a layout to pieces in their places, every cut with its tool and setting, in grid units.

Each stack is cut from its low edge onwards. That edge is trimmed first; then one piece after another is cut
off against it, on a setting equal to its own size. What remains is at the far end, or belongs to the last
piece if the stack is open. The trim of an edge (or the clean-up of an edge the hand saw left) comes off in
the first series of cuts across it, so a far trim costs no cut of its own; where several pieces would each
have to lose it, it comes off the whole piece before they are parted.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from typing import NamedTuple

from ..plan import PieceRole, Purpose
from ..problem import Direction, Edge, FirstCut, PatternKind, Problem, Saw, SawKind
from .hand_room import lost_between, roomy_extent
from .integer_grid import EdgeZones, GridBin, IntegerGrid
from .layout_tree import CarriedPiece, HandNode, HandStack, Leaf, Node, SheetLayout, Stack, node_extent


class DraftCut(NamedTuple):
    tool: Saw
    direction: Direction
    at: int
    setting: int
    reference: Edge
    purpose: Purpose

    @property
    def at_fence(self) -> bool:
        """Whether it needs a setting of the table saw's fence: trims and hand cuts do not."""
        return self.purpose is Purpose.SIZE and self.tool.kind is SawKind.TABLE_SAW


@dataclass
class Draft:
    """A piece while its tree grows, in grid units; `freeze` makes a plan's `Piece` of it."""

    x: int
    y: int
    length: int
    width: int
    role: PieceRole
    leaf: Leaf | None = None
    cuts: list[DraftCut] = field(default_factory=list)
    children: list[Draft] = field(default_factory=list)

    @property
    def parted_by_hand(self) -> bool:
        """Whether the hand-held saw cuts it into pieces to carry, once it has trimmed it or at once."""
        return any(cut.purpose is Purpose.CARRY for one in (self, *self.children) for cut in one.cuts)

    def walk(self) -> Iterator[Draft]:
        stack = [self]
        while stack:
            draft = stack.pop()
            yield draft
            stack.extend(draft.children)


def draft_of(problem: Problem, grid: IntegerGrid, layout: SheetLayout) -> Draft:
    """The sheet cut as `layout` says. The layout must fit its bin (see `fits`)."""
    bin_ = grid.bins[layout.bin]
    root = Draft(0, 0, bin_.length, bin_.width, PieceRole.SHEET)
    emitter = _Emitter(problem, grid, bin_)
    if isinstance(layout.root, HandStack | CarriedPiece):
        emitter.by_hand(layout.root, root, bin_.zones)
    else:
        emitter.at_table(emitter.first_cut_kept(layout.root), root, bin_.zones)
    return root


def layout_fits(grid: IntegerGrid, layout: SheetLayout) -> bool:
    """Whether the layout fits its bin."""
    bin_ = grid.bins[layout.bin]
    root = layout.root if isinstance(layout.root, HandStack | CarriedPiece) else CarriedPiece(layout.root)
    x, y = hand_extent(root, grid, bin_.zones)
    return x <= bin_.length and y <= bin_.width


def trimmed_first(problem: Problem, node: Node) -> bool:
    """Whether a piece loses the edge that runs across all that is cut off it before anything else: one trim
    in place of one on each. It is a turn more, so only where turns are not limited."""
    return isinstance(node, Stack) and len(node.children) > 1 and problem.pattern == PatternKind()


def hand_extent(node: HandNode, grid: IntegerGrid, zones: EdgeZones) -> tuple[int, int]:
    """The size that `node` takes of a piece whose edges must lose these zones."""
    if isinstance(node, CarriedPiece):
        x, y = node_extent(node.node, grid)
        return x + zones.left + zones.right, y + zones.near + zones.far
    sizes = [hand_extent(child, grid, zone) for child, zone in _hand_children(node, grid, zones)]
    # A cut between pieces counts for no less than the table saw's, as in what is proved of the sheets.
    kerfs = (len(sizes) - 1) * max(grid.hand_kerf, grid.kerf - 2 * grid.clean_up)
    if node.along_x:
        return sum(size[0] for size in sizes) + kerfs, max(size[1] for size in sizes)
    return max(size[0] for size in sizes), sum(size[1] for size in sizes) + kerfs


def hand_zones(zones: EdgeZones, clean_up: int, along_x: bool, first: bool, last: bool) -> EdgeZones:
    """What one of several pieces cut by hand must lose at its edges: the whole piece's own zones at both
    ends, the clean-up wherever the hand saw cut."""
    low, high = zones.ends(along_x)
    return zones.with_ends(along_x, low if first else clean_up, high if last else clean_up)


def _hand_children(node: HandStack, grid: IntegerGrid, zones: EdgeZones) -> list[tuple[HandNode, EdgeZones]]:
    end = None if node.rest else len(node.children) - 1
    return [
        (child, hand_zones(zones, grid.clean_up, node.along_x, place == 0, place == end))
        for place, child in enumerate(node.children)
    ]


@dataclass(frozen=True)
class _Emitter:
    problem: Problem
    grid: IntegerGrid
    bin: GridBin

    def first_cut_kept(self, node: Node) -> Node:
        """`node` with its first cuts in the direction asked for, in a stack of one if necessary."""
        wanted = self.problem.pattern.first_cut
        if wanted is FirstCut.ANY:
            return node
        across = wanted is FirstCut.ACROSS
        if isinstance(node, Stack) and node.along_x == across:
            # A lone piece that keeps what is left would need no cut: it is cut off, so that there is a first.
            return replace(node, open=node.open and len(node.children) > 1)
        return Stack(across, (node,))

    def at_table(self, node: Node, piece: Draft, zones: EdgeZones) -> None:
        """Cut `node` from `piece` at the table saw."""
        if isinstance(node, Leaf):
            self._free(node, piece, zones)
        elif trimmed_first(self.problem, node) and (edge := _edge_across(node, zones)):
            across = not node.along_x
            total = piece.length if across else piece.width
            self._trim(piece, across, 0, edge)
            inner = self._child(piece, across, edge, total - edge, _part_role(piece))
            self.at_table(node, inner, zones.with_ends(across, 0, zones.ends(across)[1]))
        else:
            node = self._with_parts_of_blanks(node, piece)
            low, high = zones.ends(node.along_x)
            total = piece.length if node.along_x else piece.width
            sizes = self._with_room(node, total - low - high)
            # A hand cut within a series would leave a rough edge to the next piece, so it comes last of all.
            keeps_rest = node.open and not any(map(self._beyond_fence, sizes[:-1]))
            if keeps_rest:
                sizes[-1] = total - low - sum(sizes[:-1]) - (len(sizes) - 1) * self.grid.kerf
            if sizes == [total]:
                self.at_table(node.children[0], piece, zones)  # one child, no cut
                return
            pieces = self._series(piece, node.along_x, low, sizes, high)
            begun = zones.with_ends(node.along_x, 0, high)
            rest = zones.with_ends(node.along_x, 0, 0)
            for place, (child, part) in enumerate(zip(node.children, pieces, strict=True), 1):
                self.at_table(child, part, begun if keeps_rest and place == len(pieces) else rest)

    def _with_parts_of_blanks(self, node: Stack, piece: Draft) -> Stack:
        """The stack with the parts of a blank in its place, where they come off one after another with its
        neighbours: the blank needs no setting of its own then. One that keeps the rest stays as it is."""
        if not self.grid.blanks:
            return node
        children: list[Node] = []
        for place, child in enumerate(node.children, 1):
            keeps_rest = node.open and place == len(node.children)
            if isinstance(child, Leaf) and not keeps_rest and self._is_parted_like(child, node, piece):
                children += [Leaf(part, child.turned) for part in self.grid.items[child.item].parts]
            else:
                children.append(child)
        return replace(node, children=tuple(children))

    def _is_parted_like(self, leaf: Leaf, node: Stack, piece: Draft) -> bool:
        """Whether the leaf is a blank that is parted as the stack is, and as wide as the piece across."""
        item = self.grid.items[leaf.item]
        if not item.parts or item.parted_along_x(leaf.turned) is not node.along_x:
            return False
        along, across = (0, 1) if node.along_x else (1, 0)
        parts = [self.grid.items[part].size(leaf.turned)[along] for part in item.parts]
        fills = item.size(leaf.turned)[across] == (piece.length, piece.width)[across]
        return fills and not any(map(self._beyond_fence, parts))

    def _with_room(self, node: Stack, room: int) -> list[int]:
        """The sizes on which a stack's children are cut off, out of so much room: what is to spare goes first
        to those that hold rows in which hand cuts lie between parts."""
        axis = 0 if node.along_x else 1
        sizes = [node_extent(child, self.grid)[axis] for child in node.children]
        spare = room - sum(sizes) - (len(sizes) - 1) * self.grid.kerf
        spare -= lost_between(sizes, self.grid)
        for place, child in enumerate(node.children):
            if spare <= 0:
                break
            more = roomy_extent(child, self.grid)[axis] - sizes[place]
            if 0 < more <= spare:
                sizes[place] += more
                spare -= more
        return sizes

    def _free(self, leaf: Leaf, piece: Draft, zones: EdgeZones) -> None:
        """Free one part from a piece that may be larger on both sides."""
        item = self.grid.items[leaf.item]
        x, y = item.size(leaf.turned)
        along_x = item.parted_along_x(leaf.turned)
        if item.parts and (piece.width == y if along_x else piece.length == x):
            # Parted from the piece as it is: to cut the blank to its own size first is a setting more.
            parts = [Leaf(part, leaf.turned) for part in item.parts]
            sizes = [node_extent(part, self.grid)[0 if along_x else 1] for part in parts]
            low, high = zones.ends(along_x)
            for part, child in zip(parts, self._series(piece, along_x, low, sizes, high), strict=True):
                self._free(part, child, EdgeZones())
            return
        if (piece.length, piece.width) == (x, y):
            piece.role, piece.leaf = PieceRole.PART, leaf
            return
        over_x, over_y = piece.length - x, piece.width - y
        across_first = over_x * piece.width * over_x * piece.width + over_y * x * over_y * x
        along_first = over_y * piece.length * over_y * piece.length + over_x * y * over_x * y
        # Cut first the way that leaves the larger squares of area: one large leftover is worth more than two
        # small ones.
        if over_y == 0 or (over_x > 0 and across_first >= along_first):
            (kept,) = self._series(piece, True, zones.left, [x], zones.right)
            self._free(leaf, kept, zones.with_ends(True, 0, 0))
        else:
            (kept,) = self._series(piece, False, zones.near, [y], zones.far)
            self._free(leaf, kept, zones.with_ends(False, 0, 0))

    def _series(self, piece: Draft, along_x: bool, low: int, sizes: list[int], high: int) -> list[Draft]:
        """Cut pieces of these sizes off `piece`, one after another, and return them. The edges lose `low` and
        `high`."""
        total = piece.length if along_x else piece.width
        kerf = self.grid.kerf
        start = piece.x if along_x else piece.y
        saw = self.problem.table_saw
        sizes, back = self._far_last(sizes)
        spare = total - low - sum(sizes) - (len(sizes) - 1) * kerf - high
        by_hand = lost_between(sizes, self.grid) <= spare
        self._trim(piece, along_x, 0, low)
        at, kept = low, []
        for place, size in enumerate(sizes, 1):
            last = place == len(sizes)
            kept.append(self._child(piece, along_x, at, size, _part_role(piece)))
            tool = self._saw_for(size) if last or by_hand else saw
            if at + size < total:
                direction, edge = _cut_from(along_x)
                piece.cuts.append(DraftCut(tool, direction, start + at + size, size, edge, Purpose.SIZE))
            at += size + (kerf if tool is saw else self.grid.hand_kerf)
            if tool is not saw and not last:
                self._trim(piece, along_x, at, self.grid.clean_up)
                at += self.grid.clean_up
        self._leftover(piece, along_x, at, total - at)
        return [kept[place] for place in back]

    def _trim(self, piece: Draft, along_x: bool, at: int, amount: int) -> None:
        """Take so much off what is left of `piece` from `at` on."""
        if not amount:
            return
        left = (piece.length if along_x else piece.width) - at - amount
        tool = self._saw_for(left)  # what is kept lies against the fence
        kerf = self.grid.kerf if tool is self.problem.table_saw else self.grid.hand_kerf
        direction, edge = _cut_from(along_x)
        line = (piece.x if along_x else piece.y) + at + amount - kerf
        piece.cuts.append(DraftCut(tool, direction, line, amount, edge, Purpose.TRIM))
        if amount > kerf:
            self._child(piece, along_x, at, amount - kerf, PieceRole.WASTE)

    def _saw_for(self, size: int) -> Saw:
        """The saw for a piece of this size with nothing but waste beyond the cut: the hand-held one, along
        its straightedge, where the fence does not reach."""
        hand = self.problem.hand_saw
        return hand if hand is not None and self._beyond_fence(size) else self.problem.table_saw

    def _beyond_fence(self, size: int) -> bool:
        return self.grid.reach is not None and size > self.grid.reach

    def _far_last(self, sizes: list[int]) -> tuple[list[int], list[int]]:
        """The sizes with those that the fence does not reach put last, so that few come to lie against
        an edge the hand saw leaves; and where each of them went."""
        if not any(map(self._beyond_fence, sizes)):
            return sizes, list(range(len(sizes)))
        order = sorted(range(len(sizes)), key=lambda place: self._beyond_fence(sizes[place]))
        return [sizes[place] for place in order], [order.index(place) for place in range(len(sizes))]

    def by_hand(self, node: HandNode, piece: Draft, zones: EdgeZones) -> None:
        """Cut `piece` with the hand-held saw into pieces that can be carried."""
        if isinstance(node, CarriedPiece):
            if piece.role is not PieceRole.SHEET:
                piece.role = PieceRole.CARRIED
            self.at_table(self.first_cut_kept(node.node), piece, zones)
            return
        saw = self.problem.hand_saw
        assert saw is not None, "a layout with hand cuts needs a hand saw"
        along_x = node.along_x
        axis = 0 if along_x else 1
        total, across = (piece.length, piece.width) if along_x else (piece.width, piece.length)
        direction, edge = _cut_from(along_x)
        start = piece.x if along_x else piece.y
        if len(node.children) == 1 and hand_extent(node.children[0], self.grid, zones)[axis] >= total:
            self.by_hand(node.children[0], piece, zones)  # it takes all there is: no cut
            return
        edge_across = 0 if along_x or piece.role is not PieceRole.SHEET else zones.left
        if edge_across and len(node.children) > 1 and self._beyond_fence(across - edge_across):
            # One cut across the sheet in place of one across each strip, which would come back for it.
            self._trim(piece, True, 0, edge_across)
            inner = self._child(piece, True, edge_across, across - edge_across, PieceRole.BLANK)
            self.by_hand(node, inner, zones.with_ends(True, 0, zones.right))
            return
        at, parted = 0, []
        sizes = self._with_room_by_hand(node, zones, total, across)
        for place, (child, zone) in enumerate(_hand_children(node, self.grid, zones)):
            size = sizes[place]
            if place == len(node.children) - 1 and not node.rest:
                size = total - at
            parted.append((child, self._child(piece, along_x, at, size, PieceRole.BLANK), zone))
            if at + size < total:
                piece.cuts.append(DraftCut(saw, direction, start + at + size, size, edge, Purpose.CARRY))
            at += size + self.grid.hand_kerf
        self._leftover(piece, along_x, at, total - at)
        for child, part, zone in parted:
            self.by_hand(child, part, zone)

    def _with_room_by_hand(self, node: HandStack, zones: EdgeZones, total: int, across: int) -> list[int]:
        """The sizes of the pieces that hand cuts part, in what is `total` long: as in `_with_room`, where the
        piece can still be carried."""
        axis = 0 if node.along_x else 1
        children = _hand_children(node, self.grid, zones)
        sizes = [hand_extent(child, self.grid, zone)[axis] for child, zone in children]
        spare = total - sum(sizes) - (len(sizes) - (0 if node.rest else 1)) * self.grid.hand_kerf
        for place, (child, _) in enumerate(children):
            if spare <= 0:
                break
            if not isinstance(child, CarriedPiece):
                continue
            more = roomy_extent(child.node, self.grid)[axis] - node_extent(child.node, self.grid)[axis]
            larger = sizes[place] + more
            light = self.grid.carriable(self.bin, larger, across)
            if 0 < more <= spare and (light or not self.grid.carriable(self.bin, sizes[place], across)):
                sizes[place] = larger
                spare -= more
        return sizes

    def _leftover(self, piece: Draft, along_x: bool, at: int, size: int) -> None:
        if size > 0:
            rest = self._child(piece, along_x, at, size, PieceRole.WASTE)
            if self.bin.kept(rest.length, rest.width):
                rest.role = PieceRole.OFFCUT

    def _child(self, piece: Draft, along_x: bool, at: int, size: int, role: PieceRole) -> Draft:
        if along_x:
            child = Draft(piece.x + at, piece.y, size, piece.width, role)
        else:
            child = Draft(piece.x, piece.y + at, piece.length, size, role)
        piece.children.append(child)
        return child


def _cut_from(along_x: bool) -> tuple[Direction, Edge]:
    """How a cut across this axis runs, and the edge it is measured from."""
    return (Direction.CROSSCUT, Edge.LEFT) if along_x else (Direction.RIP, Edge.NEAR)


def _edge_across(node: Stack, zones: EdgeZones) -> int:
    """What the low edge that runs across a stack's pieces must lose."""
    return zones.near if node.along_x else zones.left


def _part_role(parent: Draft) -> PieceRole:
    return PieceRole.STRIP if parent.role in (PieceRole.SHEET, PieceRole.CARRIED) else PieceRole.BLANK
