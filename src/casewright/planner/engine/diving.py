"""Diving: round the master's columns up one after another, price new ones for what is left, let the search
finish.

The LP knows which patterns go together, but its last few bins are always fractional and rounding them is
guesswork. The search is good at few bins and lost among many. So the LP decides most of the plan and the
search the rest.

F. Clautiaux, R. Sadykov, F. Vanderbeck, Q. Viaud: Pattern-based diving heuristics for a two-dimensional
guillotine cutting-stock problem with leftovers. EURO Journal on Computational Optimization 7 (2019).
R. Sadykov, F. Vanderbeck, A. Pessoa, I. Tahiri, E. Uchoa: Primal heuristics for branch and price: the assets
of diving methods. INFORMS Journal on Computing 31 (2019).
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

import numpy as np

from ..parameters import DEFAULT_PARAMETERS, SearchParameters, WorkKind
from .column_generation import ColumnGeneration
from .columns import Column, Counts, ItemKinds, patterns_of_columns
from .instance import Instance, Pattern
from .master_problem import MasterProblem
from .ruin_recreate import RuinRecreate
from .work_count import Count, uncounted


@dataclass(frozen=True, slots=True)
class Diver:
    """Dives for one instance; each dive draws its roundings from its own seed."""

    instance: Instance
    kinds: ItemKinds
    parameters: SearchParameters = DEFAULT_PARAMETERS
    count: Count = uncounted

    def dive(
        self, bounding: ColumnGeneration, target: int, seed: int, enough: Callable[[], bool]
    ) -> tuple[Pattern, ...] | None:
        """A plan of `target` at most, or None; given up as soon as `enough` says so.

        The columns of the bounding are good for whole plans; for the remainder after some roundings new ones
        are priced.
        """
        master = MasterProblem(self.kinds.demand, self.instance.bins, self.count)
        for column in bounding.master.columns:
            master.add(column)

        pricings = iter(range(self.parameters.dive_pricings_in_all // len(self.instance.bins)))

        def within(left: Counts) -> bool:
            return not enough() and self._price(bounding, master, left, target, pricings)

        for taken in self.leaves(
            master, target, np.random.default_rng(seed), within, self.parameters.dive_backtracks
        ):
            if (plan := self.finish(taken, target, seed)) is not None:
                return plan
        return None

    def leaves(
        self,
        master: MasterProblem,
        target: int,
        draw: np.random.Generator,
        within: Callable[[Counts], bool],
        backs: int,
    ) -> Iterator[list[Column]]:
        """Yields sets of columns rounded up until only a share of the cost is still fractional.

        `within` gets the demand that is left, solves the master again and says whether the target can still
        be reached. If it cannot, or if the caller could not finish a set and asks for another, the dive
        backtracks: the last rounding is undone, one of its columns is fixed where it was, and another way is
        tried, `backs` times in all. So one dive is a narrow tree search rather than a single path: a step
        back costs less than a new dive down to the same depth. The master's bounds are released at the end.
        """
        times: dict[int, int] = {}
        steps: list[dict[int, int]] = []
        # Where the search takes over is drawn: some remainders are easier with one bin more, some with one
        # less.
        share = self.parameters.dive_left_to_search * draw.uniform(0.6, 1.4)
        while True:
            taken = [master.columns[place] for place, number in times.items() for _ in range(number)]
            rounded: dict[int, int] = {}
            if self._cost(taken) >= (1 - share) * target:
                yield taken
            elif within(self._left(taken)):
                rounded = self._rounded(master, times, draw)
            if rounded:
                steps.append(rounded)
                for place, more in rounded.items():
                    times[place] = times.get(place, 0) + more
                    master.at_least(place, times[place])
            elif steps and backs:
                backs -= 1
                last = steps.pop()
                for place, more in last.items():
                    times[place] -= more
                    master.at_least(place, times[place])
                doubtful = int(draw.choice(list(last)))
                master.exactly(doubtful, times[doubtful])
            else:
                master.release(times)
                return

    def _cost(self, taken: list[Column]) -> int:
        return sum(self.instance.bins[column.bin].price for column in taken)

    def _left(self, taken: list[Column]) -> Counts:
        left = self.kinds.demand
        for column in taken:
            left = np.maximum(left - column.counts, 0)
        return left

    def _price(
        self,
        bounding: ColumnGeneration,
        master: MasterProblem,
        left: Counts,
        target: int,
        pricings: Iterator[int],
    ) -> bool:
        """Whether the LP still reaches the target, after a few rounds of pricing."""
        for _ in itertools.islice(pricings, self.parameters.dive_pricings):
            found = master.solve()
            if found is None:
                return False
            if not bounding.columns_for(found, left, master):
                return found.cost <= target + 1e-6
        found = master.solve()
        return found is not None and found.cost <= target + 1e-6

    def _rounded(
        self, master: MasterProblem, times: dict[int, int], draw: np.random.Generator
    ) -> dict[int, int]:
        """The columns to round up: all that are nearly whole, else one drawn.

        The draw favours large fractions strongly (their cube), yet lets others in, so that dives differ.
        """
        rest = master.values()
        for place, already in times.items():
            rest[place] -= already
        more = np.floor(rest + 1 - self.parameters.dive_sure).astype(int)
        if not more.any():
            fractional = np.nonzero(rest > 1e-6)[0]
            if not len(fractional):
                return {}
            weights = rest[fractional] ** 3
            more[draw.choice(fractional, p=weights / weights.sum())] = 1
        return {int(place): int(more[place]) for place in np.nonzero(more > 0)[0]}

    def finish(self, taken: list[Column], target: int, seed: int) -> tuple[Pattern, ...] | None:
        """A plan of the columns taken, with new bins by the search for what they leave, for `target` at
        most."""
        money = target - self._cost(taken)
        start = patterns_of_columns(self.instance, self.kinds, taken)
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
        with RuinRecreate(rest, seed) as search:
            search.goal(money)
            found, _ = search.run(self.parameters.dive_search_work // (rest.copies + 50))
            self.count(WorkKind.SEARCH, search.worked)
            return start + search.plan() if found else None
