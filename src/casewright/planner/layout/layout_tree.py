"""Layouts without positions: a part, or a stack of nodes separated by saw cuts.

A layout says only what is cut from what, so a search can rearrange it freely. `cut_draft` then gives every
piece its place: everything is pushed towards the left near corner, and waste collects at the far ends, where
it is in one piece. All lengths are whole grid units.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from .integer_grid import IntegerGrid


@dataclass(frozen=True, slots=True)
class Leaf:
    """One part: an index into the grid's items, and whether it is turned."""

    item: int
    turned: bool = False


@dataclass(frozen=True, slots=True)
class Stack:
    """Nodes side by side along x (separated by crosscuts) or along y (separated by rips).

    It occupies at least `least_x` by `least_y`, so that it can be cut on a setting that some part needs
    anyway. If it is `open`, its last node is not cut off but keeps all that is left: it needs no setting, and
    what is cut from it has more waste beside it instead.
    """

    along_x: bool
    children: tuple[Node, ...]
    least_x: int = 0
    least_y: int = 0
    open: bool = False

    @property
    def plain(self) -> bool:
        """Whether its nodes may as well stand directly in a parent stack along the same axis."""
        return not (self.least_x or self.least_y or self.open)


@dataclass(frozen=True, slots=True)
class CarriedPiece:
    """A piece that is carried to the table saw, with what is cut from it there."""

    node: Node


@dataclass(frozen=True, slots=True)
class HandStack:
    """Pieces separated with the hand-held saw. With `rest` one more cut frees what is left beyond the last
    piece; otherwise the last piece keeps it."""

    along_x: bool
    children: tuple[HandStack | CarriedPiece, ...]
    rest: bool = False


Node = Leaf | Stack
HandNode = HandStack | CarriedPiece


@dataclass(frozen=True, slots=True)
class SheetLayout:
    """What is cut from one bin (an index into the grid's bins)."""

    bin: int
    root: Node | HandStack | CarriedPiece


def node_extent(node: Node, grid: IntegerGrid) -> tuple[int, int]:
    """The size of a node along x and y, kerfs inside it included."""
    if isinstance(node, Leaf):
        return grid.items[node.item].size(node.turned)
    x, y, kerf = node.least_x, node.least_y, grid.kerf
    run = -kerf
    if node.along_x:
        for child in node.children:
            long, wide = node_extent(child, grid)
            run += long + kerf
            y = max(y, wide)
        return max(x, run), y
    for child in node.children:
        long, wide = node_extent(child, grid)
        run += wide + kerf
        x = max(x, long)
    return x, max(y, run)


def layout_extent(layout: SheetLayout, grid: IntegerGrid) -> tuple[int, int]:
    """The room that the parts of a sheet take, trims and hand cuts not counted."""
    if not isinstance(layout.root, HandStack | CarriedPiece):
        return node_extent(layout.root, grid)
    return _hand_extent(layout.root, grid)


def _hand_extent(node: HandNode, grid: IntegerGrid) -> tuple[int, int]:
    if isinstance(node, CarriedPiece):
        return node_extent(node.node, grid)
    sizes = [_hand_extent(child, grid) for child in node.children]
    kerfs = (len(sizes) - 1) * grid.kerf
    if node.along_x:
        return sum(size[0] for size in sizes) + kerfs, max(size[1] for size in sizes)
    return max(size[0] for size in sizes), sum(size[1] for size in sizes) + kerfs


def leaves(node: Node | HandNode) -> Iterator[Leaf]:
    if isinstance(node, Leaf):
        yield node
    elif isinstance(node, CarriedPiece):
        yield from leaves(node.node)
    else:
        for child in node.children:
            yield from leaves(child)


def make_stack(along_x: bool, children: list[Node]) -> Node:
    """The children as one stack, with no stack of a single child and none nested along the same axis."""
    flat = _flat(along_x, children)
    return flat[0] if len(flat) == 1 else Stack(along_x, flat)


def make_open_stack(along_x: bool, children: list[Node], last: Node) -> Node:
    """The same with `last` not cut off."""
    return Stack(along_x, (*_flat(along_x, children), last), open=True) if children else last


def _flat(along_x: bool, children: list[Node]) -> tuple[Node, ...]:
    flat: list[Node] = []
    for child in children:
        if isinstance(child, Stack) and child.along_x == along_x and child.plain:
            flat.extend(child.children)
        else:
            flat.append(child)
    return tuple(flat)


def count_stages(node: Node, came_off: bool | None = None) -> int:
    """How many stages of cuts the node needs: every quarter turn begins one, and a last cut that only frees a
    part from waste is not counted. `came_off` says along which axis (x or not) it was cut from its
    neighbours; None for a whole piece."""
    if isinstance(node, Leaf):
        return 1 if came_off is None else 0
    frees_one = came_off is not None and len(node.children) == 1 and isinstance(node.children[0], Leaf)
    own = 0 if frees_one or node.along_x is came_off else 1
    return own + max(count_stages(child, node.along_x) for child in node.children)
