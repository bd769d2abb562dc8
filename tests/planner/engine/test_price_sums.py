"""The costs that choices of bins come to, against every choice; and plans proved by them alone."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.planner.engine import (
    Instance,
    LargeObject,
    MaxIterations,
    SmallItem,
    solve_instance,
)
from casewright.planner.engine.price_sums import PriceSums, fewest_at, price_sums
from casewright.planner.plan import PlanStatus
from casewright.planner.problem import Bin, Item, Problem
from casewright.planner.solve import solve

from .strategies import bins

FEW_ITEMS = st.lists(
    st.builds(SmallItem, st.integers(1, 20), st.integers(1, 20), st.integers(1, 2)), min_size=1, max_size=3
).map(tuple)


def every_choice(instance: Instance, fewest: int, most: int) -> list[int]:
    """The same by trying every choice of bins: of each cost the largest area and the largest number."""
    stocks = [
        instance.copies if bin_.count is None else min(bin_.count, instance.copies) for bin_ in instance.bins
    ]
    areas: dict[int, int] = {}
    numbers: dict[int, int] = {}
    for choice in product(*(range(stock + 1) for stock in stocks)):
        taken = list(zip(choice, instance.bins, strict=True))
        cost = sum(number * bin_.price for number, bin_ in taken)
        areas[cost] = max(areas.get(cost, 0), sum(number * bin_.area for number, bin_ in taken))
        numbers[cost] = max(numbers.get(cost, 0), sum(choice))
    needed = sum(item.area * item.count for item in instance.items)
    return sorted(c for c in areas if c <= most and areas[c] >= needed and numbers[c] >= fewest)


@given(FEW_ITEMS, bins(30), st.integers(0, 4), st.integers(0, 200))
@settings(max_examples=200, deadline=None)
def test_the_sums_are_those_of_every_choice(
    items: tuple[SmallItem, ...], large: tuple[LargeObject, ...], fewest: int, most: int
) -> None:
    instance = Instance(items, large)
    sums = price_sums(instance, fewest, most)
    expected = every_choice(instance, fewest, most)
    assert sums.costs is not None and sums.costs.tolist() == expected
    for cost in range(most + 1):
        assert sums.at_least(cost) == min((one for one in expected if one >= cost), default=cost)
        if any(one < cost for one in expected):
            assert sums.below(cost) == max(one for one in expected if one < cost)


@given(bins(30), st.integers(0, 120))
@settings(max_examples=200, deadline=None)
def test_no_fewer_bins_come_to_that_cost(large: tuple[LargeObject, ...], cost: int) -> None:
    instance = Instance((SmallItem(1, 1, 1),), large)
    stocks = [5 if bin_.count is None else bin_.count for bin_ in large]
    choices = [
        sum(choice)
        for choice in product(*(range(stock + 1) for stock in stocks))
        if sum(number * bin_.price for number, bin_ in zip(choice, large, strict=True)) >= cost
    ]
    endless = any(bin_.count is None and 5 * bin_.price < cost for bin_ in large)  # more than five may do
    if choices and not endless:
        assert fewest_at(instance, cost) == min(choices)


@given(st.builds(Instance, FEW_ITEMS, bins(30)), st.integers(0, 3))
@settings(max_examples=60, deadline=None)
def test_what_a_plan_costs_is_among_them(instance: Instance, seed: int) -> None:
    solution = solve_instance(instance, MaxIterations(300), seed)
    if solution.complete:
        sums = price_sums(instance, solution.bound.bins, solution.cost)
        assert sums.costs is not None and sums.costs[-1] == solution.cost
        assert solution.bound.cost <= solution.cost


def test_too_many_sums_are_not_listed() -> None:
    large = tuple(LargeObject(50, 50 + n, None, 10**6 + 1009 * n * n + n) for n in range(12))
    instance = Instance((SmallItem(40, 40, 200),), large)
    sums = price_sums(instance, 1, 10**9)
    assert sums.costs is None and sums.at_least(77) == 77 and sums.below(77) == 77 - sums.grain


def test_without_a_cheaper_choice_the_common_divisor_tells() -> None:
    assert PriceSums(None, 5).below(100) == 95


SHEET = Bin("whole", F(96), F(48), price=F(85))
RACK = (
    Bin("board", F(60), F(30), count=1, price=F("20.5"), offcut=True),
    Bin("end", F(40), F(36), count=1, price=F("9.75"), offcut=True),
)
PARTS = (Item("side", F(42), F(22), 3), Item("rail", F(53), F(10), 2), Item("shelf", F(35), F(20)))


def test_no_saving_is_promised_where_no_choice_of_sheets_is_cheaper() -> None:
    """A sheet and the end come to 94.75. Fractions of sheets would do for 54.25, but the only cheaper choice
    with room for the parts' area is a sheet alone, and its patterns are few enough to rule that out."""
    plan = solve(Problem(PARTS, (SHEET, *RACK)), MaxIterations(2000))
    assert plan.figures.money == F("94.75") and plan.status is PlanStatus.OPTIMAL
    assert "no plan of this kind" in plan.statement() and plan.gap == 0


def test_what_might_be_saved_is_money_where_kinds_of_sheet_are_mixed() -> None:
    plan = solve(Problem(PARTS, (SHEET, *RACK)), MaxIterations(2000))
    doubtful = replace(plan, status=PlanStatus.OPEN, bound=F(85), bound_sheets=1)
    assert doubtful.statement() == "2 sheets; at most 9.75 might still be saved on sheets."
    alike = tuple(replace(sheet, bin="whole") for sheet in plan.sheets)
    assert "up to 1 might be saved" in replace(doubtful, sheets=alike).statement()
    assert "spends less" in replace(doubtful, bound=plan.figures.money).statement()
