"""Room for one more part on a sheet that is planned already: nothing else on it moves to another place."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from .cut_draft import layout_fits
from .integer_grid import IntegerGrid
from .layout_tree import CarriedPiece, HandNode, HandStack, Leaf, Node, SheetLayout, Stack


def with_part(grid: IntegerGrid, layout: SheetLayout, leaf: Leaf) -> Iterator[SheetLayout]:
    """Every layout that fits its sheet and holds `leaf` as well: beside the last piece of some series of
    cuts, or next to some part across the way that part is cut off."""
    for root in _on_root(layout.root, leaf):
        other = replace(layout, root=root)
        if layout_fits(grid, other):
            yield other


def _on_root(root: Node | HandNode, leaf: Leaf) -> Iterator[Node | HandNode]:
    if not isinstance(root, HandStack | CarriedPiece):
        yield from _in_node(root, leaf, None)
        return
    yield from _by_hand(root, leaf)


def _by_hand(node: HandNode, leaf: Leaf) -> Iterator[HandNode]:
    if isinstance(node, CarriedPiece):
        yield from (CarriedPiece(inner) for inner in _in_node(node.node, leaf, None))
        return
    if node.rest:  # what the last hand cut frees is a piece like the others
        yield replace(node, children=(*node.children, CarriedPiece(leaf)))
        yield replace(node, children=(*node.children, CarriedPiece(leaf)), rest=False)
    for place, child in enumerate(node.children):
        for other in _by_hand(child, leaf):
            yield replace(node, children=(*node.children[:place], other, *node.children[place + 1 :]))


def _in_node(node: Node, leaf: Leaf, came_off: bool | None) -> Iterator[Node]:
    """`came_off` is the axis along which the node was cut from its neighbours; None for a whole piece."""
    if isinstance(node, Leaf):
        for along_x in (True, False):
            if along_x is not came_off:
                yield Stack(along_x, (node, leaf))
        return
    if node.open:  # the last piece keeps what is left, so a new one comes off before it
        yield replace(node, children=(*node.children[:-1], leaf, node.children[-1]))
    else:
        yield replace(node, children=(*node.children, leaf))
    if came_off is None:
        yield Stack(not node.along_x, (node, leaf))
    for place, child in enumerate(node.children):
        for other in _in_node(child, leaf, node.along_x):
            yield replace(node, children=(*node.children[:place], other, *node.children[place + 1 :]))
