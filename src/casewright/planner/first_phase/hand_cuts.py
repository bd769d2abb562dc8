"""The first cuts, made with the hand-held saw so that every piece can be carried to the table saw.

A layout for a whole sheet is parted along its own outermost cuts, and neighbours stay together as long as one
person can carry them. A hand cut takes more than a table saw's: its own kerf, and the clean-up of the two
rough edges it leaves. So the engine is given sheets that are shorter by that much (`shorten_room`), and the
layout still fits once the hand cuts are put in.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from ..layout.cut_draft import hand_zones, layout_fits
from ..layout.engine_bridge import Room
from ..layout.integer_grid import EdgeZones, GridBin, IntegerGrid
from ..layout.layout_tree import (
    CarriedPiece,
    HandNode,
    HandStack,
    Leaf,
    Node,
    SheetLayout,
    Stack,
    node_extent,
)


def shorten_room(grid: IntegerGrid, room: Room, along_x: bool, cuts: int) -> Room:
    """The room less what so many hand cuts across it (along it, if not `along_x`) take beyond a table saw's
    kerf."""
    lost = cuts * max(0, grid.hand_kerf + 2 * grid.clean_up - grid.kerf)
    if along_x:
        return replace(room, length=max(1, room.length - lost))
    return replace(room, width=max(1, room.width - lost))


def fewest_hand_cuts(grid: IntegerGrid, bin_: GridBin, along_x: bool) -> int:
    """The fewest hand cuts one way that bring a whole sheet under the limits; 0 where no number of them
    does."""
    total, across = (bin_.length, bin_.width) if along_x else (bin_.width, bin_.length)
    most = _longest(grid, bin_, total, across)
    return max(0, -(-total // most) - 1) if most > 0 else 0


def _longest(grid: IntegerGrid, bin_: GridBin, total: int, across: int) -> int:
    """How long a piece as wide as `across` may be; no limit where the width alone is too much."""
    most = total
    if grid.max_length is not None and across <= grid.max_length:
        most = min(most, grid.max_length)
    if bin_.max_area is not None:
        most = min(most, bin_.max_area // across)
    return most


def add_hand_cuts(grid: IntegerGrid, layout: SheetLayout) -> SheetLayout | None:
    """The layout with its outermost cuts made by hand as far as needed; None if there is no room for them.

    A piece with a part that is over the limits by itself stays over them: the plan then says so.
    """
    bin_ = grid.bins[layout.bin]
    assert isinstance(layout.root, Leaf | Stack), "the layout is parted by hand already"
    parting = _Parting(grid, bin_)
    root = parting.part(layout.root, bin_.length, bin_.width, bin_.zones)
    result = replace(layout, root=root)
    return result if layout_fits(grid, result) else None


def _together(node: Stack, group: list[Node]) -> Node:
    """Some of a stack's children as one node. Of an open stack the last child must stay last: it keeps what
    is left."""
    if len(group) == 1:
        return group[0]
    last = node.children[-1]
    if not node.open or all(child is not last for child in group):
        return Stack(node.along_x, tuple(group))
    others = list(group)
    others.remove(last)  # or one just like it
    return Stack(node.along_x, (*others, last), open=True)


@dataclass(frozen=True)
class _Parting:
    grid: IntegerGrid
    bin: GridBin

    def part(self, node: Node, length: int, width: int, zones: EdgeZones) -> HandNode:
        """The hand cuts for a piece of this size that `node` fills, edges that must still be trimmed
        included."""
        if self.grid.carriable(self.bin, length, width) or min(length, width) <= 0:
            return CarriedPiece(node)  # no room left at all: the caller will find that it does not fit
        if isinstance(node, Leaf):
            x, y = node_extent(node, self.grid)
            if (length, width) == (x, y):
                return CarriedPiece(node)
            node = Stack(length - x >= width - y, (node,))
        along_x = node.along_x
        total, across = (length, width) if along_x else (width, length)
        if self.grid.max_length is not None and across > self.grid.max_length:
            most = 0  # however short, a piece this wide is too long the other way: part every child
        else:
            most = _longest(self.grid, self.bin, total, across)
        ends = (zones.left, zones.right) if along_x else (zones.near, zones.far)
        groups = self._groups(list(node.children), along_x, most, ends)
        sizes = self._sizes(groups, along_x, zones, rest=True)
        before = sum(sizes[:-1]) + (len(groups) - 1) * self.grid.hand_kerf

        def piece(size: int) -> tuple[int, int]:
            return (size, width) if along_x else (length, size)

        # What is left at the far end usually goes with the last piece. If that makes the piece too heavy
        # while it could be carried by itself, one more hand cut frees it.
        rest = not self.grid.carriable(self.bin, *piece(total - before))
        rest = rest and self.grid.carriable(self.bin, *piece(sizes[-1])) and before + sizes[-1] < total
        if not rest:
            sizes[-1] = total - before
        parts: list[HandNode] = []
        for place, (group, size) in enumerate(zip(groups, sizes, strict=True)):
            last = place == len(groups) - 1 and not rest
            zone = hand_zones(zones, self.grid.clean_up, along_x, place == 0, last)
            inner = _together(node, group)
            smaller = piece(size) != (length, width)
            over = len(group) == 1 and smaller and not self.grid.carriable(self.bin, *piece(size))
            parts.append(self.part(inner, *piece(size), zone) if over else CarriedPiece(inner))
        return parts[0] if len(parts) == 1 and not rest else HandStack(along_x, tuple(parts), rest)

    def _sizes(self, groups: list[list[Node]], along_x: bool, zones: EdgeZones, rest: bool) -> list[int]:
        """How large a piece each group needs, with the edges that will be cut off again."""
        sizes = []
        for place, group in enumerate(groups):
            last = place == len(groups) - 1 and not rest
            zone = hand_zones(zones, self.grid.clean_up, along_x, place == 0, last)
            ends = zone.left + zone.right if along_x else zone.near + zone.far
            sizes.append(self._size(group, along_x) + ends)
        return sizes

    def _size(self, group: list[Node], along_x: bool) -> int:
        axis = 0 if along_x else 1
        return sum(node_extent(node, self.grid)[axis] for node in group) + (len(group) - 1) * self.grid.kerf

    def _groups(
        self, children: list[Node], along_x: bool, most: int, ends: tuple[int, int]
    ) -> list[list[Node]]:
        """Children in few groups, none longer than `most`: first fit by decreasing size, as in bin packing.

        Their order along the sheet is free, so groups need not be neighbours. `margin` is the most that rough
        edges can take from a group.
        """
        by_size = sorted(children, key=lambda child: -self._size([child], along_x))
        margin = max(*ends, self.grid.clean_up) + self.grid.clean_up
        groups: list[list[Node]] = []
        for child in by_size:
            for group in groups:
                if self._size([*group, child], along_x) + margin <= most:
                    group.append(child)
                    break
            else:
                groups.append([child])
        return groups
