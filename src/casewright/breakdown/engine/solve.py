"""The one door of the engine."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack
from dataclasses import replace

from .bounds import fits, quick_bound
from .model import Bound, Instance, Pattern, Solution
from .search import Search
from .stop import Progress, Stop

WORK_PER_STRETCH = 400_000
"""Iterations times items between two looks at the stop criterion: some tens of milliseconds."""

Report = Callable[[Solution], None]


def solve(
    instance: Instance, stop: Stop, seed: int = 0, report: Report | None = None, cores: int = 1
) -> Solution:
    """The cheapest plan found, with a proved bound on its cost.

    Ends when `stop` says so or when the cost meets the bound. `report` is called with each better
    answer. With a stop by count of work, the same seed and the same number of cores give the same plan.
    Items that fit no bin are left out and named in `misfits`; the bound is for the others.
    """
    misfits = tuple(
        number
        for number, item in enumerate(instance.items)
        if item.count and not any(fits(item.length, item.width, item.may_turn, b) for b in instance.bins)
    )
    fitting = tuple(
        replace(item, count=0) if number in misfits else item for number, item in enumerate(instance.items)
    )
    reduced = replace(instance, items=fitting)
    bound = quick_bound(reduced)
    if not reduced.copies:
        return _answer(instance, (), bound, misfits, 0)

    solution: Solution | None = None
    done = since_better = 0
    stretch = max(16, WORK_PER_STRETCH // (reduced.copies + 50))
    with ExitStack() as stack:
        searches = [stack.enter_context(Search(reduced, seed * 1_000_003 + c)) for c in range(cores)]
        pool = stack.enter_context(ThreadPoolExecutor(cores))
        while True:
            # The first plan costs one iteration: nothing is waited for before it.
            amount = stretch if solution or done else 1
            outcomes = list(pool.map(Search.run, searches, [amount] * cores))
            done += max(used for _, used in outcomes)
            since_better += amount
            found = [s.plan() for s, (success, _) in zip(searches, outcomes, strict=True) if success]
            if found:
                since_better = 0
                best = min(found, key=lambda patterns: _cost(instance, patterns))
                solution = _answer(instance, best, bound, misfits, done)
                if report:
                    report(solution)
                if solution.cost <= bound.cost:
                    return solution
                for search in searches:
                    search.goal(solution.cost - 1)
            if stop(Progress(done, since_better, solution.cost if solution else None, bound.cost)):
                break
        if solution:
            return replace(solution, iterations=done)
        fullest = min(searches, key=lambda search: search.out_area())
        return _answer(instance, fullest.state(), bound, misfits, done)


def _cost(instance: Instance, patterns: tuple[Pattern, ...]) -> int:
    return sum(instance.bins[pattern.bin].price for pattern in patterns)


def _answer(
    instance: Instance,
    patterns: tuple[Pattern, ...],
    bound: Bound,
    misfits: tuple[int, ...],
    iterations: int,
) -> Solution:
    unplaced = [item.count for item in instance.items]
    for pattern in patterns:
        for piece in pattern.pieces():
            unplaced[piece.item] -= 1
    return Solution(patterns, _cost(instance, patterns), bound, tuple(unplaced), misfits, iterations)
