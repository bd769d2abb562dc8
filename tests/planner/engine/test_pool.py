"""The pool: what the search remembers, and the plans put together from it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from casewright.planner.engine import FirstStage, Instance, LargeObject, MaxIterations, SmallItem
from casewright.planner.engine import solve_instance as solve
from casewright.planner.engine.column_generation import ColumnGeneration
from casewright.planner.engine.columns import Column, ItemKinds, column_of_pattern, item_kinds
from casewright.planner.engine.diving import Diver
from casewright.planner.engine.instance import Bound, Pattern, Solution
from casewright.planner.engine.master_problem import MasterProblem
from casewright.planner.engine.pattern_pool import PatternPool
from casewright.planner.engine.quick_bounds import quick_bound
from casewright.planner.engine.ruin_recreate import RuinRecreate
from casewright.planner.parameters import DEFAULT_PARAMETERS, SearchParameters

from .checker import check

ITERATIONS = 3000

FORTY = tuple(SmallItem(9 + 7 * n % 29, 8 + 5 * n % 31, 1) for n in range(40))
"""No two alike."""


def drawn(seed: int, number: int = 24, **rules: object) -> Instance:
    """Items of two families in bins of two prices; few are alike."""
    draw = np.random.default_rng(seed)
    items = tuple(
        SmallItem(int(draw.integers(8, 60)), int(draw.integers(8, 50)), int(draw.integers(1, 3)), bool(n % 2))
        for n in range(number)
    )
    return Instance(items, (LargeObject(100, 80, None, 10), LargeObject(70, 90, 3, 8)), **rules)  # type: ignore[arg-type]


def searched(search: RuinRecreate, instance: Instance) -> int:
    """Runs without a goal that could be met, for patterns alone; how many were remembered."""
    search.remember(0.0, 10_000)
    search.goal(quick_bound(instance).cost // 2)
    search.run(ITERATIONS)
    return search.remembered()


@settings(deadline=None, max_examples=15)
@given(st.integers(0, 10_000), st.sampled_from(FirstStage), st.sampled_from([None, 2, 3]))
def test_each_pattern_remembered_can_be_cut_and_holds_what_is_counted(
    seed: int, first_cut: FirstStage, stages: int | None
) -> None:
    instance = drawn(seed, 12, stages=stages, first_cut=first_cut)
    assume(quick_bound(instance).cost >= 16)  # for half of that there is one bin, which does not hold all
    kinds = item_kinds(instance)
    with RuinRecreate(instance, seed) as search:
        number = searched(search, instance)
        assert number
        bins, counts = search.remembered_counts(0, kinds)
        assert len({(int(b), row.tobytes()) for b, row in zip(bins, counts, strict=True)}) <= number
        for place in range(0, number, 1 + number // 20):
            pattern = search.remembered_pattern(place)
            column = column_of_pattern(kinds, pattern)
            assert (column.bin, column.counts.tolist()) == (bins[place], counts[place].tolist())
            held = [0] * len(instance.items)
            for piece in pattern.pieces():
                held[piece.item] += 1
            left = tuple(item.count - n for item, n in zip(instance.items, held, strict=True))
            price = instance.bins[pattern.bin].price
            check(instance, Solution((pattern,), price, Bound(0, 0, ""), left, (), 0))


def test_no_set_of_items_is_remembered_twice() -> None:
    instance = drawn(3)
    with RuinRecreate(instance, 3) as search:
        number = searched(search, instance)
        found = set()
        for place in range(number):
            pattern = search.remembered_pattern(place)
            found.add((pattern.bin, tuple(sorted(piece.item for piece in pattern.pieces()))))
        assert len(found) == number


def test_only_well_filled_patterns_and_only_so_many() -> None:
    instance = drawn(5)
    with RuinRecreate(instance, 5) as search:
        search.remember(600.0, 50)
        search.goal(quick_bound(instance).cost // 2)
        search.run(4 * ITERATIONS)
        assert search.remembered() == 50
        for place in range(50):
            pattern = search.remembered_pattern(place)
            area = sum(piece.length * piece.width for piece in pattern.pieces())
            assert area >= 600.0 * instance.bins[pattern.bin].price


def test_a_search_that_begins_anew_sees_more_patterns() -> None:
    instance = drawn(8)
    seen = []
    for patience in (0, 1000):
        with RuinRecreate(instance, 8) as search:
            search.pace(100, patience)
            search.remember(700.0, 60_000)
            search.goal(quick_bound(instance).cost)
            search.run(40_000)
            seen.append(search.remembered())
    assert seen[1] > 2 * seen[0]


@settings(deadline=None, max_examples=10)
@given(st.integers(0, 10_000))
def test_plans_from_the_pool_are_plans_for_the_goal(seed: int) -> None:
    """The goal is what a short search reaches, and a dive has to reach it from other patterns."""
    instance = drawn(seed)
    kinds = item_kinds(instance)
    known = solve(instance, MaxIterations(300), seed)
    with RuinRecreate(instance, ~seed) as one, RuinRecreate(instance, seed + 1) as other:
        pool = PatternPool([one, other], instance, kinds)
        pool.aim(known.cost)
        for search in (one, other):
            search.goal(known.cost // 2)  # out of reach, so that it sees patterns all along
            search.run(ITERATIONS)
            assert search.remembered()
        assert pool.dive(0, lambda: False) is None and not pool.hopeful  # nothing was joined yet
        assert pool.join([column_of_pattern(kinds, pattern) for pattern in known.patterns], [])
        assert pool.dive(0, lambda: True) is None and not pool.hopeful  # there is no time
        for dive in range(5):
            patterns = pool.dive(dive, lambda: False)
            if patterns is None:
                continue
            assert pool.hopeful
            unplaced = [item.count for item in instance.items]
            for pattern in patterns:
                for piece in pattern.pieces():
                    unplaced[piece.item] -= 1
            assert not any(unplaced)
            cost = sum(instance.bins[pattern.bin].price for pattern in patterns)
            assert cost <= known.cost
            check(instance, replace(known, patterns=patterns, cost=cost))


def nine_items() -> tuple[Instance, MasterProblem, list[Column], list[Column]]:
    """Three bins, each filled by three of nine items, in two ways; the master also holds columns that mix
    them badly."""
    instance = Instance(tuple(SmallItem(30 + n, 40, 1) for n in range(9)), (LargeObject(200, 40),))

    def column(*members: int) -> Column:
        counts = np.zeros(9, dtype=np.int64)
        counts[list(members)] = 1
        return Column(0, counts)

    good = [column(0, 4, 8), column(1, 5, 6), column(2, 3, 7)]
    other = [column(0, 5, 7), column(1, 3, 8), column(2, 4, 6)]
    mixed = [column(0, 1), column(2, 4), column(3, 5), column(6, 7), column(8)]
    master = MasterProblem(item_kinds(instance).demand, instance.bins)
    for one in [*mixed, *good]:
        master.add(one)
    return instance, master, good, other


def leaves(instance: Instance, master: MasterProblem, backs: int) -> list[set[tuple[int, bytes]]]:
    def within(_: object) -> bool:
        found = master.solve()
        return found is not None and found.cost <= 3 + 1e-6

    diver = Diver(instance, item_kinds(instance))
    found = diver.leaves(master, 3, np.random.default_rng(1), within, backs)
    return [{column.key for column in taken} for taken in found]


def test_columns_that_go_together_are_put_together() -> None:
    instance, master, good, _ = nine_items()
    (taken,) = leaves(instance, master, 0)
    assert taken <= {one.key for one in good}
    again = master.solve()
    assert again is not None and abs(again.cost - 3) < 1e-6  # the master is left free


def test_a_dive_that_goes_back_comes_by_another_way_down() -> None:
    instance, master, good, other = nine_items()
    assert len(leaves(instance, master, 5)) == 1  # there is no other way
    for one in other:
        master.add(one)
    first, *more = leaves(instance, master, 5)
    ways = [{one.key for one in good}, {one.key for one in other}]
    begun = [way for way in ways if first <= way]
    assert len(begun) == 1 and any(taken <= way for taken in more for way in ways if way not in begun)
    again = master.solve()
    assert again is not None and abs(again.cost - 3) < 1e-6


def test_a_dive_prices_no_more_than_so_often_and_not_without_time(monkeypatch: pytest.MonkeyPatch) -> None:
    instance = Instance(FORTY, (LargeObject(50, 50),))
    kinds = item_kinds(instance)
    known = solve(instance, MaxIterations(50), 1)
    pricings = []
    price = ColumnGeneration.columns_for

    def counted(self: ColumnGeneration, *given: object) -> bool:
        pricings.append(given)
        return price(self, *given)  # type: ignore[arg-type]

    monkeypatch.setattr(ColumnGeneration, "columns_for", counted)

    def dived(enough: bool, parameters: SearchParameters = DEFAULT_PARAMETERS) -> int:
        pricings.clear()
        bounding = ColumnGeneration(instance, kinds)
        bounding.learn([column_of_pattern(kinds, pattern) for pattern in known.patterns])
        Diver(instance, kinds, parameters).dive(bounding, known.cost, 1, lambda: enough)
        return len(pricings)

    assert dived(enough=True) == 0
    assert dived(enough=False) > 2
    assert dived(enough=False, parameters=replace(DEFAULT_PARAMETERS, dive_pricings_in_all=2)) == 2


def test_columns_that_know_no_stages_are_not_for_plans_in_stages(monkeypatch: pytest.MonkeyPatch) -> None:
    priced: list[int] = []
    join = PatternPool.join

    def noted(pool: PatternPool, columns: list[Column], more: list[Column]) -> bool:
        priced.append(sum(bool(column.tree) for column in more))
        return join(pool, columns, more)

    monkeypatch.setattr(PatternPool, "join", noted)
    hurried = replace(DEFAULT_PARAMETERS, stuck_after=2, pool_gathering=2)
    # The area is just within one bin less: neither the bound nor the search ends soon.
    instance = Instance(FORTY, (LargeObject(61, 61),))
    stop = MaxIterations(400_000)
    solve(instance, stop, 1, parameters=hurried)
    assert any(priced)
    priced.clear()
    staged = replace(instance, stages=3)
    check(staged, solve(staged, stop, 1, parameters=hurried))
    assert priced and not any(priced)


def one_to_a_bin(kinds: ItemKinds) -> list[Column]:
    """Columns that cover every demand, at far too high a cost."""
    alone = np.eye(len(kinds.item), dtype=np.int64)
    return [Column(0, row, tree=(kind, 0, 0)) for kind, row in enumerate(alone)]


def placed(instance: Instance, patterns: tuple[Pattern, ...]) -> list[int]:
    held = [0] * len(instance.items)
    for pattern in patterns:
        for piece in pattern.pieces():
            held[piece.item] += 1
    return held


@pytest.mark.parametrize("source", ["first search", "second search", "priced"])
def test_a_pool_has_its_patterns_from_every_search_and_from_what_was_priced(
    source: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Of three sources only one has patterns: dives reach the goal by them, now and when more come."""
    instance = drawn(4)
    kinds = item_kinds(instance)
    finish = Diver.finish

    def looked_at(diver: Diver, taken: list[Column], target: int, seed: int) -> tuple[Pattern, ...] | None:
        assert all(column_of_pattern(kinds, c.pattern).key == c.key for c in taken if c.pattern)
        return finish(diver, taken, target, seed)

    monkeypatch.setattr(Diver, "finish", looked_at)
    known = solve(instance, MaxIterations(300), 4)
    goal = known.cost + 10
    priced: list[Column] = []
    with RuinRecreate(instance, 5) as first, RuinRecreate(instance, 6) as second:
        pool = PatternPool([first, second], instance, kinds)
        pool.aim(goal)
        assert not pool.join(one_to_a_bin(kinds), priced)
        plans = []
        for turn in range(3):
            if source == "priced":
                half = len(known.patterns) // 2
                priced += [column_of_pattern(kinds, p) for p in known.patterns[half * turn :][: half + turn]]
            else:
                search = first if source == "first search" else second
                search.goal(known.cost // 2)
                search.run(ITERATIONS)
            pool.join(one_to_a_bin(kinds), priced)
            plans += [plan for seed in range(4) if (plan := pool.dive(seed, lambda: False))]
    assert plans
    for plan in plans:
        assert placed(instance, plan) == [item.count for item in instance.items]


def test_all_searches_together_remember_no_more_than_so_many() -> None:
    small = replace(DEFAULT_PARAMETERS, pool_patterns=60)
    instance = drawn(4)
    with RuinRecreate(instance, 5) as first, RuinRecreate(instance, 6) as second:
        PatternPool([first, second], instance, item_kinds(instance), small).aim(quick_bound(instance).cost)
        for search in (first, second):
            search.goal(quick_bound(instance).cost // 2)
            search.run(4 * ITERATIONS)
        assert first.remembered() + second.remembered() == 60
