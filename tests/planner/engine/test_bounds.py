"""Bounds are never above what is possible, and the searches reach what is."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from casewright.planner.engine import Instance, LargeObject, MaxIterations, SmallItem
from casewright.planner.engine import solve_instance as solve
from casewright.planner.engine.column_generation import ColumnGeneration, GenerationStage
from casewright.planner.engine.columns import Column, column_of_pattern, item_kinds, patterns_of_columns
from casewright.planner.engine.pricing import LARGEST_WHOLE, Pricer, integer_duals
from casewright.planner.engine.pricing_tables import (
    PricingTables,
    item_orientations,
    pricing_grid,
    raster_points,
)
from casewright.planner.engine.quick_bounds import dual_feasible_table, quick_bound
from casewright.planner.engine.set_cover import cheapest_cover, drop_dominated
from casewright.planner.parameters import DEFAULT_PARAMETERS

from .checker import check
from .exhaustive import Exhaustive

EFFORT = DEFAULT_PARAMETERS.exact_efforts[0]
GLANCE, ENUMERATION, _ = DEFAULT_PARAMETERS.cover_efforts


@st.composite
def tiny(draw: st.DrawFn) -> Instance:
    """Up to six copies in bins up to 12 by 12; every item fits."""
    box = LargeObject(draw(st.integers(4, 12)), draw(st.integers(4, 12)))
    items = []
    left = draw(st.integers(1, 6))
    while left:
        count = draw(st.integers(1, left))
        size = draw(st.integers(1, box.length)), draw(st.integers(1, box.width))
        items.append(SmallItem(*size, count, draw(st.booleans())))
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


def test_a_small_job_is_proved_before_its_iterations_end() -> None:
    # The LP says two bins, and only the cover of all patterns that there are none: it was asked too late.
    instance = Instance((SmallItem(2, 3, 3), SmallItem(3, 1, 3)), (LargeObject(4, 4),))
    solution = solve(instance, MaxIterations(60_000), seed=1)
    assert solution.cost == 3 and solution.optimal


def test_a_cover_is_proved_impossible_only_with_all_patterns_at_hand() -> None:
    instance = Instance((SmallItem(2, 3, 3), SmallItem(3, 1, 3)), (LargeObject(4, 4),))
    kinds = item_kinds(instance)
    bounding = ColumnGeneration(instance, kinds)
    plan = solve(instance, MaxIterations(60_000), seed=1)
    bounding.learn([column_of_pattern(kinds, pattern) for pattern in plan.patterns])
    while bounding.stage is not GenerationStage.DONE:
        bounding.step(plan.cost - 1)
    proof = cheapest_cover(bounding, instance.bins, kinds.demand, 2, GLANCE, None)
    assert proof is not None and proof.impossible
    assert cheapest_cover(bounding, instance.bins, kinds.demand, 2, replace(GLANCE, columns=1), None) is None


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
    kinds = item_kinds(instance)
    duals = np.array(drawn[: len(kinds.item)], dtype=float)
    assume(duals.any())
    by_item = [duals[kind] for kind in kinds.kind_of]
    most = Exhaustive(instance).most_worth(by_item)
    pricer = Pricer(kinds, 0, instance.bins[0])
    relaxed = pricer.best(integer_duals(duals, 1.0))
    assert most <= relaxed < LARGEST_WHOLE
    assert pricer.best_counting(integer_duals(duals, 1.0)) == relaxed
    patterns = pricer.patterns(0.0)
    assert patterns[0].counts @ duals == relaxed
    for column in patterns:
        (within,) = patterns_of_columns(instance, kinds, [column])
        if (column.counts <= kinds.demand).all():
            assert (column_of_pattern(kinds, within).counts == column.counts).all()
    # Asked for no more than what is to be had, it is found; asked for more, that there is none.
    for ask in (most - 0.5, most * 0.7):
        sharp, proved = pricer.columns(ask, EFFORT)
        assert not proved and all(float(column.counts @ duals) > ask for column in sharp) and sharp
        everything, exact = pricer.all_columns(ask, ENUMERATION)
        assert exact and max(float(column.counts @ duals) for column in everything) == most
    assert pricer.columns(most, EFFORT) == ([], True)
    columns, exact = pricer.all_columns(0.0, ENUMERATION)
    assert exact
    assert max(float(column.counts @ duals) for column in columns) == most
    for column in columns:
        assert (column.counts <= kinds.demand).all()
        (pattern,) = patterns_of_columns(instance, kinds, [column])
        assert (column_of_pattern(kinds, pattern).counts == column.counts).all()


@given(tiny(), st.lists(st.integers(0, 40), min_size=6, max_size=6), st.integers(0, 3))
@settings(max_examples=100, deadline=None)
def test_counted_kinds_sharpen_the_tables_and_no_more(
    instance: Instance, drawn: list[int], some: int
) -> None:
    kinds = item_kinds(instance)
    duals = np.array(drawn[: len(kinds.item)], dtype=np.float32)
    most = Exhaustive(instance).most_worth([float(duals[kind]) for kind in kinds.kind_of])
    whole = pricing_grid(kinds.item, instance.bins[0])
    counts = [(kind, item.count) for kind, item in enumerate(kinds.item)]
    plain = PricingTables(whole, 0, kinds).best(duals)
    part = PricingTables(whole, 0, kinds, tuple(counts[:some])).best(duals)
    every = PricingTables(whole, 0, kinds, tuple(counts))
    assert plain >= part >= every.best(duals) == most
    for column in every.patterns(0.0, 20):
        assert (column.counts <= kinds.demand).all()
        (pattern,) = patterns_of_columns(instance, kinds, [column])
        assert (column_of_pattern(kinds, pattern).counts == column.counts).all()


@given(
    st.lists(st.tuples(st.integers(3, 30), st.integers(3, 30), st.booleans()), min_size=2, max_size=5),
    st.lists(st.integers(0, 40), min_size=5, max_size=5),
    st.integers(0, 3),
)
@settings(max_examples=100, deadline=None)
def test_with_every_length_as_with_those_that_matter(
    drawn: list[tuple[int, int, bool]], worths: list[int], some: int
) -> None:
    # Two ways through the kernel: rows of widths that lie beside each other, and lengths side by side.
    kinds = item_kinds(
        Instance(tuple(SmallItem(x, y, 20, turn) for x, y, turn in drawn), (LargeObject(37, 30),))
    )
    duals = np.array(worths[: len(kinds.item)], dtype=np.float32)
    critical = tuple((kind, 2) for kind in range(len(kinds.item)))[:some]
    seen = []
    for even in (0.0, 2.0):
        parameters = replace(DEFAULT_PARAMETERS, dense_share=even)
        whole = pricing_grid(kinds.item, LargeObject(37, 30), parameters)
        tables = PricingTables(whole, 0, kinds, critical)
        most = tables.best(duals)
        tables.complete()
        rests = tables.rest.reshape(tables.states, len(whole.x.size), -1)
        beside = [
            rests[:, whole.x.left[x // whole.scale_x], whole.y.left[y // whole.scale_y]].tolist()
            for item in kinds.item
            for x, y, _ in item_orientations(item, LargeObject(37, 30))
        ]
        seen.append((most, beside))
        assert whole.y.even or even > 1
    assert seen[0] == seen[1]


def test_sizes_that_no_cut_reaches_are_left_out() -> None:
    # Of 10, parts of 4 or 6 can be cut; 3 and 7 only where two thirds lie side by side: 3 + 3 + 4.
    found = raster_points([(4, 9), (3, 9)], 10)
    assert found is not None and found.size.tolist() == [0, 3, 4, 6, 7, 10]
    pairs = found.pair.reshape(-1, 2)[found.first[5] : found.first[6]]
    assert [tuple(found.size[pair].tolist()) for pair in pairs] == [(3, 7), (4, 6)]
    few = raster_points([(30, 2)], 100)
    assert few is not None and few.size.tolist() == [0, 30, 60]  # 60 at most, what is left takes 60 too


@given(st.lists(st.lists(st.integers(0, 2), min_size=4, max_size=4), min_size=1, max_size=40))
def test_only_columns_within_another_are_left_out(counts: list[list[int]]) -> None:
    every = {tuple(row) for row in counts}
    columns = [Column(0, np.array(row)) for row in every]
    kept = {tuple(column.counts.tolist()) for column in drop_dominated(columns)}
    within = {
        one
        for one in every
        if any(one != other and all(a <= b for a, b in zip(one, other, strict=True)) for other in every)
    }
    assert kept == every - within


@given(tiny(), st.integers(2, 5))
@settings(max_examples=60, deadline=None)
def test_a_coarser_grid_proves_nothing_false(instance: Instance, scale: int) -> None:
    kinds = item_kinds(instance)
    coarse = Pricer(kinds, 0, instance.bins[0], scales=(scale, scale))
    seen = np.where(coarse.unseen, 0.0, np.ones(len(kinds.item)))
    most = Exhaustive(instance).most_worth([float(seen[kind]) for kind in kinds.kind_of])
    assert coarse.best(integer_duals(seen, 8.0)) >= 8.0 * most


def test_the_column_bound_sees_what_area_does_not() -> None:
    # A pinwheel: area fills one bin, yet no guillotine cuts give all five pieces from it.
    instance = Instance((SmallItem(2, 1, 2), SmallItem(1, 2, 2), SmallItem(1, 1)), (LargeObject(3, 3),))
    assert quick_bound(instance).cost == 1
    solution = solve(instance, MaxIterations(60_000))
    assert solution.cost == 2 and solution.optimal and solution.bound.by != "area"


def test_counting_a_few_kinds_proves_what_none_counted_does_not() -> None:
    # The area is just within two bins, and the small items fill it only if there are more of them.
    instance = Instance(
        tuple(SmallItem(13 + 7 * n % 29, 11 + 5 * n % 31, 1) for n in range(40)), (LargeObject(119, 119),)
    )
    kinds = item_kinds(instance)
    bounding = ColumnGeneration(instance, kinds)
    plan = solve(instance, MaxIterations(1000), seed=1)
    assert plan.cost == 3
    bounding.learn([column_of_pattern(kinds, pattern) for pattern in plan.patterns])
    while bounding.stage is GenerationStage.RELAXED:
        bounding.step(plan.cost - 1)
    assert bounding.cost == 2
    while bounding.stage is GenerationStage.COUNTED and bounding.cost < plan.cost:
        bounding.step(plan.cost - 1)
    assert bounding.cost == 3


def test_limited_stock_enters_the_bound() -> None:
    # One cheap bin holds two of the items; the third needs the dear one.
    instance = Instance((SmallItem(10, 5, 3),), (LargeObject(10, 10, 1, 3), LargeObject(10, 10, None, 10)))
    solution = solve(instance, MaxIterations(60_000))
    assert solution.cost == 13 and solution.optimal


def test_bounding_ends_by_itself() -> None:
    sizes = [(29 * i % 37 + 20, 41 * i % 43 + 15) for i in range(1, 20)]
    instance = Instance(tuple(SmallItem(*size) for size in sizes), (LargeObject(100, 100),))
    kinds = item_kinds(instance)
    plan = solve(instance, MaxIterations(2000))
    bounding = ColumnGeneration(instance, kinds)
    bounding.learn([column_of_pattern(kinds, pattern) for pattern in plan.patterns])
    costs = []
    for _ in range(5000):
        if bounding.stage is GenerationStage.DONE:
            break
        bounding.step(plan.cost - 1)
        costs.append(bounding.cost)
    assert bounding.stage is GenerationStage.DONE
    assert costs == sorted(costs) and costs[-1] <= plan.cost
