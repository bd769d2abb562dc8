"""`solve(problem, stop, seed)` returns a plan and what is proved about it.

The goals are met one after another, never as a weighted sum. The first phase looks for the least money for
sheets; the second keeps to that money and improves the plan in the later goals.
"""

from __future__ import annotations

from collections.abc import Sequence

from ..errors import LibraryError, PlanError
from ..findings import refusals
from .best_plan import BestPlan, Report
from .engine import MaxIterations, Stop
from .first_phase.fewest_sheets import StopEarly, fewest_sheets, first_plan
from .layout.plan_layout import kept_layouts
from .parameters import DEFAULT_PARAMETERS, SearchParameters
from .plan import Plan
from .plan_wording import search_stopped, time_ceiling
from .problem import Problem
from .problem_faults import FITTING, faults
from .second_phase.refine import refine

DEFAULT_STOP = MaxIterations(20_000)


def solve(
    problem: Problem,
    stop: Stop = DEFAULT_STOP,
    seed: int = 0,
    progress: Report | None = None,
    cores: int = 1,
    parameters: SearchParameters = DEFAULT_PARAMETERS,
    starts: Sequence[Plan] = (),
) -> Plan:
    """The best plan found before `stop` ends the search.

    It is no worse than any of `starts`, plans of this problem or of one like it, as far as their parts are
    still asked for and still fit where they are.

    `progress` is called with every better plan; the first comes at once. With a stop that counts work
    (`AboutSeconds`, `MaxIterations`) the same problem, seed and number of cores give the same plan. Parts
    that fit no sheet are left out and named in the plan's findings. `parameters` tune the search.

    Raises PlanError when the problem is malformed. Should the solver or the kernel fail on the way, the best
    plan so far is returned, with a finding that says so.
    """
    best = _begun(problem, progress, parameters, stop)
    left = stop.seconds_left()
    kept = 0.0 if left is None else min(parameters.later_seconds, left * parameters.later_time_share)
    try:
        fewest_sheets(best, StopEarly(stop, kept), seed, cores)
        if starts:
            # Begun from nothing first: held to the start's own merits, the search would not see a plan of
            # fewer sheets that is over a limit until it has been recut.
            refine(best, StopEarly(stop, kept / 2), seed)
            best = _best_of(best, starts, stop)
        refine(best, stop, seed)
    except LibraryError as fault:
        best.found += (search_stopped(fault),)
    if stop.late:
        best.found += (time_ceiling(),)
    return best.plan()


def solve_whole(problem: Problem, stop: Stop, seed: int = 0) -> Plan | None:
    """The plan of `solve` if it has a place for every part. If not, None, as soon as that is known: a plan
    that leaves parts out is not improved."""
    best = _begun(problem, None, DEFAULT_PARAMETERS, stop)
    try:
        fewest_sheets(best, stop, seed, cores=1)
        if any(best.missing):
            return None
        refine(best, stop, seed)
    except LibraryError as fault:
        best.found += (search_stopped(fault),)
    return None if any(best.missing) else best.plan()


def _begun(problem: Problem, progress: Report | None, parameters: SearchParameters, stop: Stop) -> BestPlan:
    """A first plan, to be improved; PlanError when the problem is malformed."""
    found = faults(problem)
    malformed = tuple(fault for fault in refusals(found) if fault.code not in FITTING)
    if malformed:
        raise PlanError(malformed)
    best = BestPlan(problem, found, progress, parameters, stop.count)
    first_plan(best)
    return best


def _best_of(best: BestPlan, starts: Sequence[Plan], stop: Stop) -> BestPlan:
    """The best plan, or the best of `starts` where that is better; what is proved holds for either."""
    for start in starts:
        other = BestPlan(best.asked, best.found, best.progress, best.parameters, stop.count)
        other.prove(best.proof)
        carried = kept_layouts(best.problem, other.grid, start)
        other.offer_ready(list(carried.layouts), list(carried.missing))
        if other.merit < best.merit:
            best = other
    return best
