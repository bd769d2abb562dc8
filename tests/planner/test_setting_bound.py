"""The bound on settings against exhaustive search, and against every plan."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.planner.engine import MaxIterations
from casewright.planner.layout.integer_grid import grid_of
from casewright.planner.layout.setting_bound import fewest_for, fewest_settings
from casewright.planner.problem import Goal, Item, Problem, Trim
from casewright.planner.solve import solve

from .shop import TABLE_SAW, problems, small_job

MOST = 36
"""The longest piece looked at; a kerf is within every size."""


def given_by(made: tuple[int, ...], smallest: int) -> set[int]:
    """Every size that settings `made` give: cut on one of them, or left of such a piece after
    others, no smaller than `smallest`, were cut off it."""
    found = set(made)
    fresh = set(made)
    while fresh:
        fresh = {size - cut for size in fresh for cut in made if smallest <= cut < size} - found
        found |= fresh
    return found


def fewest(sizes: frozenset[int], smallest: int) -> int:
    """By trying every set of settings, the small sets first."""
    return next(
        count
        for count in range(len(sizes) + 1)
        for made in combinations(range(smallest, MOST + 1), count)
        if sizes <= given_by(made, smallest)
    )


@settings(max_examples=150, deadline=None)
@given(st.sets(st.integers(2, 14), min_size=1, max_size=3), st.integers(1, 4))
def test_the_bound_is_exact_for_up_to_three_sizes(sizes: set[int], less: int) -> None:
    smallest = max(1, min(sizes) - less)
    assert fewest_for(sizes, smallest) == fewest(frozenset(sizes), smallest)


@settings(max_examples=25, deadline=None)
@given(st.sets(st.integers(4, 14), min_size=4, max_size=5))
def test_the_bound_holds_for_more_sizes(sizes: set[int]) -> None:
    smallest = min(sizes)
    assert fewest_for(sizes, smallest) <= fewest(frozenset(sizes), smallest)


@settings(max_examples=60, deadline=None)
@given(problems(), st.sampled_from([F(1, 16), F(1, 4)]))
def test_no_plan_has_fewer_settings_than_the_bound(problem: Problem, trim: F) -> None:
    bins = tuple(replace(bin_, trim=Trim.all_round(trim)) for bin_ in problem.bins)
    items = tuple(item for item in problem.items if item.length <= 90 and item.width <= 44)
    trimmed = replace(problem, bins=bins, items=items, goals=(Goal.SHEET_MONEY, Goal.FENCE_SETTINGS))
    plan = solve(trimmed, MaxIterations(3000))
    if not plan.unplaced:
        assert plan.figures.settings >= fewest_settings(grid_of(trimmed))


def test_parts_that_may_turn_need_the_fewest_of_all_their_ways_to_lie() -> None:
    """Turned, the strip is as long as the side is wide."""
    items = (Item("side", F(30), F(20), 1), Item("strip", F(20), F(4), 1, may_turn=True))
    assert fewest_settings(grid_of(small_job(items=items))) == 3
    plan = solve(small_job(items=items, goals=(Goal.SHEET_MONEY, Goal.FENCE_SETTINGS)))
    assert plan.figures.settings == 3
    fixed = tuple(replace(item, may_turn=False) for item in items)
    assert fewest_settings(grid_of(small_job(items=fixed))) == 4


def test_three_rips_can_come_of_two_settings() -> None:
    """Off a piece 10 wide a 3 leaves 7 less a kerf, and another 3 leaves 4 less two."""
    items = tuple(Item(f"strip {width}", F(30), F(width), 1) for width in ("10", "6.875", "3.75"))
    problem = small_job(items=items)
    wide = fewest_settings(grid_of(problem))
    smaller = replace(problem, items=(*items, Item("cleat", F(30), F(3), 1)))
    assert wide == 4  # nothing is 3 wide, so nothing may be cut off on 3
    assert fewest_settings(grid_of(smaller)) == 2 + 1


def test_a_sheet_without_a_trim_gives_a_size_of_its_own() -> None:
    bins = tuple(replace(bin_, trim=Trim()) for bin_ in small_job().bins)
    untrimmed = small_job(items=(Item("top", F(96), F(48), 1),), bins=bins)
    assert fewest_settings(grid_of(untrimmed)) == 0 == solve(untrimmed).figures.settings


def test_nothing_is_claimed_where_hand_cuts_are_not_cleaned_up() -> None:
    saw = replace(TABLE_SAW, name="hand saw", clean_up=F(0))
    assert fewest_settings(grid_of(small_job(hand_saw=saw))) == 0
