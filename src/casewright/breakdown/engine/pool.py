"""Plans from patterns that a search in many short attempts came by.

A search that settles slowly sees few patterns; one that settles fast and begins anew, from a part of its
plan, sees many. An LP over them, priced by looking through the pool, says which go together; dives round
its solution, each under prices a little off so that no two are alike.

M. Monaci, P. Toth: A set-covering-based heuristic approach for bin-packing problems. INFORMS Journal on
Computing 18 (2006).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from .columns import Column, Counts, Kinds
from .dive import Diver
from .master import Master, Relaxation
from .model import Instance, Pattern
from .search import Search

HISTORY = 200
PATIENCE = 4000
"""The pace of the attempts: they settle within some thousand iterations."""

WORTH_KEEPING = 0.88
"""Of the fill that the goal needs on average."""

MOST_PATTERNS = 60_000
MOST_COUNTS = 6_000_000
"""Patterns times kinds of items, so that a large job does not fill the memory."""

ADDED_AT_ONCE = 150
FIRST_COLUMNS = 300
MOST_COLUMNS = 1500
NEAR = 0.05
"""Of the dearest price: columns that miss the goal by so little still go into the master."""

BACKS = 16
"""How often a dive goes back: a step of it costs less than what leads there."""


class Pool:
    """Patterns remembered by one search, and dives into them. To be closed like the search."""

    def __init__(self, search: Search, instance: Instance, kinds: Kinds) -> None:
        self._search = search
        self._kinds = kinds
        self._bins = instance.bins
        self._diver = Diver(instance, kinds)
        self._prices = np.array([bin_.price for bin_ in instance.bins], dtype=np.float64)
        self._area = sum(item.area * item.count for item in instance.items)
        self._bin_of = np.zeros(0, dtype=np.int32)
        self._counts = np.zeros((0, len(kinds.item)), dtype=np.float32)  # what they are multiplied with
        self._place: dict[tuple[int, bytes], int] = {}
        self._master: Master | None = None
        self.hopeful = True
        """Whether the last dive came as far as something that the search could have finished."""
        search.pace(HISTORY, PATIENCE)

    def aim(self, goal: int) -> None:
        """A plan for `goal` is looked for from now on."""
        self._goal = goal
        self._master = None
        self.hopeful = True
        self._search.goal(goal)
        most = min(MOST_PATTERNS, MOST_COUNTS // max(1, len(self._kinds.item)))
        self._search.remember(WORTH_KEEPING * self._area / max(1, goal), most)

    def gather(self, iterations: int) -> tuple[Pattern, ...] | None:
        """Remembers more patterns; a plan for the goal, should an attempt come by one."""
        found, _ = self._search.run(iterations)
        return self._search.plan() if found else None

    def join(self, columns: list[Column]) -> bool:
        """Makes a master of the columns given, which cover the demand, and of what is remembered; whether
        its LP leaves room for the goal."""
        bins, counts = self._search.remembered_counts(len(self._bin_of), self._kinds)
        self._bin_of = np.concatenate([self._bin_of, bins])
        self._counts = np.concatenate([self._counts, counts.astype(np.float32)])
        self._master = None
        master = Master(self._kinds.demand, self._bins)
        for column in columns:
            master.add(column)
        fill = self._counts @ np.array([item.area for item in self._kinds.item], dtype=np.float32)
        self._add(master, np.argsort(-fill / self._prices[self._bin_of].clip(1))[:FIRST_COLUMNS])
        while (found := master.solve()) is not None:
            losses = self._losses(found)
            gaining = np.nonzero(losses < -1e-5 * self._prices.max())[0]
            if not self._add(master, gaining[np.argsort(losses[gaining])[:ADDED_AT_ONCE]]):
                break
        if found is None or found.cost > self._goal + NEAR * self._prices.max():
            return False
        near = np.nonzero(losses <= self._goal - found.cost + NEAR * self._prices.max())[0]
        self._add(master, near[np.argsort(losses[near])[:MOST_COLUMNS]])
        self._master = master
        return True

    def _losses(self, found: Relaxation) -> NDArray[np.float64]:
        """By how much each pattern costs more than what is in it is worth."""
        worth = self._counts @ found.duals.astype(np.float32)
        return (self._prices + found.stock)[self._bin_of] - worth

    def _add(self, master: Master, places: NDArray[np.int64]) -> bool:
        gained = False
        for place in places.tolist():
            column = Column(int(self._bin_of[place]), self._counts[place].astype(np.int64))
            self._place[column.key] = place
            gained |= master.add(column)
        return gained

    def dive(self, seed: int, enough: Callable[[], bool]) -> tuple[Pattern, ...] | None:
        """A plan for the goal, or None: always, unless `join` has left room for the goal. Given up as soon
        as `enough` says so."""
        master = self._master
        self.hopeful = False
        if master is None:
            return None

        def within(_: Counts) -> bool:
            found = None if enough() else master.solve()
            return found is not None and found.cost <= self._goal + 1e-6

        for taken in self._diver.leaves(master, self._goal, np.random.default_rng(seed), within, BACKS):
            self.hopeful = True
            columns = [self._with_pattern(column) for column in taken]
            if (plan := self._diver.finish(columns, self._goal, seed)) is not None:
                return plan
        return None

    def _with_pattern(self, column: Column) -> Column:
        if column.tree or column.pattern:
            return column
        return replace(column, pattern=self._search.remembered_pattern(self._place[column.key]))
