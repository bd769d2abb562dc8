"""An independent judge of engine plans: geometry only, nothing shared with the solver.

It does not trust the tree: besides the tree's own consistency it looks for the guillotine cuts in the
bare rectangles.
"""

from __future__ import annotations

from casewright.planner.engine import (
    FirstStage,
    Instance,
    Pattern,
    PlacedItem,
    RowAxis,
    Solution,
    Strip,
    Waste,
)

Rectangle = tuple[int, int, int, int]
"""left, bottom, right, top"""


def check(instance: Instance, solution: Solution) -> None:
    """Raises AssertionError with what is wrong."""
    placed = [0] * len(instance.items)
    used = [0] * len(instance.bins)
    for pattern in solution.patterns:
        used[pattern.bin] += 1
        box = instance.bins[pattern.bin]
        root = pattern.root
        assert (root.x, root.y, root.length, root.width) == (0, 0, box.length, box.width)
        pieces = list(_leaves(root))
        for piece in pieces:
            item = instance.items[piece.item]
            size = (item.width, item.length) if piece.turned else (item.length, item.width)
            assert size == (piece.length, piece.width), f"{piece} is not item {item}"
            assert item.may_turn or not piece.turned, f"{piece} is turned against the grain"
            placed[piece.item] += 1
        rectangles = [(p.x, p.y, p.x + p.length, p.y + p.width) for p in pieces]
        for left, bottom, right, top in rectangles:
            assert left >= 0 and bottom >= 0 and right <= box.length and top <= box.width
        assert not overlap(rectangles)
        assert separable(rectangles), "no guillotine cuts take these pieces apart"
        _check_stages(instance, pattern)
    for item, count, missing in zip(instance.items, placed, solution.unplaced, strict=True):
        assert count + missing == item.count and missing >= 0
    for number, box in zip(used, instance.bins, strict=True):
        assert box.count is None or number <= box.count
    assert solution.cost == sum(instance.bins[p.bin].price for p in solution.patterns)
    assert solution.bins == len(solution.patterns)
    if solution.complete:
        assert solution.bound.cost <= solution.cost
        assert solution.bound.bins <= solution.bins


def _leaves(node: Strip | PlacedItem | Waste) -> list[PlacedItem]:
    if isinstance(node, PlacedItem):
        return [node]
    if isinstance(node, Waste):
        assert node.length > 0 and node.width > 0
        return []
    at = node.x if node.axis is RowAxis.X else node.y
    found = []
    for part in node.parts:
        if node.axis is RowAxis.X:
            assert part.x == at and (part.y, part.width) == (node.y, node.width)
            at += part.length
        else:
            assert part.y == at and (part.x, part.length) == (node.x, node.length)
            at += part.width
        found += _leaves(part)
    assert at == (node.x + node.length if node.axis is RowAxis.X else node.y + node.width)
    return found


def overlap(rectangles: list[Rectangle]) -> bool:
    return any(
        a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]
        for i, a in enumerate(rectangles)
        for b in rectangles[:i]
    )


def separable(rectangles: list[Rectangle]) -> bool:
    """Whether edge-to-edge cuts take the rectangles apart one from another."""
    if len(rectangles) <= 1:
        return True
    for low, high in ((0, 2), (1, 3)):
        for cut in sorted({r[high] for r in rectangles})[:-1]:
            if all(r[high] <= cut or r[low] >= cut for r in rectangles):
                before = [r for r in rectangles if r[high] <= cut]
                after = [r for r in rectangles if r[low] >= cut]
                return separable(before) and separable(after)
    return False


def stages_of(node: Strip | PlacedItem | Waste, axis: RowAxis | None = None) -> int:
    """Stages of cuts below the node, a last trimming of one piece not counted; cuts along the axis of
    the strip above belong to its stage."""
    if not isinstance(node, Strip) or len(node.parts) == 1:
        return stages_of(node.parts[0], axis) if isinstance(node, Strip) else 0
    pieces = sum(isinstance(part, PlacedItem) for part in node.parts)
    if pieces == 1 and len(node.parts) == 2 and isinstance(node.parts[1], Waste) and axis is not None:
        return 0
    below = max(stages_of(part, node.axis) for part in node.parts)
    return below + (node.axis is not axis)


def _check_stages(instance: Instance, pattern: Pattern) -> None:
    if instance.stages is not None:
        assert stages_of(pattern.root) <= instance.stages
    if instance.first_cut is not FirstStage.ANY and len(_leaves(pattern.root)) > 0:
        wanted = RowAxis.Y if instance.first_cut is FirstStage.ALONG else RowAxis.X
        assert pattern.root.axis is wanted
