"""Pricing for the column generation: what a bin may be worth, and columns worth more than their price."""

from __future__ import annotations

import ctypes
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..parameters import DEFAULT_PARAMETERS, PricingEffort, SearchParameters, WorkKind
from .columns import Column, Counts, ItemKinds, columns_of_trees
from .instance import LargeObject
from .kernel_binding import PricedItem, kernel
from .pricing_tables import (
    ROOM,
    Critical,
    PricingTables,
    float_pointer,
    integer_pointer,
    item_orientations,
    pricing_grid,
    split_count,
)
from .work_count import Count, uncounted

Duals = NDArray[np.float64]

LARGEST_WHOLE = 2.0**23
"""Up to here whole numbers, and sums of two of them, are exact in a 32-bit float."""


@dataclass(frozen=True, slots=True)
class IntegerDuals:
    """Duals as whole numbers, `scale` of them to one unit of money."""

    whole: NDArray[np.float32]
    scale: float

    def money(self, whole: float) -> float:
        return whole / self.scale


class Pricer:
    """Prices the patterns of one kind of bin.

    The tables may see the bin on a coarser grid, sizes rounded down: bounds still hold. Items that vanish on
    it are `unseen`, and their duals must be zero. `faithful` says that nothing was rounded, so that patterns
    on the grid are patterns of the bin.
    """

    def __init__(
        self,
        kinds: ItemKinds,
        number: int,
        bin_: LargeObject,
        parameters: SearchParameters = DEFAULT_PARAMETERS,
        scales: tuple[int, int] | None = None,
        count: Count = uncounted,
    ) -> None:
        self._parameters = parameters
        self._count_work = count
        self.number = number
        self._kinds = kinds
        self._bin = bin_
        self._grid = pricing_grid(kinds.item, bin_, parameters, scales)
        self.faithful, self.work = self._grid.faithful, self._grid.made
        self.unseen = np.array(
            [
                any(
                    length // self._grid.scale_x == 0 or width // self._grid.scale_y == 0
                    for length, width, _ in item_orientations(item, bin_)
                )
                for item in kinds.item
            ]
        )
        self._plain = PricingTables(self._grid, number, kinds, (), count)
        self._counted = self._plain
        self.most = 0.0
        """What the last `columns` proved: no pattern is worth more, in whole duals."""
        self._fine = (PricedItem * len(kinds.item))()
        for place, item in enumerate(kinds.item):
            self._fine[place] = PricedItem(item.length, item.width, item.may_turn, 0, 0.0)
        self._most = np.zeros(len(kinds.item), dtype=np.int64)
        self.allow(kinds.demand)
        self._full = self._most.copy()
        self._out = np.zeros(ROOM, dtype=np.int32)

    def allow(self, counts: Counts) -> None:
        """Set how often `columns` may use each kind of item from now on."""
        for place, (item, count) in enumerate(zip(self._kinds.item, counts, strict=True)):
            self._most[place] = self._fine[place].count = min(int(count), self._bin.area // item.area)

    def best(self, worths: IntegerDuals) -> float:
        """The most that a pattern is worth with each item any number of times, in whole duals."""
        for place, worth in enumerate(worths.whole):
            self._fine[place].worth = worth
        return self._plain.best(worths.whole)

    def count(self, kinds: tuple[int, ...]) -> None:
        """Count these kinds from now on: `best_counting` uses them no more often than asked for."""
        critical = self._critical(kinds)
        self._counted = self._counting(critical) if kinds else self._plain

    def _counting(self, critical: Critical) -> PricingTables:
        return PricingTables(self._grid, self.number, self._kinds, critical, self._count_work)

    def work_counting(self, kinds: tuple[int, ...]) -> int:
        """Additions for tables in which these kinds are counted."""
        return split_count(self._critical(kinds)) * self.work

    def _critical(self, kinds: tuple[int, ...]) -> Critical:
        return tuple((kind, int(self._full[kind])) for kind in kinds)

    def best_counting(self, worths: IntegerDuals) -> float:
        """The same with the counted kinds no more often than asked for."""
        return self._counted.best(worths.whole)

    def patterns(self, ask: float) -> list[Column]:
        """Columns worth more than `ask`, in whole duals, the most valuable first; call `best_counting`
        before.

        They may exceed the demand of kinds that are not counted, and the bin itself if the grid is not
        faithful.
        """
        return self._counted.patterns(ask, self._parameters.patterns_per_table)

    def columns(self, ask: float, effort: PricingEffort) -> tuple[list[Column], bool]:
        """Some columns within the demand worth more than `ask`, and whether it is proved that there are none;
        call `best` before.

        The tables answer first, since they are quick: no pattern worth enough, or some that happen to keep to
        the demand. Only between the two must patterns be assembled, and then a narrow search will do if the
        tables have found columns.
        """
        tables = self._count(ask, effort.counting)
        columns = []
        if self.faithful:
            valuable = tables.patterns(ask, self._parameters.patterns_per_table)
            columns = [column for column in valuable if self._within(column)]
        if tables.most <= ask:
            return [], True
        assembled, exact = self._assemble(tables, ask, self._parameters.narrow_effort if columns else effort)
        columns += assembled
        return columns, exact and not columns

    def all_columns(self, ask: float, effort: PricingEffort) -> tuple[list[Column], bool]:
        """The columns within the demand worth more than `ask`, and whether these are all; call `best`
        before."""
        columns, exact = self._assemble(self._count(ask, effort.counting), ask, effort)
        return columns, exact and len(columns) < effort.columns

    def _assemble(
        self, tables: PricingTables, ask: float, effort: PricingEffort
    ) -> tuple[list[Column], bool]:
        tables.complete()
        exact, joins = ctypes.c_int32(), ctypes.c_int64(effort.joins)
        written = kernel().assemble_columns(
            self._bin.length,
            self._bin.width,
            len(self._fine),
            self._fine,
            self._grid.scale_x,
            self._grid.scale_y,
            ctypes.byref(tables.native),
            integer_pointer(self._grid.x.left),
            integer_pointer(self._grid.y.left),
            float_pointer(tables.rest),
            ask,
            effort.built,
            ctypes.byref(joins),
            effort.level,
            effort.columns,
            effort.worthless,
            integer_pointer(self._out),
            ROOM,
            ctypes.byref(exact),
        )
        self._count_work(WorkKind.JOIN, 3_000 + joins.value)
        self._count_work(WorkKind.TREE, int(written))
        columns = columns_of_trees(self.number, len(self._fine), self._out[:written])
        return columns, bool(exact.value)

    def _count(self, ask: float, work: int) -> PricingTables:
        """Tables that count the kinds of which the most valuable pattern would hold too many.

        One kind after another is added, the most valuable surplus first, until the best pattern keeps to the
        demand or the tables would be too much work. Kinds counted before stay counted.
        """
        tables = self._counted
        if split_count(tables.critical) * self._grid.work > work:
            tables = self._plain
        elif tables is not self._plain:
            tables.best(self._plain.worth)
        while True:
            best = tables.patterns(ask, 1)
            over = np.maximum(best[0].counts - self._full, 0) * self._plain.worth if best else np.zeros(1)
            kind = int(over.argmax())
            critical = (*tables.critical, (kind, int(self._full[kind])))
            if not over.any() or split_count(critical) * self._grid.work > work:
                self.most = tables.most
                return tables
            tables = self._counted = self._counting(critical)
            tables.best(self._plain.worth)

    def _within(self, column: Column) -> bool:
        return bool((column.counts <= self._most).all())


def integer_duals(duals: Duals, scale: float) -> IntegerDuals:
    return IntegerDuals(np.floor(np.maximum(duals, 0.0) * scale).astype(np.float32), scale)
