"""Recall: patterns that were seen, or learned, put together again inside the search."""

from __future__ import annotations

import itertools
import random

from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.planner.engine import FirstStage, Instance, LargeObject, MaxIterations, SmallItem
from casewright.planner.engine import solve_instance as solve
from casewright.planner.engine.columns import column_of_pattern, item_kinds
from casewright.planner.engine.instance import Bound, Pattern, PlacedItem, RowAxis, Solution, Strip
from casewright.planner.engine.pattern_pool import PatternPool
from casewright.planner.engine.quick_bounds import quick_bound
from casewright.planner.engine.ruin_recreate import RuinRecreate, decode_patterns, encode_pattern

from .checker import check
from .test_pool import drawn, one_to_a_bin


def as_it_stands(instance: Instance, patterns: tuple[Pattern, ...]) -> Solution:
    left = [item.count for item in instance.items]
    for pattern in patterns:
        for piece in pattern.pieces():
            left[piece.item] -= 1
    cost = sum(instance.bins[pattern.bin].price for pattern in patterns)
    return Solution(patterns, cost, Bound(0, 0, ""), tuple(left), (), 0)


@settings(deadline=None, max_examples=20)
@given(st.integers(0, 10_000), st.sampled_from(FirstStage), st.sampled_from([None, 2, 3]))
def test_what_is_put_together_again_can_be_cut(seed: int, first_cut: FirstStage, stages: int | None) -> None:
    """With copies, limited bins of two prices, stages and first cuts: no state breaks a rule."""
    instance = drawn(seed, 30, stages=stages, first_cut=first_cut)
    with RuinRecreate(instance, seed) as search:
        search.remember(0.0, 10_000)
        goal = quick_bound(instance).cost * 9 // 10
        search.goal(goal)
        for _ in range(5):
            search.run(2000)
            state = as_it_stands(instance, search.state())
            assert state.cost <= goal and any(state.unplaced)
            check(instance, state)
        assert search.remembered()


def without_waste(bins: int) -> tuple[Instance, tuple[Pattern, ...]]:
    """Bins cut up into five pieces each, nothing left over, and that plan: it is hard to find."""
    draw = random.Random(bins)
    items: list[SmallItem] = []
    patterns = []
    for number in range(bins):
        at = draw.randint(35, 65)
        columns = []
        for x, length, cuts in ((0, at, (0, 22, 59, 100)), (at, 100 - at, (0, 47, 100))):
            ends = [min(100, cut and cut + draw.randint(0, 12)) for cut in cuts]
            pieces = []
            for y, end in itertools.pairwise(ends):
                pieces.append(PlacedItem(x, y, length, end - y, len(items), False))
                items.append(SmallItem(length, end - y, 1))
            columns.append(Strip(x, 0, length, 100, RowAxis.Y, tuple(pieces)))
        patterns.append(Pattern(0, Strip(0, 0, 100, 100, RowAxis.X, tuple(columns))))
        assert len(items) == 5 * (number + 1)
    return Instance(tuple(items), (LargeObject(100, 100),)), tuple(patterns)


def test_a_search_that_has_learned_a_plan_finds_it_sooner() -> None:
    """Only full bins are remembered: the iterations it takes without the plan's own and with them."""
    instance, plan = without_waste(12)
    check(instance, as_it_stands(instance, plan))
    taken = {False: 0, True: 0}
    for learned in taken:
        for seed in range(12):
            with RuinRecreate(instance, seed) as search:
                search.remember(10_000.0, 10_000)
                search.goal(len(plan))
                for pattern in plan if learned else ():
                    search.learn(pattern)
                taken[learned] += search.run(20_000)[1]
    assert taken[True] < 0.8 * taken[False], taken


@settings(deadline=None, max_examples=20)
@given(st.integers(0, 10_000))
def test_a_pattern_learned_is_remembered_as_it_is_and_once(seed: int) -> None:
    instance = drawn(seed)
    plan = solve(instance, MaxIterations(300), seed)
    sets = {(p.bin, tuple(sorted(piece.item for piece in p.pieces()))) for p in plan.patterns}
    with RuinRecreate(instance, seed) as search:
        search.remember(0.0, 10_000)
        for pattern in plan.patterns * 2:
            assert decode_patterns(instance, encode_pattern(pattern)) == (pattern,)
            search.learn(pattern)
        assert search.remembered() == len(sets)
        for place in range(len(sets)):
            assert search.remembered_pattern(place) in plan.patterns
    with RuinRecreate(instance, seed) as small:
        small.remember(0.0, 2)
        for pattern in plan.patterns:
            small.learn(pattern)
        assert small.remembered() == min(2, len(sets))


def test_the_pool_teaches_every_search_what_was_priced_and_is_near() -> None:
    instance = drawn(4)
    kinds = item_kinds(instance)
    known = solve(instance, MaxIterations(3000), 4)
    priced = [column_of_pattern(kinds, pattern) for pattern in known.patterns]
    with RuinRecreate(instance, 5) as first, RuinRecreate(instance, 6) as second:
        pool = PatternPool([first, second], instance, kinds)
        pool.aim(known.cost)
        for _ in range(2):  # what was learned is not taught again
            assert pool.join(one_to_a_bin(kinds), priced)
            for search in (first, second):
                learned = [search.remembered_pattern(place) for place in range(search.remembered())]
                columns = {column_of_pattern(kinds, pattern).key for pattern in learned}
                assert columns == {column.key for column in priced} and len(learned) == len(columns)
                check(instance, as_it_stands(instance, (learned[0],)))
