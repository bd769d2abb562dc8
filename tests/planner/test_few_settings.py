"""The whole job on few settings: every cut at some part's own size."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.planner.best_plan import BestPlan
from casewright.planner.engine import MaxIterations, Pattern, PlacedItem, RowAxis, Strip, Waste
from casewright.planner.first_phase.hand_cuts import add_hand_cuts
from casewright.planner.layout.engine_bridge import engine_model, sheet_layouts, whole_sheet_rooms
from casewright.planner.layout.integer_grid import grid_of
from casewright.planner.layout.layout_tree import CarriedPiece, Leaf, SheetLayout, Stack
from casewright.planner.layout.orientation import (
    TurnGroup,
    common_orientations,
    fits_some_sheet,
    free_orientations,
    own_settings,
    turn_groups,
)
from casewright.planner.layout.score import Scorer, job_totals
from casewright.planner.problem import Bin, Goal, Item, Limits, PatternKind, Problem, Saw, SawKind
from casewright.planner.solve import solve
from casewright.planner.verify.verify import verify

from .shop import HAND_SAW, problems, small_job


@settings(max_examples=80, deadline=None)
@given(problems(), st.integers(0, 1000), st.data())
def test_restricted_patterns_need_no_settings_but_the_parts_own(
    problem: Problem, seed: int, data: st.DataObject
) -> None:
    """Some parts free to lie either way: the settings of both ways are all there can be. (First cuts
    asked for can need one more.)"""
    problem = replace(problem, pattern=PatternKind())
    grid = grid_of(problem)
    fixed = common_orientations(grid)
    orientations = tuple(None if data.draw(st.booleans()) else turned for turned in fixed)
    rooms = whole_sheet_rooms(grid)
    wanted = [item.count for item in grid.items]
    model = engine_model(grid, wanted, rooms, problem.pattern, orientations, restricted=True)
    enough = sum(wanted) * max(room.cost for room in rooms)
    cheapest = None
    for cost in (enough, enough / 2, enough / 4, enough / 8, enough / 16):
        found, _ = model.attempt(cost, 400, seed, lambda: False)
        cheapest = found or cheapest
    assert cheapest is not None
    layouts = sheet_layouts(rooms, cheapest)
    turned_too = tuple(
        turned if kept is not None else item.may_turn and not turned
        for item, turned, kept in zip(grid.items, fixed, orientations, strict=True)
    )
    own = own_settings(grid, fixed) | own_settings(grid, turned_too)
    planner = BestPlan(problem, (), None)
    assert planner.offer_ready(layouts, [0] * len(wanted))
    assert verify(problem, planner.plan()) == ()
    assert job_totals(Scorer(problem, grid), layouts).settings.keys() <= own


@settings(max_examples=60, deadline=None)
@given(problems(), st.integers(0, 12), st.data())
def test_as_many_parts_are_loosened_as_the_settings_allow(
    problem: Problem, more: int, data: st.DataObject
) -> None:
    matches = data.draw(st.lists(st.sampled_from([None, "a", "b"]), min_size=8, max_size=8))
    items = tuple(replace(item, match=match) for item, match in zip(problem.items, matches, strict=False))
    problem = replace(problem, items=items)
    grid = grid_of(problem)
    orientations = common_orientations(grid)
    own = own_settings(grid, orientations)
    order = data.draw(st.permutations(turn_groups(problem)))
    loose = free_orientations(grid, orientations, own, len(own) + more, order, lambda: True)

    def turned(group: TurnGroup) -> set[tuple[bool, int]]:
        kept = [
            (grid.items[index], orientations[index])
            for index in group.items
            if orientations[index] is not None
        ]
        return {way for item, now in kept for way in zip((True, False), item.size(not now), strict=True)}

    changed = [group for group in order if any(loose[index] != orientations[index] for index in group.items)]
    used = set(own).union(*(turned(group) for group in changed))
    assert len(used) <= len(own) + more
    for group in order:
        now = {
            index: (orientations[index], loose[index])
            for index in group.items
            if orientations[index] is not None
        }
        if group not in changed:
            fit = all(fits_some_sheet(grid, grid.items[i].size(not before)) for i, (before, _) in now.items())
            assert not now or not fit or len(used | turned(group)) > len(own) + more
        elif group.free:
            assert all(after is None for _, after in now.values())
        else:
            assert all(after is (not before) for before, after in now.values())
    assert all(
        loose[index] == orientations[index] for index in range(len(items)) if not items[index].may_turn
    )


def test_parts_of_a_match_group_turn_together_or_not_at_all() -> None:
    """Copies that lie in two ways get their sizes from two settings."""
    rows = (
        ("rail", 2, True, "rails"),
        ("top rail", 1, True, "rails"),
        ("cleat", 3, True, None),
        ("lid", 1, True, "lid"),
        ("side", 2, False, "sides"),
    )
    items = tuple(Item(name, F(30), F(5), count, turns, match) for name, count, turns, match in rows)
    assert turn_groups(small_job(items=items)) == (
        TurnGroup((0, 1), False),
        TurnGroup((2,), True),
        TurnGroup((3,), True),
    )


@pytest.mark.parametrize("match", [None, "rails"])
def test_a_part_too_long_to_lie_across_the_sheet_stays_as_it_is(match: str | None) -> None:
    items = (Item("rail", F(60), F(4), 3, True, match), Item("shelf", F(30), F(11), 2, True, match))
    problem = small_job(items=items)
    grid = grid_of(problem)
    orientations = common_orientations(grid)
    loose = free_orientations(
        grid, orientations, own_settings(grid, orientations), 8, turn_groups(problem), lambda: True
    )
    assert loose == ((False, None) if match is None else (False, False))


def test_what_is_left_of_a_carried_piece_stays_uncut() -> None:
    """A block of 23 1/8 in is the last on its sheet. What is cut off by hand has it as its last too."""
    items = (
        Item("side", F(30), F(40), 1),
        Item("top", F(20), F(40), 1),
        Item("rail", F(12), F(10), 1),
        Item("rest", F(11), F(10), 1),
        Item("wide", F(20), F(20), 1),
    )
    problem = small_job(items=items, hand_saw=HAND_SAW, limits=Limits(F(60)))
    grid = grid_of(problem)
    block = Stack(False, (Stack(True, (Leaf(2), Leaf(3))), Leaf(4)))
    layout = add_hand_cuts(grid, SheetLayout(0, Stack(True, (Leaf(0), Leaf(1), block), open=True)))
    assert layout is not None and not isinstance(layout.root, CarriedPiece)
    crosscuts = {size * grid.step for crosscut, size in Scorer(problem, grid)(layout).settings if crosscut}
    assert F("23.125") not in crosscuts and F(12) in crosscuts
    planner = BestPlan(problem, (), None)
    assert planner.offer_ready([layout], [0] * 5)
    assert verify(problem, planner.plan()) == ()


@pytest.mark.parametrize("seed", [0, 1, 2])
def test_a_full_sheet_is_cut_on_the_parts_own_sizes(seed: int) -> None:
    """Thirteen parts take 89 % of a sheet: most ways to fit them need cuts of other sizes too."""
    rows = (
        (30, 19, 2, False),
        (24, 8, 2, False),
        (21, 23, 3, True),
        (15, 15, 4, True),
        (12, 9, 2, False),
    )
    items = tuple(
        Item(f"part {place}", F(length), F(width), count, may_turn)
        for place, (length, width, count, may_turn) in enumerate(rows)
    )
    problem = small_job(items=items, goals=(Goal.SHEET_MONEY, Goal.FENCE_SETTINGS))
    plan = solve(problem, MaxIterations(60_000), seed)
    assert verify(problem, plan) == ()
    grid = grid_of(problem)
    assert plan.figures.sheets == 1 == plan.bound_sheets
    assert plan.figures.settings <= len(own_settings(grid, common_orientations(grid))) == 10


def test_a_piece_is_cut_off_on_the_next_size_that_some_part_has() -> None:
    """A column of rows 5 long where parts are 2, 3 and 6: cut off at 6. Rows stand in it one by one."""
    items = tuple(
        Item(name, F(x), F(y)) for name, x, y in (("a", 2, 3), ("b", 3, 3), ("c", 6, 4), ("d", 3, 2))
    )
    problem = small_job(
        items=items, bins=(Bin("plain", F(12), F(7)),), table_saw=Saw("saw", SawKind.TABLE_SAW, F(0))
    )
    grid = grid_of(problem)
    row = Strip(
        0,
        0,
        6,
        3,
        RowAxis.X,
        (PlacedItem(0, 0, 2, 3, 0, False), PlacedItem(2, 0, 3, 3, 1, False), Waste(5, 0, 1, 3)),
    )
    upper = Strip(0, 3, 6, 4, RowAxis.X, (PlacedItem(0, 3, 3, 2, 3, False), Waste(3, 3, 3, 4)))
    rows = Strip(0, 0, 6, 7, RowAxis.Y, (row, upper))
    other = Strip(6, 0, 6, 7, RowAxis.Y, (PlacedItem(6, 0, 6, 4, 2, False), Waste(6, 4, 6, 3)))
    pattern = Pattern(0, Strip(0, 0, 12, 7, RowAxis.X, (rows, other)))
    model = engine_model(grid, [1] * 4, whole_sheet_rooms(grid), PatternKind(), restricted=True)
    ((_, node),) = model.layouts([pattern])
    column = Stack(False, (Stack(True, (Leaf(0), Leaf(1))), Leaf(3)), least_x=6)
    assert node == Stack(True, (column, Leaf(2)))
