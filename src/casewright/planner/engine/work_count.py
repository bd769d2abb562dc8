"""Counted work as time: what was done, at fixed rates, in *notional* seconds.

A clock tells the load of the machine as well as the work of the search, so a search that stops by the clock
gives another plan on a busy machine. Here every piece of work reports how much of it was done; at the rates
of `parameters.WORK_RATES` that makes about the seconds it takes on an idle machine, and always the same.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping

from ..parameters import WORK_RATES, WorkKind

Count = Callable[[WorkKind, int], None]
"""Reports so many units of a kind of work."""

PICOSECONDS = 10**12


def uncounted(kind: WorkKind, amount: int) -> None:
    """For work that nobody counts."""


class WorkCount:
    """The work done so far, by kind in `amounts` and all of it in notional `picoseconds`: whole numbers, so
    that the order in which they are added does not matter. One thread adds to it."""

    def __init__(self, rates: Mapping[WorkKind, int] = WORK_RATES) -> None:
        self._rates = rates
        self.amounts: Counter[WorkKind] = Counter()
        self.picoseconds = 0

    def add(self, kind: WorkKind, amount: int) -> None:
        self.amounts[kind] += amount
        self.picoseconds += self._rates[kind] * amount
