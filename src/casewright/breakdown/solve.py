"""The one door in: `solve(problem)` gives a plan."""

from __future__ import annotations

from fractions import Fraction

from .emit import sheet_of
from .figures import figures_of, rank
from .grid import Grid, grid_of
from .layout import SheetLayout
from .plan import Plan, Status, Unplaced
from .problem import FirstCut, Problem
from .quick import strips
from .settings import split_groups


def solve(problem: Problem) -> Plan:
    """The best of the quick plans."""
    grid = grid_of(problem)
    wanted = [item.count for item in problem.items]
    ways = [True, False]
    if problem.pattern.first_cut is not FirstCut.ANY:
        ways = [problem.pattern.first_cut is FirstCut.ACROSS]
    plans = [plan_of(problem, grid, *strips(grid, wanted, across)) for across in ways]
    return min(plans, key=lambda plan: merit(problem, plan))


def merit(problem: Problem, plan: Plan) -> tuple[int | Fraction, ...]:
    """What plans are compared by: first that nothing is missing, then the goals in order."""
    missing = sum(entry.count for entry in plan.unplaced)
    return (missing, *rank(problem.goals, plan.figures))


def plan_of(problem: Problem, grid: Grid, layouts: list[SheetLayout], missing: list[int]) -> Plan:
    sheets = tuple(sheet_of(problem, grid, layout, number) for number, layout in enumerate(layouts, 1))
    figures = figures_of(problem, sheets)
    unplaced = tuple(
        Unplaced(item.name, count) for item, count in zip(problem.items, missing, strict=True) if count
    )
    bound, bound_sheets = _area_bound(problem)
    status = Status.OPEN
    if unplaced:
        status = Status.IMPOSSIBLE
    elif bound == figures.money:
        status = Status.OPTIMAL
    return Plan(sheets, bound, bound_sheets, status, figures, unplaced, split_groups(problem, sheets))


def _area_bound(problem: Problem) -> tuple[Fraction, int]:
    """Money and sheets below which the parts' bare area cannot be had."""
    area = sum((item.length * item.width * item.count for item in problem.items), Fraction(0))
    if area == 0 or not problem.bins:
        return Fraction(0), 0
    largest = max(bin_.area for bin_ in problem.bins)
    sheets = -(-area // largest)
    cheapest = min(bin_.cost for bin_ in problem.bins)
    return max(sheets * cheapest, Fraction(0)), int(sheets)
