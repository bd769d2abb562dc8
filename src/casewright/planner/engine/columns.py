"""Columns of the master problem: how often each kind of item is cut from one bin.

Items of one size and freedom to turn are one kind, so that the LP does not tell equal parts apart. A column
keeps the tree it was assembled as, from which a pattern is drawn only if a plan uses it: of thousands of
columns few are.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from .instance import FirstStage, Instance, Pattern, PatternNode, PlacedItem, RowAxis, SmallItem, Strip, Waste

Counts = NDArray[np.int64]
Tree = tuple[int, ...]
"""Preorder, three integers to a node: a join (-1 - axis, length, width) or an item (kind, turned, 0)."""


FIRST_AXIS = {FirstStage.ALONG: RowAxis.Y, FirstStage.ACROSS: RowAxis.X}


@dataclass(frozen=True, slots=True)
class ItemKinds:
    """The kinds of items of an instance: items of one size and freedom to turn, with their demand."""

    item: tuple[SmallItem, ...]
    members: tuple[tuple[int, ...], ...]
    kind_of: tuple[int, ...]

    @property
    def demand(self) -> Counts:
        return np.array([item.count for item in self.item], dtype=np.int64)


def item_kinds(instance: Instance) -> ItemKinds:
    members: dict[tuple[int, int, bool], list[int]] = {}
    for number, item in enumerate(instance.items):
        length, width = item.length, item.width
        if item.may_turn:
            length, width = max(length, width), min(length, width)
        if item.count:
            members.setdefault((length, width, item.may_turn and length != width), []).append(number)
    kind_of = [-1] * len(instance.items)
    for kind, numbers in enumerate(members.values()):
        for number in numbers:
            kind_of[number] = kind
    return ItemKinds(
        tuple(
            SmallItem(length, width, sum(instance.items[n].count for n in numbers), may_turn)
            for (length, width, may_turn), numbers in members.items()
        ),
        tuple(tuple(numbers) for numbers in members.values()),
        tuple(kind_of),
    )


@dataclass(frozen=True, slots=True, eq=False)
class Column:
    """One way to cut one bin. `tree` or `pattern` says how; neither does while the column is only counted."""

    bin: int
    counts: Counts
    tree: Tree = ()
    pattern: Pattern | None = None

    @property
    def key(self) -> tuple[int, bytes]:
        return self.bin, self.counts.tobytes()


def column_of_pattern(kinds: ItemKinds, pattern: Pattern) -> Column:
    counts = np.zeros(len(kinds.item), dtype=np.int64)
    for piece in pattern.pieces():
        counts[kinds.kind_of[piece.item]] += 1
    return Column(pattern.bin, counts, pattern=pattern)


def columns_of_trees(bin_number: int, kinds: int, code: NDArray[np.int32]) -> list[Column]:
    """The kernel's output, one tree after another, as columns."""
    first = code[::3]
    nodes_open = np.cumsum(np.where(first < 0, 1, -1))
    trees_done = -np.minimum.accumulate(np.minimum(nodes_open, 0))  # each leaves one fewer open
    ends = np.nonzero(np.diff(trees_done, prepend=0))[0] + 1
    columns = []
    for start, end in itertools.pairwise([0, *ends.tolist()]):
        items = first[start:end]
        counts = np.bincount(items[items >= 0], minlength=kinds)
        columns.append(Column(bin_number, counts, tuple(code[3 * start : 3 * end].tolist())))
    return columns


def patterns_of_columns(instance: Instance, kinds: ItemKinds, columns: list[Column]) -> tuple[Pattern, ...]:
    """The columns as patterns of the instance's own items; copies beyond the demand become waste."""
    left = [item.count for item in instance.items]

    def take(kind: int) -> int | None:
        for number in kinds.members[kind]:
            if left[number]:
                left[number] -= 1
                return number
        return None

    patterns = []
    for column in columns:
        box = instance.bins[column.bin]
        if column.pattern is None:
            whole = (0, 0, box.length, box.width)
            node = _place(kinds, _parse(kinds, iter(column.tree)), whole)
        else:
            node = column.pattern.root
        root = _relabel(instance, kinds, node, take)
        wanted = FIRST_AXIS.get(instance.first_cut)
        if not isinstance(root, Strip) or (wanted is not None and root.axis is not wanted):
            # The first stage has no cut to make: it is there as a strip with a single part.
            root = Strip(0, 0, box.length, box.width, wanted or RowAxis.X, (root,))
        patterns.append(Pattern(column.bin, root))
    return tuple(patterns)


Box = tuple[int, int, int, int]


def cut_box(box: Box, axis: RowAxis, start: int, extent: int) -> Box:
    """The slice of a box that begins at `start` on the axis and is as long as `extent`."""
    x, y, length, width = box
    if axis is RowAxis.X:
        return (x + start, y, extent, width)
    return (x, y + start, length, extent)


def place_in_corner(piece: PlacedItem, box: Box) -> PatternNode:
    """The box cut so that the piece lies in its corner: no cut, or one or two that trim."""
    _, _, length, width = box
    if piece.width < width:
        low = place_in_corner(piece, cut_box(box, RowAxis.Y, 0, piece.width))
        rest = Waste(*cut_box(box, RowAxis.Y, piece.width, width - piece.width))
        return Strip(*box, RowAxis.Y, (low, rest))
    if piece.length < length:
        rest = Waste(*cut_box(box, RowAxis.X, piece.length, length - piece.length))
        return Strip(*box, RowAxis.X, (piece, rest))
    return piece


@dataclass(frozen=True, slots=True)
class _Assembled:
    length: int
    width: int
    kind: int
    axis: RowAxis
    two: tuple[_Assembled, ...]


def _parse(kinds: ItemKinds, tree: Iterator[int]) -> _Assembled:
    first, second = next(tree), next(tree)
    next(tree)
    if first >= 0:
        item = kinds.item[first]
        length, width = (item.width, item.length) if second else (item.length, item.width)
        return _Assembled(length, width, first, RowAxis.X, ())
    one, other = _parse(kinds, tree), _parse(kinds, tree)
    axis = RowAxis(-1 - first)
    if axis is RowAxis.X:
        return _Assembled(one.length + other.length, max(one.width, other.width), -1, axis, (one, other))
    return _Assembled(max(one.length, other.length), one.width + other.width, -1, axis, (one, other))


def _place(kinds: ItemKinds, built: _Assembled, box: Box) -> PatternNode:
    """The assembled rectangle drawn in a box; pieces bear the number of their kind's first item."""
    if not built.two:
        member = kinds.members[built.kind][0]
        return place_in_corner(PlacedItem(box[0], box[1], built.length, built.width, member, False), box)
    one, other = built.two
    along, size = (one.length, box[2]) if built.axis is RowAxis.X else (one.width, box[3])
    parts: list[PatternNode] = []
    for half, start, extent in ((one, 0, along), (other, along, size - along)):
        node = _place(kinds, half, cut_box(box, built.axis, start, extent))
        parts += node.parts if isinstance(node, Strip) and node.axis is built.axis else (node,)
    return Strip(*box, built.axis, tuple(parts))


def _relabel(
    instance: Instance, kinds: ItemKinds, node: PatternNode, take: Callable[[int], int | None]
) -> PatternNode:
    """The pattern with its pieces given to items still in demand. Surplus ones become waste, and neighbouring
    waste is merged."""
    if isinstance(node, Waste):
        return node
    if isinstance(node, PlacedItem):
        number = take(kinds.kind_of[node.item])
        if number is None:
            return Waste(node.x, node.y, node.length, node.width)
        turned = (node.length, node.width) != (instance.items[number].length, instance.items[number].width)
        return replace(node, item=number, turned=turned)
    parts: list[PatternNode] = []
    for part in node.parts:
        new = _relabel(instance, kinds, part, take)
        last = parts[-1] if parts else None
        if isinstance(new, Waste) and isinstance(last, Waste):
            if node.axis is RowAxis.X:
                new = Waste(last.x, last.y, last.length + new.length, last.width)
            else:
                new = Waste(last.x, last.y, last.length, last.width + new.width)
            parts.pop()
        parts.append(new)
    if len(parts) == 1 and isinstance(parts[0], Waste):
        return parts[0]
    return replace(node, parts=tuple(parts))
