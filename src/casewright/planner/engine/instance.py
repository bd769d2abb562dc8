"""What the engine is given and what it answers, in whole units.

Small items are cut from large objects, called bins for short as in bin packing. `length` runs along x,
`width` along y. The caller has folded kerf and trim into the sizes.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

LARGEST_SIDE = 10_000_000
"""Longer sides could overflow the sums of areas in the kernel."""


class FirstStage(Enum):
    """Which way the cuts of the first stage run."""

    ANY = 0
    ALONG = 1
    """Along the bin's length: the first cuts are rips."""
    ACROSS = 2
    """Across the bin's length: the first cuts are crosscuts."""


class RowAxis(Enum):
    """The axis along which the parts of a strip lie in a row."""

    X = 0
    Y = 1

    @property
    def other(self) -> RowAxis:
        return RowAxis.Y if self is RowAxis.X else RowAxis.X


@dataclass(frozen=True, slots=True)
class SmallItem:
    """`count` equal rectangles to cut; `may_turn` allows a quarter turn."""

    length: int
    width: int
    count: int = 1
    may_turn: bool = False

    @property
    def area(self) -> int:
        return self.length * self.width


@dataclass(frozen=True, slots=True)
class LargeObject:
    """`count` equal rectangles to cut from (None: as many as it takes), each at `price` in the smallest unit
    of money."""

    length: int
    width: int
    count: int | None = None
    price: int = 1

    @property
    def area(self) -> int:
        return self.length * self.width


@dataclass(frozen=True, slots=True)
class Instance:
    """One problem.

    `stages`: the most stages of guillotine cuts, in the literature's sense: the cuts of one stage all
    run one way, each stage turns by a quarter, and a last trimming cut that frees an item from the
    waste beside it does not count. None: any number.

    Raises ValueError for sides, counts or stages that are not positive, negative prices, and anything too
    large for the kernel's arithmetic.
    """

    items: tuple[SmallItem, ...]
    bins: tuple[LargeObject, ...]
    stages: int | None = None
    first_cut: FirstStage = FirstStage.ANY

    def __post_init__(self) -> None:
        boxes: tuple[SmallItem | LargeObject, ...] = (*self.items, *self.bins)
        for box in boxes:
            for name in ("length", "width"):
                side = getattr(box, name)
                if not 1 <= side <= LARGEST_SIDE:
                    raise ValueError(f"{name} {side} of {box} is not between 1 and {LARGEST_SIDE}")
            if box.count is not None and not 0 <= box.count <= 1_000_000:
                raise ValueError(f"count {box.count} of {box} is not between 0 and 1,000,000")
        for bin_ in self.bins:
            if not 0 <= bin_.price <= 10**12:
                raise ValueError(f"price {bin_.price} of {bin_} is not between 0 and 10^12")
        if self.stages is not None and self.stages < 1:
            raise ValueError(f"stages {self.stages} is less than 1")

    @property
    def copies(self) -> int:
        return sum(item.count for item in self.items)


@dataclass(frozen=True, slots=True)
class Waste:
    """A rectangle of a bin that no item occupies."""

    x: int
    y: int
    length: int
    width: int


@dataclass(frozen=True, slots=True)
class PlacedItem:
    """One copy of an item in its place; `length` is its size along x and `width` along y, turned or not."""

    x: int
    y: int
    length: int
    width: int
    item: int
    turned: bool


@dataclass(frozen=True, slots=True)
class Strip:
    """A rectangle cut across `axis` into parts that lie along it in a row, in order, without a gap."""

    x: int
    y: int
    length: int
    width: int
    axis: RowAxis
    parts: tuple[PatternNode, ...]


PatternNode = Strip | PlacedItem | Waste


@dataclass(frozen=True, slots=True)
class Pattern:
    """The cutting pattern of one used bin: `root` is the whole bin."""

    bin: int
    root: Strip

    def pieces(self) -> list[PlacedItem]:
        found: list[PlacedItem] = []
        open_nodes: list[PatternNode] = [self.root]
        while open_nodes:
            node = open_nodes.pop()
            if isinstance(node, PlacedItem):
                found.append(node)
            elif isinstance(node, Strip):
                open_nodes.extend(reversed(node.parts))
        return found


@dataclass(frozen=True, slots=True)
class Bound:
    """No plan of the kind asked for costs less than `cost` or uses fewer bins than `bins`; `by` names the
    proof."""

    cost: int
    bins: int
    by: str


@dataclass(frozen=True, slots=True)
class Solution:
    """A plan and what is proved about it.

    `unplaced` counts, item by item, the copies that found no place: they fit no bin (those items are in
    `misfits`), or the search could not fit them into the stock.
    """

    patterns: tuple[Pattern, ...]
    cost: int
    bound: Bound
    unplaced: tuple[int, ...]
    misfits: tuple[int, ...]
    iterations: int

    @property
    def bins(self) -> int:
        return len(self.patterns)

    @property
    def complete(self) -> bool:
        return not any(self.unplaced)

    @property
    def optimal(self) -> bool:
        """Proved: no complete plan costs less."""
        return self.complete and self.cost <= self.bound.cost
