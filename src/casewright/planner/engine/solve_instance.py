"""Search and bounding in turn, until the plan is proved or the caller says stop.

One round: a stretch of the search (in threads, one for each core), then perhaps a step of the bounding, then
perhaps a dive or a cover from its columns. Most plans are found and proved within the first rounds, so those
are kept cheap. A search that has found nothing for long is *stuck*: the pattern pool then takes turns with
it, and the bounding gets the more time the less hope there is of a better plan.
"""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack
from dataclasses import replace

from ..parameters import DEFAULT_PARAMETERS, SearchParameters, WorkKind
from .column_generation import ColumnGeneration, GenerationStage
from .columns import Column, column_of_pattern, item_kinds, patterns_of_columns
from .diving import Diver
from .instance import Bound, Instance, Pattern, Solution
from .pattern_pool import PatternPool
from .price_sums import PriceSums, fewest_at, price_sums
from .quick_bounds import item_fits, quick_bound
from .ruin_recreate import RuinRecreate
from .set_cover import cheapest_cover
from .stop_rules import Progress, Stop
from .work_count import Count

Report = Callable[[Solution], None]


def solve_instance(
    instance: Instance,
    stop: Stop,
    seed: int = 0,
    report: Report | None = None,
    cores: int = 1,
    parameters: SearchParameters = DEFAULT_PARAMETERS,
) -> Solution:
    """The cheapest plan found, with a proved bound on its cost.

    Ends when `stop` says so or when the cost meets the bound. `report` is called with each better answer.
    With a stop that counts work, the same seed and number of cores give the same plan. Items that fit no bin
    are left out and named in `misfits`; the bound is for the others.
    """
    misfits = tuple(
        number
        for number, item in enumerate(instance.items)
        if item.count and not any(item_fits(item.length, item.width, item.may_turn, b) for b in instance.bins)
    )
    fitting = tuple(
        replace(item, count=0) if number in misfits else item for number, item in enumerate(instance.items)
    )
    reduced = replace(instance, items=fitting)
    if not reduced.copies:
        return Solution((), 0, quick_bound(reduced), tuple(i.count for i in instance.items), misfits, 0)
    with ExitStack() as stack:
        run = _Run(instance, reduced, misfits, seed, cores, report, stack, parameters, stop.count)
        return run.until(stop)


class _Run:
    """The state of one call of `solve_instance`: searches, bounding, the best plan and the bound."""

    def __init__(
        self,
        instance: Instance,
        reduced: Instance,
        misfits: tuple[int, ...],
        seed: int,
        cores: int,
        report: Report | None,
        stack: ExitStack,
        parameters: SearchParameters,
        count: Count,
    ) -> None:
        self._parameters = parameters
        self._count = count
        count(WorkKind.INSTANCE, 1)
        self._efforts = parameters.cover_efforts
        self._instance = instance
        self._reduced = reduced
        self._misfits = misfits
        self._report = report
        self._searches = [
            stack.enter_context(RuinRecreate(reduced, seed * 1_000_003 + c)) for c in range(cores)
        ]
        self._threads = stack.enter_context(ThreadPoolExecutor(cores))
        self._kinds = item_kinds(reduced)
        self._diver = Diver(reduced, self._kinds, parameters, count)
        self._seed = seed
        self._bound = quick_bound(reduced)
        self._bounding: ColumnGeneration | None = None
        self._best: Solution | None = None
        self._sums: PriceSums | None = None
        """Listed once a plan tells how far."""
        self._iterations = self._since_better = self._rounds = 0
        self._dives = 0
        self._covers = 0
        self._pool = PatternPool(self._searches, reduced, self._kinds, parameters, count)
        self._stuck = self._slow = False
        self._stuck_for = 0
        self._pace(slow=False)

    def until(self, stop: Stop) -> Solution:
        stretch = max(16, self._parameters.stretch_work // (self._reduced.copies + 50))
        self._search(1)  # one iteration makes a plan: a caller who stops at once still gets it
        while not self._done() and not stop(self._progress()):
            self._search(self._parameters.stuck_search_factor * stretch if self._gathers() else stretch)
            self._rounds += 1
            self._stuck = self._since_better >= self._parameters.stuck_after * stretch
            if self._stuck and not self._done():
                self._when_stuck(stretch, stop)
            if self._may_bound(stretch) and not self._done() and not stop(self._progress()):
                self._raise_bound(stop)
            if self._instance.stages is None and not self._done():  # the columns know no stages
                self._use_columns(stop)
        if self._best:
            return replace(self._best, iterations=self._iterations)
        fullest = min(self._searches, key=lambda search: search.out_area())
        return self._answer(fullest.state())

    def _progress(self) -> Progress:
        cost = self._best.cost if self._best else None
        return Progress(self._iterations, cost, self._bound.cost)

    def _enough(self, stop: Stop) -> Callable[[], bool]:
        """Whether to stop, as a callable for work that takes long."""
        return lambda: stop(self._progress())

    def _done(self) -> bool:
        return self._best is not None and self._best.cost <= self._bound.cost

    def _may_bound(self, stretch: int) -> bool:
        """Whether this round has a step of the bounding: every round at first, fewer as they get dearer or
        less likely to prove anything."""
        between, given = 1, self._parameters
        if self._stuck:
            dearest = max(bin_.price for bin_ in self._reduced.bins)
            doubtful = len(self._reduced.bins) == 1 and not self._pool.hopeful
            between = given.bound_interval_doubtful if doubtful else given.bound_interval
            if self._few_bins():
                between = given.bound_interval_few_bins
            if self._room_by() > given.hopeless_gap * dearest:
                between = given.bound_interval_hopeless
        elif self._bounding is not None and self._bounding.stage is GenerationStage.EXACT:
            between = len(self._reduced.bins)  # a step prices patterns of each
        return self._iterations >= given.search_only_stretches * stretch and self._rounds % between == 0

    def _few_bins(self) -> bool:
        return self._best is not None and len(self._best.patterns) <= self._parameters.few_bins

    def _gathers(self) -> bool:
        """Whether this round is for gathering patterns: while the search is stuck, except in rounds that
        dive."""
        return self._stuck and (
            self._few_bins() or self._stuck_for % self._parameters.pool_turn >= self._parameters.pool_dives
        )

    def _room_by(self) -> float:
        """How far the LP over the columns lies below the next better cost: without room there, no columns at
        hand can make a better plan."""
        bounding, best = self._bounding, self._best
        if bounding is None or bounding.relaxation is None or best is None:
            return 0.0
        return self._target(best) + 1e-6 - bounding.relaxation.cost

    def _search(self, amount: int) -> None:
        outcomes = list(self._threads.map(RuinRecreate.run, self._searches, [amount] * len(self._searches)))
        self._iterations += max(used for _, used in outcomes)
        self._count(WorkKind.SEARCH, max(search.worked for search in self._searches))
        self._since_better += amount
        found = [s.plan() for s, (success, _) in zip(self._searches, outcomes, strict=True) if success]
        if found:
            self._accept(min(found, key=self._cost))

    def _when_stuck(self, stretch: int, stop: Stop) -> None:
        """Slow the search down once it has come to rest, at once if bins are few; give the pool its turns."""
        if self._best is None:
            return
        few = self._few_bins()
        if not self._slow and (few or self._since_better >= self._parameters.slow_after * stretch):
            self._pace(slow=True)
        phase = self._stuck_for % self._parameters.pool_turn
        self._stuck_for += 1
        if not few:
            self._use_pool(phase, self._best, stop)

    def _use_pool(self, phase: int, best: Solution, stop: Stop) -> None:
        """In the first rounds of a turn, dive into the pool; the others are left to the search, which fills
        it."""
        if phase >= self._parameters.pool_dives:
            return
        if phase == 0:
            self._pool.join(self._columns(best), self._priced())
        plan = self._pool.dive(self._seed + self._rounds, self._enough(stop))
        if not self._pool.hopeful:  # the next dives would fail too: go on gathering patterns
            self._stuck_for += self._parameters.pool_dives - 1 - phase
        if plan is not None:
            self._accept(plan)

    def _priced(self) -> list[Column]:
        if self._bounding is None or self._instance.stages is not None:  # the columns know no stages
            return []
        return self._bounding.master.columns

    def _raise_bound(self, stop: Stop) -> None:
        if self._best is None:
            return
        if self._bounding is None:
            self._bounding = ColumnGeneration(self._reduced, self._kinds, self._parameters, self._count)
            self._bounding.learn(self._columns(self._best))
        stage = self._bounding.stage
        steps = 1
        if stage is not GenerationStage.EXACT:
            quick = self._parameters.relaxed_steps // len(self._reduced.bins)
            steps = max(1, min(quick, self._parameters.relaxed_work // self._bounding.work))
        for _ in range(steps):
            if stage is GenerationStage.DONE or self._bounding.stage is not stage or self._done():
                return
            self._step(self._bounding, self._target(self._best), stop.seconds_left())

    def _use_columns(self, stop: Stop) -> None:
        """Look for a plan, or a proof that there is none, in the columns, while their LP leaves room."""
        bounding, best = self._bounding, self._best
        if bounding is None or best is None or self._room_by() <= 0:
            return
        done = bounding.stage is GenerationStage.DONE
        if done and not self._covers:
            self._cover(bounding, stop)
            return
        between = self._parameters.stretches_per_dive * len(self._reduced.bins)
        if self._stuck_for % self._parameters.pool_turn if self._stuck else self._rounds % between:
            return
        self._dives += 1
        plan = self._diver.dive(bounding, self._target(best), self._seed + self._rounds, self._enough(stop))
        if plan is not None:
            self._accept(plan)
        elif done and self._covers < len(self._efforts) and self._may_cover():
            self._cover(bounding, stop)

    def _may_cover(self) -> bool:
        """Whether a full enumeration is due: with many kinds it takes seconds, so the pool has its turns
        first."""
        if self._reduced.copies <= self._parameters.few_kinds:
            return True
        few = len(self._kinds.item) <= self._parameters.few_kinds
        if few:
            return self._dives >= self._parameters.dives_before_enumeration
        return self._stuck_for > self._parameters.turns_before_enumeration * self._parameters.pool_turn

    def _step(self, bounding: ColumnGeneration, target: int, seconds: float | None) -> None:
        by = bounding.stage.value
        bounding.step(target, seconds)
        if bounding.cost > self._bound.cost:
            self._raise_to(bounding.cost, f"column generation, {by}")

    def _target(self, best: Solution) -> int:
        """The most that a better plan may cost."""
        assert self._sums is not None
        return self._sums.below(best.cost)

    def _raise_to(self, cost: int, by: str) -> None:
        """Take a bound, raised to the next cost that bins can come to."""
        if self._sums is not None:
            cost = self._sums.at_least(cost)
        self._bound = Bound(cost, max(self._bound.bins, fewest_at(self._reduced, cost)), by)
        if self._best:
            self._best = replace(self._best, bound=self._bound)

    def _cover(self, bounding: ColumnGeneration, stop: Stop) -> None:
        """Enumerate the patterns that a cheaper plan can use, and cover the demand with them, if they are few
        enough."""
        assert self._best is not None
        effort = self._efforts[self._covers]
        left = stop.seconds_left()
        seconds = None if left is None else self._parameters.cover_time_share * left
        choice = cheapest_cover(
            bounding,
            self._reduced.bins,
            self._kinds.demand,
            self._target(self._best),
            effort,
            seconds,
            self._parameters,
            self._count,
        )
        if choice is None:
            self._covers = len(self._efforts) if self._covers else 1  # more kinds make more patterns
            return
        self._covers = len(self._efforts) if effort.worthless else len(self._efforts) - 1
        if choice.columns is not None:
            self._accept(patterns_of_columns(self._reduced, self._kinds, choice.columns))
        elif choice.impossible:
            self._raise_to(self._best.cost, "all patterns enumerated")

    def _accept(self, patterns: tuple[Pattern, ...]) -> None:
        if self._best is not None and self._cost(patterns) >= self._best.cost:
            return
        self._since_better = self._dives = self._stuck_for = 0
        self._covers = 0
        if self._sums is None:
            self._sums = price_sums(self._reduced, self._bound.bins, self._cost(patterns))
            self._raise_to(self._bound.cost, self._bound.by)
        self._best = self._answer(patterns)
        if self._bounding:
            self._bounding.learn(self._columns(self._best))
        if self._report:
            self._report(self._best)
        for search in self._searches:
            search.goal(self._best.cost - 1)
        if not self._few_bins():
            self._pool.aim(self._best.cost - 1)
        if self._slow:
            self._pace(slow=False)

    def _pace(self, slow: bool) -> None:
        self._slow = slow
        for search in self._searches:
            if slow:
                search.pace(self._parameters.slow_history, self._parameters.slow_patience)
            else:
                search.pace(self._parameters.quick_history)

    def _columns(self, solution: Solution) -> list[Column]:
        return [column_of_pattern(self._kinds, pattern) for pattern in solution.patterns]

    def _cost(self, patterns: tuple[Pattern, ...]) -> int:
        return sum(self._instance.bins[pattern.bin].price for pattern in patterns)

    def _answer(self, patterns: tuple[Pattern, ...]) -> Solution:
        unplaced = [item.count for item in self._instance.items]
        for pattern in patterns:
            for piece in pattern.pieces():
                unplaced[piece.item] -= 1
        cost = self._cost(patterns)
        return Solution(patterns, cost, self._bound, tuple(unplaced), self._misfits, self._iterations)
