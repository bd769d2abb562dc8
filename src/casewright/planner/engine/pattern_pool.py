"""Plans recombined from patterns that the searches came by, whatever became of the plans they were in.

A search that is stuck has seen many well-filled patterns, spread over plans that each failed elsewhere. An LP
over them, and over the columns of the bounding, says which belong together; it is priced by looking through
the pool. Dives round its solution, and backtrack when they lead nowhere. On hard instances this found what
neither the search nor dives into priced columns did (docs/planner.md).

M. Monaci, P. Toth: A set-covering-based heuristic approach for bin-packing problems. INFORMS Journal on
Computing 18 (2006).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from ..parameters import DEFAULT_PARAMETERS, SearchParameters, WorkKind
from .columns import Column, Counts, ItemKinds, patterns_of_columns
from .diving import Diver
from .instance import Instance, Pattern
from .master_problem import MasterProblem, Relaxation
from .ruin_recreate import RuinRecreate
from .work_count import Count, uncounted


class PatternPool:
    """The patterns that some searches remember, and dives into them. It must not outlive the searches."""

    def __init__(
        self,
        searches: Sequence[RuinRecreate],
        instance: Instance,
        kinds: ItemKinds,
        parameters: SearchParameters = DEFAULT_PARAMETERS,
        count: Count = uncounted,
    ) -> None:
        self._parameters = parameters
        self._count = count
        self._searches = searches
        self._seen = [0] * len(searches)
        self._priced = 0
        """How many of each search's patterns, and of the columns priced elsewhere, have been taken in."""
        self._from: list[tuple[RuinRecreate, int] | Column] = []
        """Where each pattern comes from: a search and its place there, or a column."""
        self._taught: set[int] = set()
        self._instance = instance
        self._kinds = kinds
        self._bins = instance.bins
        self._diver = Diver(instance, kinds, parameters, count)
        self._prices = np.array([bin_.price for bin_ in instance.bins], dtype=np.float64)
        self._area = sum(item.area * item.count for item in instance.items)
        self._bin_of = np.zeros(0, dtype=np.int32)
        self._counts = np.zeros(
            (0, len(kinds.item)), dtype=np.float32
        )  # floats: they go into matrix products
        self._place: dict[tuple[int, bytes], int] = {}
        self._master: MasterProblem | None = None
        self.hopeful = True
        """Whether the last dive got as far as a remainder for the search to finish."""

    def aim(self, goal: int) -> None:
        """Look for a plan of `goal` at most from now on, and have the searches remember patterns for it.

        Only well-filled patterns are of use: on average a plan must fill its bins as the goal demands.
        """
        self._goal = goal
        self._master = None
        self.hopeful = True
        most = min(
            self._parameters.pool_patterns, self._parameters.pool_counts // max(1, len(self._kinds.item))
        ) // len(self._searches)
        for search in self._searches:
            search.remember(self._parameters.pool_fill * self._area / max(1, goal), most)

    def join(self, columns: list[Column], priced: list[Column]) -> bool:
        """Build the master that dives use; whether its LP leaves room for the goal.

        It begins with `columns`, which cover the demand, and takes from the patterns remembered and from
        those `priced` (a list that only grows) what improves its LP, then what comes close. The LP's own
        columns are too few to round: a plan often uses patterns that are not quite in its optimum.
        """
        self._look(priced)
        self._master = None
        master = MasterProblem(self._kinds.demand, self._bins, self._count)
        for column in columns:
            master.add(column)
        fill = self._counts @ np.array([item.area for item in self._kinds.item], dtype=np.float32)
        self._add(
            master,
            np.argsort(-fill / self._prices[self._bin_of].clip(1))[: self._parameters.pool_first_columns],
        )
        while (found := master.solve()) is not None:
            losses = self._losses(found)
            gaining = np.nonzero(losses < -1e-5 * self._prices.max())[0]
            if not self._add(
                master, gaining[np.argsort(losses[gaining])[: self._parameters.pool_added_at_once]]
            ):
                break
        if found is None or found.cost > self._goal + self._parameters.pool_slack * self._prices.max():
            return False
        near = np.nonzero(
            losses <= self._goal - found.cost + self._parameters.pool_slack * self._prices.max()
        )[0]
        near = near[np.argsort(losses[near])[: self._parameters.pool_columns]]
        self._add(master, near)
        self._teach(near)
        self._master = master
        return True

    def _teach(self, places: NDArray[np.int64]) -> None:
        """Let the searches learn the priced columns near the LP's optimum: their recall recombines patterns
        too."""
        for place in places.tolist():
            source = self._from[place]
            if isinstance(source, Column) and place not in self._taught:
                self._taught.add(place)
                (pattern,) = patterns_of_columns(self._instance, self._kinds, [source])
                for search in self._searches:
                    search.learn(pattern)

    def _look(self, priced: list[Column]) -> None:
        """Take in what was remembered and priced since the last time."""
        for place, search in enumerate(self._searches):
            first = self._seen[place]
            bins, counts = search.remembered_counts(first, self._kinds)
            self._seen[place] += len(bins)
            self._take([(search, first + n) for n in range(len(bins))], bins, counts)
        since = priced[self._priced :]
        self._priced = len(priced)
        if since:
            counts = np.array([column.counts for column in since])
            self._take(since, np.array([column.bin for column in since], dtype=np.int32), counts)

    def _take(
        self,
        source: Sequence[tuple[RuinRecreate, int] | Column],
        bins: NDArray[np.int32],
        counts: NDArray[np.integer[Any]],
    ) -> None:
        self._from += source
        self._bin_of = np.concatenate([self._bin_of, bins])
        self._counts = np.concatenate([self._counts, counts.astype(np.float32)])

    def _losses(self, found: Relaxation) -> NDArray[np.float64]:
        """The reduced cost of each pattern: its price less what its items are worth."""
        self._count(WorkKind.COMPARISON, self._counts.size)
        worth = self._counts @ found.duals.astype(np.float32)
        return (self._prices + found.stock)[self._bin_of] - worth

    def _add(self, master: MasterProblem, places: NDArray[np.int64]) -> bool:
        gained = False
        for place in places.tolist():
            column = Column(int(self._bin_of[place]), self._counts[place].astype(np.int64))
            self._place[column.key] = place
            gained |= master.add(column)
        return gained

    def dive(self, seed: int, enough: Callable[[], bool]) -> tuple[Pattern, ...] | None:
        """A plan for the goal, or None; always None if `join` left no room. Given up as soon as `enough` says
        so."""
        master = self._master
        self.hopeful = False
        if master is None:
            return None

        def within(_: Counts) -> bool:
            found = None if enough() else master.solve()
            return found is not None and found.cost <= self._goal + 1e-6

        for taken in self._diver.leaves(
            master, self._goal, np.random.default_rng(seed), within, self._parameters.pool_backtracks
        ):
            self.hopeful = True
            columns = [self._with_pattern(column) for column in taken]
            if (plan := self._diver.finish(columns, self._goal, seed)) is not None:
                return plan
        return None

    def _with_pattern(self, column: Column) -> Column:
        if column.tree or column.pattern:
            return column
        source = self._from[self._place[column.key]]
        if isinstance(source, Column):
            return source
        search, place = source
        return replace(column, pattern=search.remembered_pattern(place))
