"""What bins can cost: the sums of prices that some choice of bins within the stock comes to.

A bound that lies between two of them is worth as much as the upper one, and a better plan costs no more than
the one below the best plan's. With one price these are its multiples. With several, and pieces in limited
stock among them, they are the sums of a bounded knapsack (P. C. Gilmore, R. E. Gomory: The theory and
computation of knapsack functions. Operations Research 14, 1966): often far fewer than the multiples of their
common divisor, so that a plan is proved that otherwise never would be.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from .instance import Instance

MOST_SUMS = 20_000
"""So many sums are listed at most; with more of them there is little to gain."""

Sums = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class PriceSums:
    """The costs, in ascending order, that a complete plan of an instance may have as far as areas and numbers
    of bins tell; `grain` divides them all. None: too many to list."""

    costs: Sums | None
    grain: int

    def at_least(self, bound: int) -> int:
        """The least cost from `bound` on, `bound` itself beyond the last one listed."""
        if self.costs is None:
            return bound
        place = int(np.searchsorted(self.costs, bound))
        return bound if place == len(self.costs) else int(self.costs[place])

    def below(self, cost: int) -> int:
        """The most that a cheaper plan may cost; `cost` must have been within those listed."""
        if self.costs is None:
            return cost - self.grain
        place = int(np.searchsorted(self.costs, cost)) - 1
        return cost - self.grain if place < 0 else int(self.costs[place])


def price_sums(instance: Instance, fewest: int, most: int) -> PriceSums:
    """The costs up to `most` of all choices of `fewest` bins or more, within the stock, that have room for
    the area of all items."""
    grain = int(np.gcd.reduce([bin_.price for bin_ in instance.bins])) or 1
    costs, room, bins = (np.zeros(1, dtype=np.int64) for _ in range(3))
    for bin_ in instance.bins:
        # A bin holds at least one item, so more bins than items are never used.
        stock = instance.copies if bin_.count is None else min(bin_.count, instance.copies)
        # Bins that cost nothing are all taken: they only make room.
        number = np.arange(min(stock, most // bin_.price) + 1) if bin_.price else np.array([stock])
        if len(costs) * len(number) > 100 * MOST_SUMS:
            return PriceSums(None, grain)
        costs, room, bins = _best_of_each(
            (costs[:, None] + number * bin_.price).ravel(),
            (room[:, None] + number * bin_.area).ravel(),
            (bins[:, None] + number).ravel(),
            most,
        )
        if len(costs) > MOST_SUMS:
            return PriceSums(None, grain)
    area = sum(item.area * item.count for item in instance.items)
    return PriceSums(costs[(room >= area) & (bins >= fewest)], grain)


def fewest_at(instance: Instance, cost: int) -> int:
    """The fewest bins within the stock that come to `cost` or more: where no plan costs less, none uses
    fewer."""
    number = 0
    for bin_ in sorted(instance.bins, key=lambda bin_: -bin_.price):
        if cost <= 0 or bin_.price == 0:
            break
        needed = -(-cost // bin_.price)
        taken = needed if bin_.count is None else min(needed, bin_.count)
        number += taken
        cost -= taken * bin_.price
    return number


def _best_of_each(costs: Sums, room: Sums, bins: Sums, most: int) -> tuple[Sums, Sums, Sums]:
    """Of each cost up to `most`: the most room, and the most bins, that any choice has for it."""
    within = costs <= most
    costs, room, bins = costs[within], room[within], bins[within]
    order = np.argsort(costs, kind="stable")
    costs, room, bins = costs[order], room[order], bins[order]
    first = np.flatnonzero(np.diff(costs, prepend=-1))
    return costs[first], np.maximum.reduceat(room, first), np.maximum.reduceat(bins, first)
