"""Moves of a local search on one sheet: other ways to cut the same parts from it.

Three moves. Group: cut the narrow pieces of a row off together, so that one large leftover lies beside them.
Open: let the last piece of a series keep what is left, so that its width needs no setting. Snap: cut a piece
off a little too wide, on a setting that some part needs anyway. Which results are better is for the goals to
say.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace

from ..layout.integer_grid import IntegerGrid
from ..layout.layout_tree import CarriedPiece, HandStack, Leaf, Node, SheetLayout, Stack, node_extent
from ..layout.orientation import GridSetting
from ..parameters import DEFAULT_PARAMETERS

Root = Node | HandStack | CarriedPiece


def neighbour_layouts(
    layout: SheetLayout,
    grid: IntegerGrid,
    free: bool,
    needed: Collection[GridSetting],
    depth: int = DEFAULT_PARAMETERS.reshape_depth,
) -> Iterator[SheetLayout]:
    """Layouts that differ from this one in one thing: its neighbourhood, as local search calls it.

    `free` allows more stages than it has. `needed` are the settings that parts need anyway; a group of parts
    may be cut off on one of them if it is a little larger. Stacks below `depth` stay as they are. The layouts
    may not fit the sheet.
    """
    for root in _Neighbourhood(grid, free, needed, depth).of(layout.root):
        yield replace(layout, root=root)


@dataclass(frozen=True)
class _Neighbourhood:
    """The moves and what they may do (see `neighbour_layouts`)."""

    grid: IntegerGrid
    free: bool
    needed: Collection[GridSetting]
    depth: int

    def of(self, root: Root) -> Iterator[Root]:
        if isinstance(root, CarriedPiece):
            for node in self._whole(root.node):
                yield CarriedPiece(node)
        elif isinstance(root, HandStack):
            for place, child in enumerate(root.children):
                for other in self.of(child):
                    assert isinstance(other, CarriedPiece | HandStack)
                    yield replace(root, children=(*root.children[:place], other, *root.children[place + 1 :]))
        else:
            yield from self._whole(root)

    def _whole(self, node: Node) -> Iterator[Node]:
        """The content of a whole piece: it may also be freed first on one side, then on the other."""
        if self.free:
            if isinstance(node, Stack) and len(node.children) == 1 and isinstance(node.children[0], Stack):
                yield node.children[0]
            else:
                for along_x in (True, False):
                    if not (isinstance(node, Stack) and node.along_x == along_x):
                        yield Stack(along_x, (node,))
        yield from self._inside(node, self.depth)

    def _inside(self, node: Node, depth: int) -> Iterator[Node]:
        if isinstance(node, Leaf) or depth == 0:
            return
        if self.free:
            yield from _grouped(node, self.grid)
        yield from _opened(node, self.grid, self.needed)
        for place, child in enumerate(node.children):
            others = (*_snapped(node, child, self.grid, self.needed), *self._inside(child, depth - 1))
            for other in others:
                yield replace(node, children=(*node.children[:place], other, *node.children[place + 1 :]))


def _grouped(node: Stack, grid: IntegerGrid) -> Iterator[Node]:
    """The stack with its narrower children grouped: they come off together, one cut brings them to their
    width and only then are they parted. That leaves one large leftover beside them in place of one beside
    each. Also the reverse, a group dissolved."""
    across = 1 if node.along_x else 0
    children = sorted(node.children, key=lambda child: -node_extent(child, grid)[across])
    sizes = [node_extent(child, grid)[across] for child in children]
    for place in range(1, len(children)):
        if sizes[place] < sizes[place - 1]:
            narrow = children[place:]
            if len(narrow) == 1:
                continue
            group = Stack(not node.along_x, (Stack(node.along_x, tuple(narrow)),))
            yield replace(node, children=(*children[:place], group))
    for place, child in enumerate(node.children):
        if isinstance(child, Stack) and len(child.children) == 1:
            (inner,) = child.children
            if isinstance(inner, Stack) and inner.along_x == node.along_x and child.plain:
                yield replace(
                    node, children=(*node.children[:place], *inner.children, *node.children[place + 1 :])
                )


def _opened(node: Stack, grid: IntegerGrid, needed: Collection[GridSetting]) -> Iterator[Stack]:
    """The stack with each of its inner stacks in turn left uncut at the end, if no part needs its setting;
    and the stack with all of them cut off."""
    if node.open:
        yield replace(node, open=False)
    for place, child in enumerate(node.children):
        last = place == len(node.children) - 1
        if isinstance(child, Stack) and not (node.open and last):
            size = node_extent(child, grid)[0 if node.along_x else 1]
            if (node.along_x, size) not in needed:
                others = (*node.children[:place], *node.children[place + 1 :])
                yield replace(node, children=(*others, child), open=True)


def with_open_stacks(root: Root, grid: IntegerGrid, needed: Collection[GridSetting]) -> Root:
    """Every stack opened for its largest inner stack whose setting no part needs."""
    if isinstance(root, CarriedPiece):
        return CarriedPiece(_opened_within(root.node, grid, needed))
    if isinstance(root, HandStack):
        pieces = (with_open_stacks(child, grid, needed) for child in root.children)
        parts = tuple(piece for piece in pieces if isinstance(piece, HandStack | CarriedPiece))
        return replace(root, children=parts)
    return _opened_within(root, grid, needed)


def _opened_within(node: Node, grid: IntegerGrid, needed: Collection[GridSetting]) -> Node:
    if isinstance(node, Leaf):
        return node
    node = replace(node, children=tuple(_opened_within(child, grid, needed) for child in node.children))
    axis = 0 if node.along_x else 1
    ways = _opened(replace(node, open=False), grid, needed)
    return max(ways, key=lambda other: node_extent(other.children[-1], grid)[axis], default=node)


def _snapped(node: Stack, child: Node, grid: IntegerGrid, needed: Collection[GridSetting]) -> Iterator[Node]:
    """The child cut off on the next larger setting that some part needs anyway, or on its own size again."""
    if isinstance(child, Leaf):
        return
    size = node_extent(child, grid)[0 if node.along_x else 1]
    larger = min((s for crosscut, s in needed if crosscut == node.along_x and s > size), default=None)
    if larger is not None and (node.along_x, size) not in needed:
        yield replace(child, least_x=larger) if node.along_x else replace(child, least_y=larger)
    if child.least_x or child.least_y:
        yield replace(child, least_x=0, least_y=0)
