"""What one bin may be worth, and columns that are worth more than their price, from the kernel."""

from __future__ import annotations

import ctypes
import math
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from .columns import Column, Counts, Kinds, columns_of_trees
from .model import Bin, Item
from .native import FLOATS, INTEGERS, PricedItem, kernel

Duals = NDArray[np.float64]

LARGEST_WHOLE = 2.0**23
"""Whole numbers, and sums of two of them, are exact in a float up to here."""

WORK_OF_ONE_TABLE = 30_000_000
"""Additions for one table; a bin with a finer grid is seen through a coarser one."""

WORK_OF_ALL_SETS = 100_000_000
MOST_CRITICAL = 5
"""Items held to one: their number is bounded by the work of the tables, one for each set of them."""

ROOM = 400_000


@dataclass(frozen=True, slots=True)
class Worths:
    """Duals as whole numbers: `scale` of them make one unit of money."""

    whole: NDArray[np.float32]
    scale: float

    def money(self, whole: float) -> float:
        return whole / self.scale


@dataclass(frozen=True, slots=True)
class Effort:
    """Limits of one exact pricing."""

    built: int
    joins: int
    level: int
    """Rectangles of one number of items that are built upon."""
    columns: int = 30
    critical: bool = False
    """Whether a few items that repeat most are held to one in the tables: slower, and far sharper."""
    worthless: bool = False
    """Whether items whose dual is nought take part: of use only to have every pattern."""

    def within(self, seconds: float | None) -> Effort:
        """As much of it as is sure to be done in that time."""
        if seconds is None:
            return self
        return replace(self, joins=min(self.joins, int(JOINS_A_SECOND * seconds)))


JOINS_A_SECOND = 8_000_000
"""On a slow machine."""


EFFORTS = (
    Effort(built=100_000, joins=10_000_000, level=100_000, critical=True),
    Effort(built=400_000, joins=60_000_000, level=400_000, critical=True),
)
ENUMERATION = Effort(
    built=400_000, joins=60_000_000, level=400_000, columns=8_000, critical=True, worthless=True
)
QUICK = Effort(built=200_000, joins=1_500_000, level=200)


class Pricer:
    """Prices the patterns of one kind of bin.

    The tables are on a grid coarser than the units by `scale_x`, `scale_y`: items and bin are rounded
    down on it, so whatever fits in fact fits there too, and what is proved of the tables holds. Items that
    vanish on the grid are `unseen`: their duals must be nought. `faithful`: nothing is lost by rounding,
    patterns on the grid are patterns.
    """

    def __init__(self, kinds: Kinds, number: int, bin_: Bin, scales: tuple[int, int] | None = None) -> None:
        self.number = number
        self._kinds = kinds
        self._bin = bin_
        count = len(kinds.item)
        finest = _scales(kinds.item, bin_)
        self.scale_x, self.scale_y, self.faithful = (*scales, False) if scales else finest
        self.unseen = np.zeros(count, dtype=bool)
        self._length, self._width = bin_.length // self.scale_x, bin_.width // self.scale_y
        self._work = _work(self._length, self._width)
        cells = (self._length + 1) * (self._width + 1)
        self._table = np.zeros(cells, dtype=np.float32)
        self._rest = np.zeros(cells, dtype=np.float32)
        self._coarse = (PricedItem * count)()
        self._fine = (PricedItem * count)()
        for place, item in enumerate(kinds.item):
            self._fine[place] = PricedItem(item.length, item.width, item.may_turn, 0, 0.0)
            sides = item.length // self.scale_x, item.width // self.scale_y
            if item.may_turn:
                other = item.width // self.scale_x, item.length // self.scale_y
                self.unseen[place] = min(*sides, *other) == 0
                # Turned on the grid, a rectangle must be the item turned: the smaller of both ways holds.
                sides = min(sides[0], other[1]), min(sides[1], other[0])
            else:
                self.unseen[place] = min(sides) == 0
            self._coarse[place] = PricedItem(*sides, item.may_turn, 0, 0.0)
        self.allow(kinds.demand)
        self._out = np.zeros(ROOM, dtype=np.int32)

    def allow(self, counts: Counts) -> None:
        """How often `columns` may use each kind of item from now on."""
        for place, (item, count) in enumerate(zip(self._kinds.item, counts, strict=True)):
            self._fine[place].count = min(int(count), self._bin.area // item.area)

    def best(self, worths: Worths) -> float:
        """The most that a bin is worth with each item as often as one likes, in whole worths."""
        for place, worth in enumerate(worths.whole):
            self._fine[place].worth = self._coarse[place].worth = worth
        return float(
            kernel().price_bin(
                self._length, self._width, len(self._coarse), self._coarse, _floats(self._table)
            )
        )

    def best_column(self) -> Column | None:
        """The column whose worth `best` gave last, on the grid. It may ask for more than the demand."""
        written = kernel().price_trace(
            self._length,
            self._width,
            len(self._coarse),
            self._coarse,
            _floats(self._table),
            _integers(self._out),
            ROOM,
        )
        if not written:
            return None
        code = self._out[:written].tolist()
        return columns_of_trees(self.number, len(self._coarse), code, 1)[0]

    def columns(self, ask: float, effort: Effort) -> tuple[list[Column], bool]:
        """Columns within the demand worth more than `ask`, after `best`; and whether none was missed
        when the list is empty."""
        critical, sets, rest = self._completions(effort)
        exact, written = ctypes.c_int32(), ctypes.c_int32()
        trees = kernel().assemble_columns(
            self._bin.length,
            self._bin.width,
            len(self._fine),
            self._fine,
            self.scale_x,
            self.scale_y,
            _integers(critical),
            sets,
            _floats(rest),
            ask,
            effort.built,
            effort.joins,
            effort.level,
            effort.columns,
            effort.worthless,
            _integers(self._out),
            ROOM,
            ctypes.byref(exact),
            ctypes.byref(written),
        )
        code = self._out[: written.value].tolist()
        return columns_of_trees(self.number, len(self._fine), code, trees), bool(exact.value)

    def _completions(self, effort: Effort) -> tuple[NDArray[np.int32], int, NDArray[np.float32]]:
        """Each item's bit among the critical ones (or -1), the number of sets of them, and for each set
        the table of what can be added."""
        critical = np.full(len(self._fine), -1, dtype=np.int32)
        chosen = self._critical() if effort.critical else []
        if not chosen:
            kernel().price_completions(self._length, self._width, _floats(self._table), _floats(self._rest))
            return critical, 1, self._rest
        for bit, place in enumerate(chosen):
            critical[place] = bit
        sets = 2 ** len(chosen)
        tables = np.empty(sets * len(self._table), dtype=np.float32)
        rest = np.empty(sets * len(self._table), dtype=np.float32)
        kernel().price_bounded(
            self._length,
            self._width,
            len(self._coarse),
            self._coarse,
            _integers(critical),
            sets,
            _floats(tables),
            _floats(rest),
        )
        return critical, sets, rest

    def _critical(self) -> list[int]:
        """The single items that would be worth most if a bin were filled with them alone."""
        most = 0
        while most < MOST_CRITICAL and 3 ** (most + 1) * self._work <= WORK_OF_ALL_SETS:
            most += 1
        filled = []
        for place, (fine, item) in enumerate(zip(self._fine, self._kinds.item, strict=True)):
            turned = item.may_turn and self._copies(item.width, item.length)
            copies = max(self._copies(item.length, item.width), turned)
            if fine.count == 1 and copies > 1 and fine.worth > 0:
                filled.append((-fine.worth * copies, place))
        return [place for _, place in sorted(filled)[:most]]

    def _copies(self, length: int, width: int) -> int:
        return (self._bin.length // length) * (self._bin.width // width)


def whole_worths(duals: Duals, scale: float) -> Worths:
    return Worths(np.floor(np.maximum(duals, 0.0) * scale).astype(np.float32), scale)


def _floats(array: NDArray[np.float32]) -> object:
    return array.ctypes.data_as(FLOATS)


def _integers(array: NDArray[np.int32]) -> object:
    return array.ctypes.data_as(INTEGERS)


def _scales(items: tuple[Item, ...], bin_: Bin) -> tuple[int, int, bool]:
    """The finest grid within the work of one table, and whether it loses nothing."""
    on_x = [s for item in items for s in ((item.length, item.width) if item.may_turn else (item.length,))]
    on_y = [s for item in items for s in ((item.width, item.length) if item.may_turn else (item.width,))]
    exact_x, exact_y = math.gcd(*on_x), math.gcd(*on_y)
    if any(item.may_turn for item in items):
        exact_x = exact_y = math.gcd(exact_x, exact_y)
    coarsest = 1.0
    while _work(bin_.length / coarsest / exact_x, bin_.width / coarsest / exact_y) > WORK_OF_ONE_TABLE:
        coarsest *= 1.1
    if coarsest == 1.0:
        return exact_x, exact_y, True
    low_x, low_y = math.ceil(coarsest * exact_x), math.ceil(coarsest * exact_y)
    return _least_loss(on_x, bin_.length, low_x), _least_loss(on_y, bin_.width, low_y), False


def _work(length: float, width: float) -> float:
    return length * width * (length + width) / 2


def _least_loss(sides: list[int], whole: int, low: int) -> int:
    """Of the scales from `low` to a third more, the one that rounds away least."""

    def loss(scale: int) -> float:
        grown = (whole // scale) * scale / whole
        return -sum((side // scale) * scale / side for side in sides) / grown

    low = min(low, whole)  # a bin narrower than one step of the grid is one step wide
    return min(range(low, min(low + low // 3, whole) + 1), key=lambda scale: (loss(scale), scale))
