"""Pricing tables over the raster points of a bin (kernel: line.c, tables.c, trace.c).

A table has a cell for each rectangle whose sides matter, with the most valuable pattern in it. Only few sizes
matter: on cabinet jobs in sixteenths some hundred by some hundred in place of 1530 by 762, so that nothing
need be rounded. Where even they are too many the grid is coarser by `scale_x` and `scale_y`, items and bin
rounded down. Whatever fits in fact fits there too, so what the tables prove still holds.
"""

from __future__ import annotations

import ctypes
import itertools
import math
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ...errors import OutOfMemory
from ..parameters import DEFAULT_PARAMETERS, SearchParameters, WorkKind
from .columns import Column, ItemKinds, columns_of_trees
from .instance import LargeObject, SmallItem
from .kernel_binding import FLOATS, INTEGERS, GridType, LineType, SeedType, kernel
from .work_count import Count, uncounted

Integers = NDArray[np.int32]
Floats = NDArray[np.float32]

LONGEST = 6000
"""The most steps of a grid along one side, those that do not matter included: sets of sizes are bit rows this
long."""

BESIDE, FEW, EIGHT = 16, 4, 8
"""The same numbers as in beside.h and pricing.h."""

ROOM = 2_000_000
ROOM_FOR_PAIRS = 4_000_000


def float_pointer(array: Floats) -> object:
    return array.ctypes.data_as(FLOATS)


def integer_pointer(array: Integers) -> object:
    return array.ctypes.data_as(INTEGERS)


@dataclass(frozen=True, slots=True)
class RasterPoints:
    """The sizes that matter along one side, and the pairs they are cut into (see line.c); `left` is indexed
    by whole length."""

    size: Integers
    first: Integers
    pair: Integers
    across: Integers
    left: Integers

    @property
    def pairs(self) -> int:
        return int(self.first[-1])

    @property
    def places(self) -> int:
        """How many places the sizes occupy when the kernel fills them side by side (beside.c)."""
        places, start = 0, 0
        for size in range(1, len(self.size) + 1):
            full = size == len(self.size) or size - start == BESIDE
            pairs = not full and self.first[size] < self.first[size + 1]
            # The first pair of a size has the smallest part, and so the largest.
            if full or (pairs and self.pair[2 * self.first[size] + 1] >= start):
                places += FEW if size - start <= FEW else BESIDE
                start = size
        return places

    @property
    def even(self) -> bool:
        """Whether every whole length is a size that matters."""
        return len(self.size) == len(self.left)

    def native(self) -> LineType:
        return LineType(
            len(self.size),
            self.even,
            integer_pointer(self.first),
            integer_pointer(self.pair),
            integer_pointer(self.across),
        )


def raster_points(sides: Iterable[tuple[int, int]], whole: int) -> RasterPoints | None:
    """The raster points of a side `whole` long. `sides` are the items', each with how often it may be used.
    None if there are too many pairs.

    Sums of sides are kept as bits of one large integer: adding a side to every sum is a shift.
    """
    reached, within = 1, (1 << (whole + 1)) - 1
    for side, count in sides:
        for _ in range(min(count, whole // side) if side else 0):
            before = reached
            reached |= (reached << side) & within
            if reached == before:
                break
    bits = np.frombuffer(reached.to_bytes(whole // 8 + 1, "little"), dtype=np.uint8)
    return _lay(np.ascontiguousarray(np.unpackbits(bits, bitorder="little")[: whole + 1]), whole)


def fill_if_dense(found: RasterPoints, dense_share: float) -> RasterPoints | None:
    """With every length as a size that matters, if most of them are: the tables are then larger but
    quicker."""
    lengths = len(found.left)
    if found.even or len(found.size) < dense_share * lengths:
        return found
    return _lay(np.ones(lengths, dtype=np.uint8), lengths - 1)


def _lay(normal: NDArray[np.uint8], whole: int) -> RasterPoints | None:
    size, first, across = (np.empty(whole + 2, dtype=np.int32) for _ in range(3))
    left = np.empty(whole + 1, dtype=np.int32)
    pair = np.empty(ROOM_FOR_PAIRS, dtype=np.int32)
    count = kernel().lay_line(
        whole,
        normal.ctypes.data_as(ctypes.POINTER(ctypes.c_uint8)),
        integer_pointer(size),
        integer_pointer(first),
        integer_pointer(pair),
        ROOM_FOR_PAIRS,
        integer_pointer(across),
        integer_pointer(left),
    )
    if not count:
        return None
    first = first[: count + 1].copy()
    return RasterPoints(size[:count].copy(), first, pair[: 2 * first[-1]].copy(), across[:count].copy(), left)


@dataclass(frozen=True, slots=True)
class PricingGrid:
    """A bin as the tables see it; `faithful` says that nothing was rounded."""

    scale_x: int
    scale_y: int
    faithful: bool
    x: RasterPoints
    y: RasterPoints
    seeds: tuple[tuple[int, int, int, int], ...]

    @property
    def work(self) -> int:
        """Additions for one table."""
        return self.x.pairs * len(self.y.size) + self.y.pairs * len(self.x.size)

    @property
    def made(self) -> int:
        """Additions that the kernel really makes for one table: lengths that depend on each other cannot be
        filled side by side, which leaves places empty (beside.c)."""
        if self.y.even:
            return self.work
        return self.x.pairs * len(self.y.size) + self.y.pairs * self.x.places


def pricing_grid(
    items: tuple[SmallItem, ...],
    bin_: LargeObject,
    parameters: SearchParameters = DEFAULT_PARAMETERS,
    scales: tuple[int, int] | None = None,
) -> PricingGrid:
    """The finest grid within `table_work`, or the one of these scales."""
    on_x, on_y = _sides(items, bin_)
    exact_x, exact_y = math.gcd(*(s for s, _ in on_x)), math.gcd(*(s for s, _ in on_y))
    if scales:
        found = _grid(items, bin_, parameters, scales, scales == (exact_x, exact_y))
        assert found is not None
        return found
    coarser = max(1.0, bin_.length / exact_x / LONGEST, bin_.width / exact_y / LONGEST)
    while True:
        if coarser == 1.0:
            scales = exact_x, exact_y
        else:
            low_x, low_y = math.ceil(coarser * exact_x), math.ceil(coarser * exact_y)
            scales = _least_loss(on_x, bin_.length, low_x), _least_loss(on_y, bin_.width, low_y)
        found = _grid(items, bin_, parameters, scales, coarser == 1.0)
        if found is not None and found.work <= parameters.table_work:
            return found
        coarser *= 1.3


def item_orientations(item: SmallItem, bin_: LargeObject) -> list[tuple[int, int, int]]:
    """Length, width and whether turned, for each orientation in which the item fits."""
    ways = [(item.length, item.width, 0)]
    if item.may_turn:
        ways.append((item.width, item.length, 1))
    return [way for way in ways if way[0] <= bin_.length and way[1] <= bin_.width]


def _sides(
    items: tuple[SmallItem, ...], bin_: LargeObject
) -> tuple[list[tuple[int, int]], list[tuple[int, int]]]:
    """The sides of all that fits, on either axis, each with its count."""
    ways = [(way, item.count) for item in items for way in item_orientations(item, bin_)]
    nothing = [(max(bin_.length, bin_.width), 1)]
    return [(x, n) for (x, _, _), n in ways] or nothing, [(y, n) for (_, y, _), n in ways] or nothing


def _grid(
    items: tuple[SmallItem, ...],
    bin_: LargeObject,
    parameters: SearchParameters,
    scales: tuple[int, int],
    faithful: bool,
) -> PricingGrid | None:
    scale_x, scale_y = scales
    on_x, on_y = _sides(items, bin_)
    x = raster_points([(side // scale_x, count) for side, count in on_x], bin_.length // scale_x)
    y = raster_points([(side // scale_y, count) for side, count in on_y], bin_.width // scale_y)
    y = y and fill_if_dense(y, parameters.dense_share)  # widths are what lies beside each other in the tables
    if x is None or y is None:
        return None
    seeds = [
        (
            int(np.searchsorted(x.size, length // scale_x)),
            int(np.searchsorted(y.size, width // scale_y)),
            kind,
            turned,
        )
        for kind, item in enumerate(items)
        for length, width, turned in item_orientations(item, bin_)
    ]
    return PricingGrid(scale_x, scale_y, faithful, x, y, tuple(seed for seed in seeds if seed[0] and seed[1]))


def _least_loss(sides: list[tuple[int, int]], whole: int, low: int) -> int:
    """Of the scales from `low` to a third more, the one that rounds away least: a slightly coarser grid is
    often the better match for the sizes of a job."""

    def loss(scale: int) -> float:
        grown = (whole // scale) * scale / whole
        return -sum((side // scale) * scale / side for side, _ in sides) / grown

    low = min(low, whole)  # a bin narrower than one step of the grid is one step wide
    return min(range(low, min(low + low // 3, whole) + 1), key=lambda scale: (loss(scale), scale))


Critical = tuple[tuple[int, int], ...]
"""The kinds of items that the tables count, each with how many there are."""


def state_count(critical: Critical) -> int:
    return math.prod(count + 1 for _, count in critical)


def split_count(critical: Critical) -> int:
    """How many times the work of one table it takes to fill the tables of all states."""
    return math.prod((count + 1) * (count + 2) // 2 for _, count in critical)


class PricingTables:
    """The tables of one grid, a table for each state of the critical kinds: how many of each are still to be
    had."""

    def __init__(
        self,
        grid: PricingGrid,
        bin_number: int,
        kinds: ItemKinds,
        critical: Critical = (),
        count: Count = uncounted,
    ) -> None:
        self.grid, self.critical = grid, critical
        self._count = count
        self._bin, self._kinds = bin_number, len(kinds.item)
        self.states = state_count(critical)
        self.most = 0.0
        self.worth = np.zeros(self._kinds, dtype=np.float32)
        self._digit = np.full(self._kinds, -1, dtype=np.int32)
        weights, radices = [1], [count + 1 for _, count in critical]
        for place, (kind, most) in enumerate(critical):
            self._digit[kind] = place
            weights.append(weights[-1] * (most + 1))
        self._weight = np.array(weights, dtype=np.int32)
        self._radix = np.array([*radices, 1], dtype=np.int32)
        self._split_first, self._split = _splits(critical, self.states)
        self._seeds = (SeedType * len(grid.seeds))(
            *[SeedType(x, y, kind, turned) for x, y, kind, turned in grid.seeds]
        )
        self._holds_from = _holds_from(grid, critical, self._weight, self._radix)
        stride = len(grid.y.size) + EIGHT
        self.native = GridType(
            grid.x.native(),
            grid.y.native(),
            len(grid.seeds),
            self._seeds,
            float_pointer(self.worth),
            integer_pointer(self._digit),
            len(critical),
            integer_pointer(self._weight),
            integer_pointer(self._radix),
            self.states,
            integer_pointer(self._split_first),
            integer_pointer(self._split),
            integer_pointer(self._holds_from),
            stride,
        )
        cells = self.states * len(grid.x.size) * stride
        self._table = np.empty(cells, dtype=np.float32)
        self.rest = np.empty(cells, dtype=np.float32)

    def best(self, worth: Floats) -> float:
        """Fill the tables: the most a bin is worth with critical kinds counted, the others any number of
        times."""
        self._count(WorkKind.TABLE, 1_000_000 + split_count(self.critical) * self.grid.made)
        self.worth[:] = worth
        self.most = float(kernel().price_tables(ctypes.byref(self.native), float_pointer(self._table)))
        if self.most < 0:
            raise OutOfMemory("pricing cutting patterns")
        return self.most

    def patterns(self, ask: float, most: int) -> list[Column]:
        """Columns worth more than `ask`, the most valuable first; call `best` before. On a grid that is not
        faithful they may not fit, and they may hold too many of kinds that are not critical."""
        out = np.empty(ROOM, dtype=np.int32)
        written = kernel().price_patterns(
            ctypes.byref(self.native), float_pointer(self._table), ask, most, integer_pointer(out), ROOM
        )
        self._count(WorkKind.TREE, 4_000 + int(written))
        return columns_of_trees(self._bin, self._kinds, out[:written])

    def complete(self) -> None:
        """Fill `rest`, the most that can be added beside a rectangle; call `best` before. It prunes
        assemble.c."""
        self._count(WorkKind.RESTS, 500_000 + split_count(self.critical) * self.grid.made)
        if not kernel().price_rests(
            ctypes.byref(self.native), float_pointer(self._table), float_pointer(self.rest)
        ):
            raise OutOfMemory("pricing cutting patterns")


def _splits(critical: Critical, states: int) -> tuple[Integers, Integers]:
    """For each state, all ordered pairs of states that add up to it."""
    first, split = [0], []
    for state in range(states):
        digits, rest = [], state
        for _, count in critical:
            digits.append(rest % (count + 1))
            rest //= count + 1
        for part in itertools.product(*(range(digit + 1) for digit in digits)):
            one, weight = 0, 1
            for digit, (_, count) in zip(part, critical, strict=True):
                one += digit * weight
                weight *= count + 1
            split += [one, state - one]
        first.append(len(split) // 2)
    return np.array(first, dtype=np.int32), np.array(split, dtype=np.int32)


def _holds_from(grid: PricingGrid, critical: Critical, weight: Integers, radix: Integers) -> Integers:
    """For each state and length, the least width of a rectangle that may hold all critical items of the
    state, as far as each item by itself and their total area tell; one past the last width where none does.
    Narrower rectangles are skipped: they are worth what a smaller state is."""
    lengths, widths, none = grid.x.size.astype(np.int64), grid.y.size.astype(np.int64), len(grid.y.size)
    states = np.arange(state_count(critical))
    least = np.zeros((len(states), len(lengths)), dtype=np.int32)
    area = np.zeros(len(states), dtype=np.int64)
    for place, (kind, _) in enumerate(critical):
        corners = [(x, y) for x, y, of, _ in grid.seeds if of == kind]
        alone = np.full(len(lengths), none, dtype=np.int32)
        for x, y in corners:
            alone[x:] = np.minimum(alone[x:], y)
        number = states // weight[place] % radix[place]
        area += number * min((lengths[x] * widths[y] for x, y in corners), default=0)
        least[number > 0] = np.maximum(least[number > 0], alone)
    wide = -(-area[:, None] // np.maximum(lengths, 1)[None, :])
    return np.maximum(least, np.searchsorted(widths, wide).astype(np.int32))
