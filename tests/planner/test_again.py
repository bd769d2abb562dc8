"""Planning again: what is on paper stays where it is, and nothing gets worse."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.planner.again import Moves, at_other_prices, keep_plan, moves, plan_again
from casewright.planner.engine import MaxIterations
from casewright.planner.layout.exact_plan import sheet_plan
from casewright.planner.layout.integer_grid import grid_of
from casewright.planner.layout.plan_layout import kept_layouts
from casewright.planner.plan import Plan, PlanStatus, renumbered
from casewright.planner.problem import Bin, Item, Limits, Problem
from casewright.planner.solve import solve
from casewright.planner.verify.verify import verify

from .shop import HAND_SAW, SHEET, problems, small_job

SHORT = MaxIterations(60)
CARRIED = {"hand_saw": HAND_SAW, "limits": Limits(F(45), F(64))}


def with_size(problem: Problem, name: str, length: F, width: F) -> Problem:
    items = (
        replace(item, length=length, width=width) if item.name == name else item for item in problem.items
    )
    return replace(problem, items=tuple(items))


@settings(max_examples=60, deadline=None)
@given(st.one_of(problems(), problems(carry=True)))
def test_a_plan_is_read_back_as_it_was(problem: Problem) -> None:
    plan = solve(problem, SHORT)
    kept = kept_layouts(problem, grid_of(problem), plan)
    again = [
        sheet_plan(problem, grid_of(problem), layout, number) for number, layout in enumerate(kept.layouts, 1)
    ]
    assert tuple(again) == plan.sheets
    assert not any(kept.missing)


@settings(max_examples=25, deadline=None)
@given(st.one_of(problems(), problems(carry=True)), st.data())
def test_smaller_parts_never_cost_a_sheet(problem: Problem, data: st.DataObject) -> None:
    """Every part may shrink by up to an inch: the plan made before still holds them all."""
    before = solve(problem, SHORT)
    less = data.draw(st.lists(st.integers(0, 32), min_size=len(problem.items), max_size=len(problem.items)))
    items = tuple(
        replace(item, length=item.length - F(n, 32), width=item.width - F(n, 32))
        for item, n in zip(problem.items, less, strict=True)
    )
    smaller = replace(problem, items=items)
    for after in (keep_plan(smaller, before), plan_again(smaller, before, SHORT, 1)):
        assert verify(smaller, after) == ()
        assert not after.unplaced
        # Only a lift that a smaller part has made needless may be paid for: limits outrank money.
        fewer_lifts = sum(f.code == "limit-bent" for f in after.findings) < sum(
            f.code == "limit-bent" for f in before.findings
        )
        assert after.figures.money <= before.figures.money or fewer_lifts


@settings(max_examples=40, deadline=None)
@given(st.one_of(problems(), problems(carry=True)), st.data())
def test_whatever_changes_the_plan_carried_over_is_sound(problem: Problem, data: st.DataObject) -> None:
    """Parts grow, go and come; sheets lose their trim. Nothing that still has room is left out in silence."""
    before = solve(problem, SHORT)
    other = data.draw(st.one_of(problems(), st.just(problem)))
    items = tuple(
        replace(item, length=min(item.length + F(data.draw(st.integers(-16, 16)), 8), F(94)))
        for item in problem.items
        if data.draw(st.integers(0, 5))
    )
    come = (replace(other.items[0], name="come"),)
    changed = replace(problem, items=items + come, bins=other.bins[:1])
    after = keep_plan(changed, before)
    assert verify(changed, after) == ()
    assert after.status is not PlanStatus.IMPOSSIBLE


def test_nothing_moves_where_nothing_has_changed() -> None:
    problem = small_job(**CARRIED)
    plan = solve(problem, SHORT)
    assert keep_plan(problem, plan).sheets == plan.sheets
    assert moves(plan, keep_plan(problem, plan)) == Moves()


def test_a_search_that_finds_as_good_a_plan_moves_nothing() -> None:
    """Another seed lays the parts out otherwise, at the same money: paper that is printed stays right."""
    problem = small_job()
    plan = solve(problem, MaxIterations(2000), 0)
    for seed in range(1, 4):
        other = solve(problem, SHORT, seed)
        assert moves(plan, other) != Moves()
        assert plan_again(problem, plan, SHORT, seed).sheets == plan.sheets


def test_one_width_that_changes_moves_no_other_part() -> None:
    problem = small_job(**CARRIED)
    plan = solve(problem, MaxIterations(2000))
    changed = with_size(problem, "shelf", F("28.125"), F("21.25"))
    assert moves(plan, plan_again(changed, plan, SHORT)) == Moves()


def test_a_new_part_goes_where_there_is_room() -> None:
    problem = small_job()
    plan = solve(problem, MaxIterations(2000))
    more = replace(problem, items=(*problem.items, Item("cleat", F(12), F(3))))
    after = plan_again(more, plan, SHORT)
    assert moves(plan, after) == Moves(new=("cleat",))
    assert after.figures.sheets == plan.figures.sheets


def test_a_sheet_saved_is_worth_the_moving() -> None:
    """A plan of record with a sheet too many is left for one with fewer, and the moves are listed."""
    problem = small_job()
    plan = solve(problem, MaxIterations(2000))
    spread = replace(problem, items=(*problem.items, Item("top", F(95), F(47))))
    wide = solve(spread, MaxIterations(2000))
    assert wide.figures.sheets == plan.figures.sheets + 1
    last = max(sheet.number for sheet in plan.sheets) + 1
    # The same parts as `problem`, one of them alone on a sheet of its own.
    lone = Item("strip", F("28.5"), F(4), 1, may_turn=True)
    alone = solve(replace(problem, items=(lone,)), SHORT)
    fewer = solve(
        replace(
            problem,
            items=tuple(replace(item, count=3) if item.name == "strip" else item for item in problem.items),
        ),
        MaxIterations(2000),
    )
    wasteful = replace(fewer, sheets=(*fewer.sheets, replace(alone.sheets[0], number=last)))
    after = plan_again(problem, wasteful, MaxIterations(2000))
    assert after.figures.sheets < len(wasteful.sheets)
    assert "strip" in moves(wasteful, after).other_sheet
    assert verify(problem, after) == ()


def test_sheets_keep_their_numbers_and_a_new_one_gets_its_own() -> None:
    problem = small_job()
    plan = solve(problem, MaxIterations(2000))
    numbered = renumbered(plan, [4 + place for place in range(len(plan.sheets))])
    more = replace(problem, items=(*problem.items, Item("door", F(95), F(46))))
    after = keep_plan(more, numbered)
    assert [sheet.number for sheet in after.sheets] == [
        *(sheet.number for sheet in numbered.sheets),
        numbered.sheets[-1].number + 1,
    ]


def test_rack_pieces_that_are_gone_lose_their_parts() -> None:
    rack = replace(SHEET, name="rack", length=F(60), width=F(40), count=1, price=F(1), offcut=True)
    problem = replace(small_job(bins=(rack, SHEET)), items=(Item("side", F("34.5"), F("23.25"), 1),))
    plan = solve(problem, SHORT)
    assert [sheet.bin for sheet in plan.sheets] == ["rack"]
    gone = replace(problem, bins=(SHEET,))
    after = keep_plan(gone, plan)
    assert verify(gone, after) == () and not after.unplaced
    assert [sheet.bin for sheet in after.sheets] == ["birch"]


def test_a_plan_found_from_another_is_never_worse() -> None:
    problem = small_job()
    start = solve(problem, MaxIterations(2000))
    found = solve(problem, MaxIterations(1), 3, starts=(start,))
    assert found.figures.money <= start.figures.money
    assert isinstance(found, Plan) and verify(problem, found) == ()


def test_another_price_alone_leaves_the_proof() -> None:
    problem = small_job()
    before = solve(problem)
    assert before.status is PlanStatus.OPTIMAL
    dearer = replace(problem, bins=(replace(problem.bins[0], price=F(95)),))
    after = at_other_prices(dearer, before)
    assert verify(dearer, after) == ()
    assert (after.status, after.bound, after.proof()) == (before.status, after.figures.money, before.proof())
    scrap = Bin("scrap", F(20), F(20), count=1, price=F(1), offcut=True)
    mixed = at_other_prices(replace(dearer, bins=(*dearer.bins, scrap)), before)
    assert mixed.bound == 95 * (before.bound_sheets - 1) + 1 and mixed.status is PlanStatus.OPEN
