"""Bounds are never above what is possible, and the searches reach what is."""

from __future__ import annotations

import numpy as np
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from casewright.breakdown.engine import Bin, Instance, Item, MaxIterations, solve
from casewright.breakdown.engine.bounding import Bounding, Stage
from casewright.breakdown.engine.bounds import dual_feasible_table, quick_bound
from casewright.breakdown.engine.columns import column_of_pattern, kinds_of, lay_out
from casewright.breakdown.engine.pricing import ENUMERATION, LARGEST_WHOLE, Pricer, whole_worths

from .checker import check
from .exhaustive import Exhaustive


@st.composite
def tiny(draw: st.DrawFn) -> Instance:
    """Up to six copies in bins up to 12 by 12; every item fits."""
    box = Bin(draw(st.integers(4, 12)), draw(st.integers(4, 12)))
    items = []
    left = draw(st.integers(1, 6))
    while left:
        count = draw(st.integers(1, left))
        size = draw(st.integers(1, box.length)), draw(st.integers(1, box.width))
        items.append(Item(*size, count, draw(st.booleans())))
        left -= count
    return Instance(tuple(items), (box,))


@given(tiny())
@settings(max_examples=150, deadline=None)
def test_bound_and_plan_enclose_the_optimum(instance: Instance) -> None:
    least = Exhaustive(instance).bins()
    assert quick_bound(instance).cost <= least
    solution = solve(instance, MaxIterations(60_000), seed=1)
    check(instance, solution)
    assert solution.bound.cost <= least <= solution.cost
    assert solution.optimal, f"{solution.cost} sheets, bound {solution.bound}, optimum {least}"


@given(st.lists(st.integers(1, 60), min_size=1, max_size=12), st.integers(2, 60))
@settings(max_examples=200, deadline=None)
def test_the_functions_are_dual_feasible(sides: list[int], capacity: int) -> None:
    fitting: list[int] = []
    for side in sides:
        if sum(fitting) + side <= capacity:
            fitting.append(side)
    assume(fitting)
    table = dual_feasible_table(np.array(fitting), capacity)
    assert (table.sum(axis=1) <= 1 + 1e-9).all()
    assert (table >= 0).all()


@given(tiny(), st.lists(st.integers(0, 40), min_size=6, max_size=6))
@settings(max_examples=150, deadline=None)
def test_exact_pricing_finds_the_most_valuable_pattern(instance: Instance, drawn: list[int]) -> None:
    kinds = kinds_of(instance)
    duals = np.array(drawn[: len(kinds.item)], dtype=float)
    assume(duals.any())
    by_item = [duals[kind] for kind in kinds.kind_of]
    most = Exhaustive(instance).most_worth(by_item)
    pricer = Pricer(kinds, 0, instance.bins[0])
    relaxed = pricer.best(whole_worths(duals, 1.0))
    assert most <= relaxed < LARGEST_WHOLE
    trace = pricer.best_column()
    assert trace is not None and trace.counts @ duals == relaxed
    # Asked for no more than what is to be had, it is found; asked for more, that there is none.
    for ask in (most - 0.5, most * 0.7):
        sharp, exact = pricer.columns(ask, ENUMERATION)
        assert exact and max(float(column.counts @ duals) for column in sharp) == most
    assert pricer.columns(most, ENUMERATION) == ([], True)
    columns, exact = pricer.columns(0.0, ENUMERATION)
    assert exact
    assert max(float(column.counts @ duals) for column in columns) == most
    for column in columns:
        assert (column.counts <= kinds.demand).all()
        (pattern,) = lay_out(instance, kinds, [column])
        assert (column_of_pattern(kinds, pattern).counts == column.counts).all()


@given(tiny(), st.integers(2, 5))
@settings(max_examples=60, deadline=None)
def test_a_coarser_grid_proves_no_more(instance: Instance, scale: int) -> None:
    pricer = Pricer(kinds_of(instance), 0, instance.bins[0])
    kinds = kinds_of(instance)
    duals = np.ones(len(kinds.item))
    fine = pricer.best(whole_worths(duals, 8.0))
    coarse = Pricer(kinds, 0, instance.bins[0], scales=(scale, scale))
    seen = np.where(coarse.unseen, 0.0, duals)
    assert coarse.best(whole_worths(seen, 8.0)) >= pricer.best(whole_worths(seen, 8.0))
    assert fine >= pricer.best(whole_worths(seen, 8.0))


def test_the_column_bound_sees_what_area_does_not() -> None:
    # A pinwheel: area fills one bin, yet no guillotine cuts give all five pieces from it.
    instance = Instance((Item(2, 1, 2), Item(1, 2, 2), Item(1, 1)), (Bin(3, 3),))
    assert quick_bound(instance).cost == 1
    solution = solve(instance, MaxIterations(60_000))
    assert solution.cost == 2 and solution.optimal and solution.bound.by != "area"


def test_limited_stock_enters_the_bound() -> None:
    # One cheap bin holds two of the items; the third needs the dear one.
    instance = Instance((Item(10, 5, 3),), (Bin(10, 10, 1, 3), Bin(10, 10, None, 10)))
    solution = solve(instance, MaxIterations(60_000))
    assert solution.cost == 13 and solution.optimal


def test_bounding_ends_by_itself() -> None:
    sizes = [(29 * i % 37 + 20, 41 * i % 43 + 15) for i in range(1, 20)]
    instance = Instance(tuple(Item(*size) for size in sizes), (Bin(100, 100),))
    kinds = kinds_of(instance)
    plan = solve(instance, MaxIterations(2000))
    bounding = Bounding(instance, kinds)
    bounding.learn([column_of_pattern(kinds, pattern) for pattern in plan.patterns])
    costs = []
    for _ in range(5000):
        if bounding.stage is Stage.DONE:
            break
        bounding.step(plan.cost)
        costs.append(bounding.cost)
    assert bounding.stage is Stage.DONE
    assert costs == sorted(costs) and costs[-1] <= plan.cost
