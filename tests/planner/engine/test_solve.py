"""Every plan is sound, the bound holds, and the same work gives the same plan."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings

from casewright.planner.engine import (
    FirstOf,
    FirstStage,
    Instance,
    LargeObject,
    MaxIterations,
    MaxSeconds,
    Progress,
    SmallItem,
    Solution,
)
from casewright.planner.engine import solve_instance as solve
from casewright.planner.engine.ruin_recreate import RuinRecreate

from .checker import check, overlap, separable
from .strategies import instances
from .test_pool import FORTY


@given(instances())
@settings(max_examples=150, deadline=None)
def test_every_plan_is_sound(instance: Instance) -> None:
    check(instance, solve(instance, MaxIterations(200), seed=3))


def test_the_checker_sees_faults() -> None:
    pinwheel = [(0, 0, 2, 1), (2, 0, 3, 2), (1, 2, 3, 3), (0, 1, 1, 3)]
    assert not overlap(pinwheel) and not separable(pinwheel)
    assert overlap([(0, 0, 2, 2), (1, 1, 3, 3)])
    instance = Instance((SmallItem(2, 1),), (LargeObject(2, 2),))
    sound = solve(instance, MaxIterations(1))
    with pytest.raises(AssertionError):
        check(instance, replace(sound, cost=2))
    with pytest.raises(AssertionError):
        check(instance, replace(sound, patterns=()))


def test_same_seed_same_plan() -> None:
    sizes = [(37 * i % 61 + 12, 53 * i % 47 + 9) for i in range(1, 60)]
    instance = Instance(tuple(SmallItem(*size, 1, True) for size in sizes), (LargeObject(100, 80),))
    one, two = (solve(instance, MaxIterations(3000), seed=5, cores=1) for _ in range(2))
    assert one == two
    both = [solve(instance, MaxIterations(3000), seed=5, cores=2) for _ in range(2)]
    assert both[0] == both[1]


def test_answers_fall_in_cost() -> None:
    sizes = [(31 * i % 50 + 15, 17 * i % 40 + 10) for i in range(1, 80)]
    instance = Instance(tuple(SmallItem(*size) for size in sizes), (LargeObject(100, 100),))
    costs: list[int] = []

    def report(solution: Solution) -> None:
        check(instance, solution)
        costs.append(solution.cost)

    last = solve(instance, MaxIterations(5000), report=report)
    assert costs and costs == sorted(set(costs), reverse=True) and costs[-1] == last.cost


def test_an_item_that_fits_no_bin_is_named() -> None:
    instance = Instance(
        (SmallItem(30, 5), SmallItem(5, 5, 3), SmallItem(5, 12)), (LargeObject(10, 20), LargeObject(20, 10))
    )
    solution = solve(instance, MaxIterations(100))
    check(instance, solution)
    assert solution.misfits == (0,) and solution.unplaced == (1, 0, 0)
    assert not solution.complete and not solution.optimal


def test_short_stock_leaves_items_out() -> None:
    instance = Instance((SmallItem(6, 6, 5),), (LargeObject(10, 10, count=3),))
    solution = solve(instance, MaxIterations(100))
    check(instance, solution)
    assert solution.unplaced == (2,) and solution.misfits == ()


def test_the_cheaper_bins_are_taken() -> None:
    instance = Instance(
        (SmallItem(10, 10, 4),),
        (LargeObject(20, 20, None, 50), LargeObject(10, 10, 2, 5), LargeObject(20, 10, 1, 0)),
    )
    solution = solve(instance, MaxIterations(2000))
    check(instance, solution)
    assert solution.cost == 10 and solution.optimal


@pytest.mark.parametrize(("first", "bins"), [(FirstStage.ALONG, 1), (FirstStage.ACROSS, 2)])
def test_two_stages_depend_on_the_first_cut(first: FirstStage, bins: int) -> None:
    # Rows of 10+10+10 and 15+15 fill the bin with rips first; crosscuts first would need a third stage.
    items = (SmallItem(10, 5, 3), SmallItem(15, 5, 2))
    instance = Instance(items, (LargeObject(30, 10),), stages=2, first_cut=first)
    solution = solve(instance, MaxIterations(2000))
    check(instance, solution)
    assert solution.bins == bins


def test_stops_compose() -> None:
    ticks = iter(range(1000))
    by_clock = MaxSeconds(3, lambda: float(next(ticks)))
    either = FirstOf((by_clock, MaxIterations(50)))
    assert either.seconds_left() == 2.0
    assert not either(Progress(iterations=49, cost=None, bound=1))
    assert either(Progress(iterations=50, cost=3, bound=1))
    assert either(Progress(iterations=0, cost=3, bound=1)), "the clock has run out"
    assert FirstOf((MaxIterations(2), MaxIterations(1))).seconds_left() is None


def test_nothing_to_cut() -> None:
    solution = solve(Instance((SmallItem(2, 2, 0),), (LargeObject(5, 5),)), MaxIterations(10))
    assert solution.cost == 0 and solution.complete and solution.optimal


@pytest.mark.parametrize("fault", [SmallItem(0, 4), SmallItem(4, -1), SmallItem(4, 4, -2)])
def test_senseless_sizes_are_refused(fault: SmallItem) -> None:
    with pytest.raises(ValueError, match="is not between"):
        Instance((fault,), (LargeObject(5, 5),))


@given(instances())
@settings(max_examples=40, deadline=None)
def test_the_area_left_out_is_told_whatever_it_weighs(instance: Instance) -> None:
    with RuinRecreate(instance, 1) as search:
        search.goal(min((bin_.price for bin_ in instance.bins), default=0))
        search.run(700)  # weights are raised in between
        placed = [piece.item for pattern in search.state() for piece in pattern.pieces()]
        out = sum(item.area * (item.count - placed.count(n)) for n, item in enumerate(instance.items))
        assert search.out_area() == out


def test_what_is_left_out_again_and_again_weighs_more() -> None:
    # One of three has to stay out. By area it is always the last; it weighs more and more, then another is.
    instance = Instance((SmallItem(10, 5), SmallItem(10, 5), SmallItem(10, 4)), (LargeObject(10, 10),))
    left_out = []
    with RuinRecreate(instance, 1) as search:
        search.goal(1)
        search.run(2000)
        for _ in range(40):
            search.run(500)
            left_out.append(search.out_area())
    assert {40, 50} == set(left_out)


def never(*_: object) -> None:
    raise AssertionError("this is not to be called")


def test_a_cover_at_a_glance_waits_for_no_dive(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("casewright.planner.engine.diving.Diver.dive", never)
    instance = Instance(
        (SmallItem(2, 3, 3), SmallItem(3, 1, 3)), (LargeObject(4, 4),)
    )  # the LP says two bins
    solution = solve(instance, MaxIterations(60_000), seed=1)
    assert solution.cost == 3 and solution.optimal and "enumerated" in solution.bound.by


def test_a_plan_of_few_bins_needs_no_pool(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("casewright.planner.engine.pattern_pool.PatternPool.aim", never)
    # The area is just within three bins: neither the bound nor the search ends soon.
    few = Instance(FORTY, (LargeObject(85, 85),))
    plan = solve(few, MaxIterations(150_000), seed=1)
    assert not plan.optimal and plan.bins == 4
    many = replace(few, bins=(LargeObject(75, 75),))
    with pytest.raises(AssertionError, match="not to be called"):
        solve(many, MaxIterations(150_000), seed=1)
