"""From the shop's problem to the engine's and back: kerf and trim folded into sizes, patterns read as
layouts.

Every part and every usable sheet is enlarged by one kerf in both directions. For guillotine cuts this is
exact: n parts and n - 1 kerfs fit a length exactly when n enlarged parts fit the enlarged length. The last
cut may run partly off the edge.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import lcm

from .. import engine
from ..engine.instance import LARGEST_SIDE
from ..engine.instance import PatternNode as EngineNode
from ..engine.ruin_recreate import RuinRecreate
from ..parameters import DEFAULT_PARAMETERS, WorkKind
from ..problem import FirstCut, PatternKind
from .integer_grid import IntegerGrid
from .layout_tree import Leaf, Node, SheetLayout, Stack, leaves, make_open_stack, make_stack, node_extent

HIGHEST_PRICE = 10**9
"""Prices are scaled to whole numbers no larger than this."""


@dataclass(frozen=True)
class Room:
    """A rectangle the engine may fill: so much of bin `bin`, in grid units between its trims."""

    bin: int
    length: int
    width: int
    count: int | None
    cost: Fraction


Copy = int | Node


@dataclass(frozen=True)
class EngineModel:
    """One engine instance for some items and rooms of a grid.

    The engine knows parts by their size alone: `copies[k]` lists, for its item k, what every copy
    is: a part as it lies, a block of parts, or the index of a part that the engine may turn.

    `exact` is false when the grid was too fine for the engine, so that parts were rounded up and
    rooms down: plans hold, but the engine's bound does not.
    """

    instance: engine.Instance
    exact: bool
    money: Fraction  # what one of the engine's units of price is worth
    copies: tuple[tuple[Copy, ...], ...]
    reading: _Reading

    def layouts(self, patterns: Sequence[engine.Pattern]) -> tuple[tuple[int, Node], ...]:
        """The room of each pattern with its layout."""
        left = [iter(copies) for copies in self.copies]
        nodes = [(pattern.bin, self.reading.node(pattern.root, left)) for pattern in patterns]
        return tuple((room, node) for room, node in nodes if node is not None)

    def missing(self, unplaced: Sequence[int], items: int) -> list[int]:
        """How many of each of the grid's items are left over: the last copies of each size."""
        result = [0] * items
        for copies, count in zip(self.copies, unplaced, strict=True):
            for copy in copies[len(copies) - count :]:
                for leaf in leaves(Leaf(copy) if isinstance(copy, int) else copy):
                    result[leaf.item] += 1
        return result

    def attempt(
        self,
        cost: Fraction,
        iterations: int,
        seed: int,
        stopped: Callable[[], bool],
        count: engine.Count = engine.uncounted,
        stretch_work: int = DEFAULT_PARAMETERS.stretch_work,
    ) -> tuple[tuple[tuple[int, Node], ...] | None, int]:
        """Layouts of all items for `cost` at most, and the iterations it took; None in their place if they
        were not found in so many, or before `stopped`. Proves nothing, and so costs only the search
        itself."""
        stretch = max(16, stretch_work // (self.instance.copies + 50))
        done = 0
        with RuinRecreate(self.instance, seed, self.reading.sizes is not None) as search:
            search.goal(int(cost / self.money))
            while True:
                found, used = search.run(min(stretch, iterations - done))
                done += used
                count(WorkKind.SEARCH, search.worked)
                if found:
                    return self.layouts(search.plan()), done
                if done >= iterations or stopped():
                    return None, done


@dataclass(frozen=True)
class _Reading:
    """Reads the engine's patterns as layouts.

    In restricted patterns `sizes` are the only ones on which pieces are cut off, along x and along y. A piece
    of another size is the last of its stack and keeps what is left. None: pieces of any size.
    """

    grid: IntegerGrid
    sizes: tuple[list[int], list[int]] | None

    def node(self, node: EngineNode, left: Sequence[Iterator[Copy]]) -> Node | None:
        """The tree as a layout; `left` gives the copies of each size not used yet."""
        if isinstance(node, engine.PlacedItem):
            copy = next(left[node.item])
            return Leaf(copy, node.turned) if isinstance(copy, int) else copy
        if isinstance(node, engine.Waste):
            return None
        parts = [(part, child) for part in node.parts if (child := self.node(part, left)) is not None]
        if not parts:
            return None
        along_x = node.axis is engine.RowAxis.X
        if self.sizes is not None:
            return self._restricted(along_x, parts, self.sizes[0 if along_x else 1])
        return make_stack(along_x, [child for _, child in parts])

    def _restricted(
        self, along_x: bool, parts: Sequence[tuple[EngineNode, Node]], sizes: Sequence[int]
    ) -> Node:
        children: list[Node] = []
        last = None
        for part, child in parts:
            whole = part.length if along_x else part.width
            if isinstance(child, Leaf) or (child.along_x == along_x and child.plain):
                children.append(child)  # cut off, or its own children are: each on its own size
            elif whole in sizes:
                children.append(self._cut_off(child, along_x, sizes))
            else:
                last = child
        return make_stack(along_x, children) if last is None else make_open_stack(along_x, children, last)

    def _cut_off(self, child: Stack, along_x: bool, sizes: Sequence[int]) -> Stack:
        """The child cut off on the smallest size that holds it. There is one: the engine's piece has such a
        size."""
        size = node_extent(child, self.grid)[0 if along_x else 1] + self.grid.kerf
        larger = sizes[bisect_left(sizes, size)]
        if larger == size:
            return child
        least = larger - self.grid.kerf
        return replace(child, least_x=least) if along_x else replace(child, least_y=least)


def _sizes_along(items: Sequence[engine.SmallItem]) -> tuple[list[int], list[int]]:
    """The items' sizes along x and along y, in ascending order."""
    ways = {(item.length, item.width) for item in items}
    ways |= {(item.width, item.length) for item in items if item.may_turn}
    return sorted({x for x, _ in ways}), sorted({y for _, y in ways})


def whole_sheet_rooms(grid: IntegerGrid) -> tuple[Room, ...]:
    return tuple(Room(index, *bin_.usable, bin_.count, bin_.cost) for index, bin_ in enumerate(grid.bins))


def engine_model(
    grid: IntegerGrid,
    wanted: Sequence[int],
    rooms: Sequence[Room],
    pattern: PatternKind,
    orientations: Sequence[bool | None] | None = None,
    blocks: Sequence[Node] = (),
    restricted: bool = False,
) -> EngineModel:
    """The engine's instance: `wanted[i]` copies of each item out of these rooms.

    `orientations[i]` fixes how item i lies (turned or not), None leaves it to the engine. `blocks` are
    placed beside them, each as it is.
    """
    orientations = tuple(orientations) if orientations is not None else (None,) * len(grid.items)
    kerf = grid.kerf
    sides = [side for item in grid.items for side in (item.length, item.width)]
    sides += [side for block in blocks for side in node_extent(block, grid)]
    longest = max(sides + [side for room in rooms for side in (room.length, room.width)]) + kerf
    coarse = -(-longest // LARGEST_SIDE)

    def up(length: int) -> int:
        return -(-(length + kerf) // coarse)

    def down(length: int) -> int:
        return (length + kerf) // coarse

    sizes: dict[tuple[int, int, bool], list[Copy]] = {}
    for index, (item, count, turned) in enumerate(zip(grid.items, wanted, orientations, strict=True)):
        x, y = item.size(turned is True)
        free = item.may_turn and turned is None
        if count:
            copy: Copy = index if free else Leaf(index, turned is True)
            sizes.setdefault((up(x), up(y), free), []).extend([copy] * count)
    for block in blocks:
        x, y = node_extent(block, grid)
        sizes.setdefault((up(x), up(y), False), []).append(block)
    items = tuple(engine.SmallItem(x, y, len(copies), free) for (x, y, free), copies in sizes.items())
    unit, whole = _money([room.cost for room in rooms])
    most = sum(wanted)  # more sheets than parts are as good as so many: the engine counts no further

    def at_hand(count: int | None) -> int | None:
        return None if count is None else min(count, most)

    bins = tuple(
        engine.LargeObject(
            max(1, down(room.length)), max(1, down(room.width)), at_hand(room.count), int(room.cost / unit)
        )
        for room in rooms
    )
    first_cut = {
        FirstCut.ANY: engine.FirstStage.ANY,
        FirstCut.ALONG: engine.FirstStage.ALONG,
        FirstCut.ACROSS: engine.FirstStage.ACROSS,
    }[pattern.first_cut]
    instance = engine.Instance(items, bins, pattern.stages, first_cut)
    reading = _Reading(grid, _sizes_along(items) if restricted and coarse == 1 else None)
    return EngineModel(instance, coarse == 1 and whole, unit, tuple(map(tuple, sizes.values())), reading)


def _money(costs: list[Fraction]) -> tuple[Fraction, bool]:
    """The unit in which all costs are whole and not too large, and whether there is one."""
    highest = max(costs)
    if highest == 0:
        return Fraction(1), True
    unit = Fraction(1, lcm(*(cost.denominator for cost in costs)))
    if highest / unit <= HIGHEST_PRICE:
        return unit, True
    return highest / HIGHEST_PRICE, False


def sheet_layouts(rooms: Sequence[Room], layouts: Iterable[tuple[int, Node]]) -> list[SheetLayout]:
    return [SheetLayout(rooms[room].bin, node) for room, node in layouts]
