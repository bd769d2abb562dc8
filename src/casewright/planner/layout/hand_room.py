"""The room that cuts by hand take within a row, beyond the table saw's kerf.

What the fence does not reach is cut by the hand-held saw. In a row such pieces come last; each but the very
last leaves its edge to the next one, which loses the hand saw's own kerf and the clean-up of that edge.
"""

from __future__ import annotations

from collections.abc import Sequence

from .integer_grid import IntegerGrid
from .layout_tree import Leaf, Node, node_extent


def lost_by_hand(grid: IntegerGrid) -> int:
    """What one hand cut between two pieces of a row takes beyond a kerf of the table saw."""
    return max(0, grid.hand_kerf - grid.kerf + grid.clean_up)


def lost_between(sizes: Sequence[int], grid: IntegerGrid) -> int:
    """What the hand cuts within a row of pieces of these sizes take."""
    if grid.reach is None:
        return 0
    far = sum(size > grid.reach for size in sizes)
    return max(0, far - 1) * lost_by_hand(grid)


def roomy_extent(node: Node, grid: IntegerGrid) -> tuple[int, int]:
    """The size of a node along x and y with room for the hand cuts within its rows."""
    if isinstance(node, Leaf) or grid.reach is None or not lost_by_hand(grid):
        return node_extent(node, grid)
    sizes = [roomy_extent(child, grid) for child in node.children]
    axis = 0 if node.along_x else 1
    along = [size[axis] for size in sizes]
    whole = sum(along) + (len(along) - 1) * grid.kerf + lost_between(along, grid)
    across = max(size[1 - axis] for size in sizes)
    x, y = (whole, across) if node.along_x else (across, whole)
    return max(x, node.least_x), max(y, node.least_y)
