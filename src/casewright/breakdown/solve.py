"""The one door in: `solve(problem, stop, seed)` gives a plan and what is proved about it.

The goals are met one after another. The engine first finds the least money for sheets; what it
found is then held, and `refine` looks for plans that are better in the later goals.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from ..errors import PlanError
from ..findings import Finding, refusals
from . import engine
from .bridge import Room, as_sheets, bridge, whole_sheets
from .engine import FirstOf, MaxIterations, Progress, Stop
from .faults import FITTING, faults
from .figures import figures_of, rank
from .freeze import sheet_of
from .grid import grid_of
from .layout import SheetLayout
from .plan import Plan, Status, Unplaced
from .problem import FirstCut, Goal, Problem
from .quick import strips
from .settings import split_groups

Report = Callable[[Plan], None]

MONEY_SHARE = 0.8
"""The share of the time that the search for cheaper sheets may take if it proves nothing."""

MOST_ALONE = 6
ALONE = 2_000
"""Iterations for one kind of sheet alone, when there are no more kinds than `MOST_ALONE`."""

DEFAULT_STOP = MaxIterations(20_000)


@dataclass(frozen=True)
class Proof:
    """The least money and the fewest sheets any plan of this kind needs."""

    money: Fraction
    sheets: int


@dataclass(frozen=True)
class LeaveTime:
    """Stops another stop's search early, so that `reserve` seconds are left."""

    stop: Stop
    reserve: float

    def __call__(self, progress: Progress) -> bool:
        left = self.stop.seconds_left()
        return self.stop(progress) or (left is not None and left <= self.reserve)

    def seconds_left(self) -> float | None:
        left = self.stop.seconds_left()
        return None if left is None else max(0.0, left - self.reserve)


def solve(
    problem: Problem,
    stop: Stop = DEFAULT_STOP,
    seed: int = 0,
    progress: Report | None = None,
    cores: int = 1,
) -> Plan:
    """The best plan found before `stop` ends the search.

    `progress` is called with every better plan; the first comes at once. With a stop by count of
    work, the same problem, seed and cores give the same plan. Parts that fit no sheet are left
    out and named in the plan's findings. Raises PlanError when the problem is malformed.
    """
    found = faults(problem)
    malformed = tuple(fault for fault in refusals(found) if fault.code not in FITTING)
    if malformed:
        raise PlanError(malformed)
    planner = _Planner(problem, found, progress)
    planner.quickly()
    planner.sheets(_leave_time(stop), seed, cores)
    return planner.best


def _leave_time(stop: Stop) -> Stop:
    left = stop.seconds_left()
    return stop if left is None else LeaveTime(stop, left * (1 - MONEY_SHARE))


class _Planner:
    """The best plan so far while the goals are met one after another."""

    def __init__(self, problem: Problem, found: tuple[Finding, ...], progress: Report | None) -> None:
        self.problem = problem
        self.found = found
        self.grid = grid_of(problem)
        self.wanted = [item.count for item in problem.items]
        self.progress = progress
        self.proof = Proof(Fraction(0), 0)
        self.best: Plan

    def quickly(self) -> None:
        """A first plan, in strips."""
        first = self.problem.pattern.first_cut
        ways = [True, False] if first is FirstCut.ANY else [first is FirstCut.ACROSS]
        plans = [self.plan(*strips(self.grid, self.wanted, across)) for across in ways]
        self.best = min(plans, key=self.merit)
        if self.progress:
            self.progress(self.best)

    def sheets(self, stop: Stop, seed: int, cores: int) -> None:
        """The least money for sheets, and its proof."""
        rooms = whole_sheets(self.grid)
        if 1 < len(rooms) <= MOST_ALONE:
            # A mix can lead the search past a plan of one kind of sheet that is cheaper.
            for room in rooms:
                self.fill([room], FirstOf((stop, MaxIterations(ALONE))), seed, cores)
        self.fill(rooms, stop, seed, cores)

    def fill(self, rooms: Sequence[Room], stop: Stop, seed: int, cores: int) -> None:
        """Offer what the engine makes of these rooms, and take its bound if they are all there are."""
        model = bridge(self.grid, self.wanted, rooms, self.problem.pattern)
        proves = model.exact and len(rooms) == len(self.grid.bins)

        def take(solution: engine.Solution) -> None:
            if proves:
                self.prove(Proof(solution.bound.cost * model.money, solution.bound.bins))
            filled = model.filled(solution)
            self.offer(as_sheets(rooms, filled), list(filled.missing))

        take(engine.solve(model.instance, stop, seed, take, cores))

    def prove(self, bound: Proof) -> None:
        self.proof = Proof(max(self.proof.money, bound.money), max(self.proof.sheets, bound.sheets))
        self.best = self.proved(self.best)

    def offer(self, layouts: list[SheetLayout], missing: list[int]) -> None:
        """Take these layouts if they make a better plan."""
        plan = self.plan(layouts, missing)
        if self.merit(plan) < self.merit(self.best):
            self.best = plan
            if self.progress:
                self.progress(plan)

    def merit(self, plan: Plan) -> tuple[int | Fraction, ...]:
        """What plans are compared by: first that nothing is missing, then the goals in order."""
        missing = sum(entry.count for entry in plan.unplaced)
        return (missing, *rank(self.problem.goals, plan.figures))

    def plan(self, layouts: list[SheetLayout], missing: list[int]) -> Plan:
        problem = self.problem
        sheets = tuple(sheet_of(problem, self.grid, layout, n) for n, layout in enumerate(layouts, 1))
        figures = figures_of(problem, sheets)
        unplaced = tuple(
            Unplaced(item.name, count) for item, count in zip(problem.items, missing, strict=True) if count
        )
        findings = self.found + split_groups(problem, sheets)
        return self.proved(Plan(sheets, Fraction(0), 0, Status.OPEN, figures, unplaced, findings))

    def proved(self, plan: Plan) -> Plan:
        """The plan with what is proved by now."""
        status = Status.OPEN
        if plan.unplaced:
            status = Status.IMPOSSIBLE
        elif self.problem.goals[0] is Goal.SHEET_MONEY and self.proof.money == plan.figures.money:
            status = Status.OPTIMAL
        return replace(plan, bound=self.proof.money, bound_sheets=self.proof.sheets, status=status)
