"""Diving: round the master's columns up one after another, pricing for what is left, and let the search
finish.

F. Clautiaux, R. Sadykov, F. Vanderbeck, Q. Viaud: Pattern-based diving heuristics for a two-dimensional
guillotine cutting-stock problem with leftovers. EURO Journal on Computational Optimization 7 (2019).
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from .bounding import Bounding
from .columns import Column, Counts, Kinds, lay_out
from .master import Master
from .model import Instance, Pattern
from .search import Search

PRICINGS = 3
"""Between two roundings."""

SURE = 0.999
LEFT_TO_SEARCH = 0.45
"""Of the cost: when no more than that is still fractional, the search takes over."""

SEARCH_WORK = 1_500_000
"""Iterations times items for the rest of one dive."""


@dataclass(frozen=True, slots=True)
class Diver:
    """Makes dives for one instance; each draws its roundings from its own seed."""

    instance: Instance
    kinds: Kinds

    def dive(self, bounding: Bounding, best_cost: int, seed: int) -> tuple[Pattern, ...] | None:
        """A plan cheaper than `best_cost`, or None."""
        draw = np.random.default_rng(seed)
        target = best_cost - bounding.grain
        master = Master(self.kinds.demand, self.instance.bins)
        for column in bounding.master.columns:
            master.add(column)
        taken: list[Column] = []
        spent = 0
        share = LEFT_TO_SEARCH * draw.uniform(0.6, 1.4)
        while spent < (1 - share) * target:
            if not self._price(bounding, master, self._left(taken), target):
                return None
            rounded = self._round(master, taken, draw)
            if not rounded:
                break
            taken += rounded
            spent = sum(self.instance.bins[column.bin].price for column in taken)
        return self._finish(taken, target - spent, seed)

    def _left(self, taken: list[Column]) -> Counts:
        left = self.kinds.demand
        for column in taken:
            left = np.maximum(left - column.counts, 0)
        return left

    def _price(self, bounding: Bounding, master: Master, left: Counts, target: int) -> bool:
        """Whether the target is still within reach of the LP."""
        for _ in range(PRICINGS):
            found = master.solve()
            if found is None:
                return False
            if not bounding.columns_for(found, left, master):
                return found.cost <= target + 1e-6
        found = master.solve()
        return found is not None and found.cost <= target + 1e-6

    def _round(self, master: Master, taken: list[Column], draw: np.random.Generator) -> list[Column]:
        values = master.values()
        already: dict[tuple[int, bytes], int] = {}
        for column in taken:
            already[column.key] = already.get(column.key, 0) + 1
        rest = np.array(
            [value - already.get(c.key, 0) for c, value in zip(master.columns, values, strict=True)]
        )
        times = np.floor(rest + 1 - SURE).astype(int)
        if not times.any():
            fractional = np.nonzero(rest > 1e-6)[0]
            if not len(fractional):
                return []
            weights = rest[fractional] ** 3
            times[draw.choice(fractional, p=weights / weights.sum())] = 1
        rounded: list[Column] = []
        for place in np.nonzero(times > 0)[0]:
            column = master.columns[place]
            master.at_least(int(place), already.get(column.key, 0) + int(times[place]))
            rounded += [column] * int(times[place])
        return rounded

    def _finish(self, taken: list[Column], money: int, seed: int) -> tuple[Pattern, ...] | None:
        """What the columns taken do not cover, cut from new bins for no more than `money`."""
        start = lay_out(self.instance, self.kinds, taken)
        missing = [item.count for item in self.instance.items]
        used = [0] * len(self.instance.bins)
        for pattern in start:
            used[pattern.bin] += 1
            for piece in pattern.pieces():
                missing[piece.item] -= 1
        rest = replace(
            self.instance,
            items=tuple(replace(i, count=n) for i, n in zip(self.instance.items, missing, strict=True)),
            bins=tuple(
                b if b.count is None else replace(b, count=max(0, b.count - n))
                for b, n in zip(self.instance.bins, used, strict=True)
            ),
        )
        if money < 0 or any(
            b.count is not None and b.count < n for b, n in zip(self.instance.bins, used, strict=True)
        ):
            return None
        if rest.copies == 0:
            return start
        with Search(rest, seed) as search:
            search.goal(money)
            found, _ = search.run(SEARCH_WORK // (rest.copies + 50))
            return start + search.plan() if found else None
