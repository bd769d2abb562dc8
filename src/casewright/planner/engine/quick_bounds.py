"""Lower bounds that cost next to nothing: area, and dual feasible functions.

A function f on [0, C] is dual feasible if sum(f(x_i)) <= f(C) whenever sum(x_i) <= C. Apply one, f, to
lengths and another, g, to widths: over the items in any one bin, guillotine or not, the sum of f(length) *
g(width) is at most f(bin length) * g(bin width). So the sum over all items, divided by that, is a lower bound
on the number of bins. An item that may turn counts with the smaller of its two products, which holds
whichever way it lies.

S. P. Fekete, J. Schepers: New classes of fast lower bounds for bin packing problems. Mathematical
Programming 91 (2001).
J. Carlier, F. Clautiaux, A. Moukrim: New reduction procedures and lower bounds for the two-dimensional
bin packing problem with fixed orientation. Computers & Operations Research 34 (2007).
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from .instance import Bound, Instance, LargeObject, SmallItem

Sides = NDArray[np.int64]
Table = NDArray[np.float64]

MOST_PARAMETERS = 160
"""Parameters tried of each family of functions. A job with more distinct sides gets a thinned set: the bound
is still valid, if weaker."""

ROUNDING = 1e-6
"""Far above the rounding error of the sums, far below what one item contributes."""


def item_fits(length: int, width: int, may_turn: bool, bin_: LargeObject) -> bool:
    return (length <= bin_.length and width <= bin_.width) or (
        may_turn and width <= bin_.length and length <= bin_.width
    )


def _thin(parameters: list[int]) -> list[int]:
    if len(parameters) <= MOST_PARAMETERS:
        return parameters
    step = len(parameters) / MOST_PARAMETERS
    return [parameters[int(i * step)] for i in range(MOST_PARAMETERS)]


def dual_feasible_table(sides: Sides, capacity: int) -> Table:
    """Values of many dual feasible functions at `sides`: one row each, normalised to f(capacity) = 1."""
    x = sides.astype(np.int64)
    rows = [x / capacity]
    half = capacity / 2
    breaks = {int(s) for s in sides} | {capacity - int(s) for s in sides}
    breaks |= {b + 1 for b in breaks}
    for p in _thin(sorted(b for b in breaks if 1 <= b <= half)):
        rows.append(np.where(x > capacity - p, 1.0, np.where(x < p, 0.0, x / capacity)))
        whole = 2 * (capacity // p)
        above = whole - 2 * ((capacity - x) // p)
        stepped = np.where(2 * x > capacity, above, np.where(2 * x == capacity, capacity // p, 2 * (x // p)))
        rows.append(stepped / whole)
    for k in range(1, 100):
        exact = ((k + 1) * x) % capacity == 0
        rows.append(np.where(exact, x / capacity, ((k + 1) * x // capacity) / k))
    return np.unique(np.array(rows), axis=0)


def dual_feasible_worths(items: Sequence[SmallItem], bin_: LargeObject) -> NDArray[np.float64]:
    """What each item is worth, as a share of a bin, under the pair of functions that gives the best bound.

    No bin holds items worth more than 1. The column generation starts from these duals.
    """
    counts = np.array([item.count for item in items], dtype=np.float64)
    lengths = np.array([item.length for item in items], dtype=np.int64)
    widths = np.array([item.width for item in items], dtype=np.int64)
    turns = np.array(
        [item.may_turn and item.width <= bin_.length and item.length <= bin_.width for item in items]
    )
    fixed_only = np.array([item.length > bin_.length or item.width > bin_.width for item in items])
    # An item that fits only turned is entered turned.
    lengths, widths = np.where(fixed_only, widths, lengths), np.where(fixed_only, lengths, widths)
    turns &= ~fixed_only
    on_x = dual_feasible_table(np.concatenate([lengths, np.where(turns, widths, lengths)]), bin_.length)
    on_y = dual_feasible_table(np.concatenate([widths, np.where(turns, lengths, widths)]), bin_.width)
    n = len(items)
    best, worths = -1.0, np.zeros(n)
    for row in on_x:
        least = row[:n] * on_y[:, :n]
        if turns.any():
            least = np.minimum(least, row[n:] * on_y[:, n:])
        sums = least @ counts
        if sums.max() > best:
            best, worths = float(sums.max()), least[int(sums.argmax())]
    return worths


def dual_feasible_bins(instance: Instance, bin_: LargeObject) -> int:
    """A lower bound on the bins if all of them are like `bin_` or smaller."""
    items = [item for item in instance.items if item.count]
    worths = dual_feasible_worths(items, bin_)
    return math.ceil(float(worths @ [item.count for item in items]) - ROUNDING)


def area_cost(instance: Instance) -> int:
    """The least price at which bins reach the area of the items, as if fractions of bins could be bought."""
    area = sum(item.area * item.count for item in instance.items)
    cost = 0.0
    for bin_ in sorted(instance.bins, key=lambda b: b.price / b.area):
        available = math.inf if bin_.count is None else bin_.count * bin_.area
        taken = min(area, available)
        cost += bin_.price * (taken / bin_.area)
        area -= int(taken) if taken != math.inf else area
        if area <= 0:
            break
    step = math.gcd(*(bin_.price for bin_ in instance.bins)) or 1
    return math.ceil(cost / step - ROUNDING) * step


def area_bins(instance: Instance) -> int:
    area = sum(item.area * item.count for item in instance.items)
    number = 0
    for bin_ in sorted(instance.bins, key=lambda b: -b.area):
        need = -(-area // bin_.area)
        if bin_.count is None or need <= bin_.count:
            return number + need
        number += bin_.count
        area -= bin_.count * bin_.area
    return number


def quick_bound(instance: Instance) -> Bound:
    """The better of area and dual feasible functions. Every item must fit some bin."""
    if not any(item.count for item in instance.items):
        return Bound(0, 0, "nothing to cut")
    cost, bins, by = area_cost(instance), area_bins(instance), "area"
    largest = max(instance.bins, key=lambda b: b.area)
    if all(b.length <= largest.length and b.width <= largest.width for b in instance.bins):
        number = dual_feasible_bins(instance, largest)
        bins = max(bins, number)
        cheapest = _cheapest(instance, number)
        if cheapest > cost:
            cost, by = cheapest, "dual feasible functions"
    cost = max(cost, _cheapest(instance, bins))
    return Bound(cost, bins, by)


def _cheapest(instance: Instance, number: int) -> int:
    """The least price of so many bins, whatever their size."""
    cost = 0
    for bin_ in sorted(instance.bins, key=lambda b: b.price):
        taken = number if bin_.count is None else min(number, bin_.count)
        cost += taken * bin_.price
        number -= taken
    return cost
