"""What is cut is a fact: a begun sheet stays as it is, and the rest is planned beside it."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.planner.again import keep_plan, plan_again
from casewright.planner.begun import Begun, left_to_cut, same_cuts
from casewright.planner.engine import MaxIterations
from casewright.planner.plan import Plan, PlanStatus, SheetPlan
from casewright.planner.problem import Bin, Item, Problem
from casewright.planner.solve import solve
from casewright.planner.verify.verify import verify

from .shop import SHEET, problems, small_job

SHORT = MaxIterations(60)


def begun_of(plan: Plan, numbers: set[int]) -> Begun:
    return Begun(tuple(sheet for sheet in plan.sheets if sheet.number in numbers))


def by_number(plan: Plan) -> dict[int, SheetPlan]:
    return {sheet.number: sheet for sheet in plan.sheets}


@settings(max_examples=40, deadline=None)
@given(st.one_of(problems(), problems(carry=True)), st.data())
def test_begun_sheets_stay_and_the_whole_plan_is_sound(problem: Problem, data: st.DataObject) -> None:
    before = solve(problem, SHORT)
    numbers = data.draw(st.sets(st.sampled_from([sheet.number for sheet in before.sheets])))
    begun = begun_of(before, numbers)
    other = data.draw(st.sampled_from(problem.items))
    narrower = data.draw(st.integers(-8, 8))
    items = tuple(
        replace(item, width=item.width - F(narrower, 16)) if item.name == other.name else item
        for item in problem.items
    )
    changed = replace(problem, items=items)
    for after in (
        keep_plan(changed, before, begun=begun),
        plan_again(changed, before, SHORT, 1, begun=begun),
    ):
        assert verify(changed, after) == ()
        now = by_number(after)
        for sheet in begun.sheets:
            assert same_cuts(now[sheet.number], sheet)
            if not narrower or all(piece.item != other.name for piece in sheet.parts):
                assert now[sheet.number] == sheet
        if not narrower:
            assert after.sheets == before.sheets or len(after.sheets) <= len(before.sheets)


def test_a_part_of_another_size_leaves_its_piece_over_and_comes_of_another_sheet() -> None:
    before = solve(small_job(), SHORT)
    first = before.sheets[0]
    piece = first.parts[0]
    items = tuple(
        replace(item, width=item.width - F(1, 2)) if item.name == piece.item else item
        for item in small_job().items
    )
    problem = replace(small_job(), items=items)
    after = keep_plan(problem, before, begun=Begun((first,)))
    kept = by_number(after)[first.number]
    assert kept != first and same_cuts(kept, first) and not same_cuts(first, kept)
    assert piece.item not in {one.item for one in kept.parts}
    assert piece.item in {one.item for sheet in after.sheets[1:] for one in sheet.parts}


def test_a_part_that_is_made_comes_of_its_sheet_whatever_its_size() -> None:
    before = solve(small_job(), SHORT)
    first = before.sheets[0]
    made = frozenset(piece.item or "" for piece in first.parts)
    items = tuple(
        replace(item, width=item.width - F(1, 2)) if item.name in made else item for item in small_job().items
    )
    left = left_to_cut(replace(small_job(), items=items), Begun((first,), made))
    assert left.sheets == (first,)
    assert left.problem.parts == small_job().parts - len(first.parts)


def test_when_all_is_begun_nothing_is_left_to_plan() -> None:
    before = solve(small_job(), SHORT)
    begun = Begun(before.sheets)
    for after in (
        keep_plan(small_job(), before, begun=begun),
        plan_again(small_job(), before, SHORT, begun=begun),
    ):
        assert after.sheets == before.sheets and after.status is PlanStatus.OPTIMAL
        assert verify(small_job(), after) == ()


def test_the_stock_that_begun_sheets_use_is_not_used_again_and_new_numbers_come_after_the_highest() -> None:
    rack = Bin("rack", F(48), F(48), count=1, price=F(1), offcut=True)
    problem = Problem((Item("a", F(40), F(20)), Item("b", F(40), F(20))), (rack, SHEET))
    before = solve(problem, SHORT)
    assert [sheet.bin for sheet in before.sheets] == ["rack"]
    more = replace(problem, items=(*problem.items, Item("c", F(40), F(30))))
    begun = Begun((replace(before.sheets[0], number=7),))
    after = plan_again(more, before, SHORT, begun=begun)
    assert [(sheet.number, sheet.bin) for sheet in after.sheets] == [(7, "rack"), (8, SHEET.name)]
    assert verify(more, after) == ()


def test_a_begun_piece_that_is_in_no_stock_today_is_counted_as_wood_in_hand() -> None:
    before = solve(small_job(), SHORT)
    first = replace(before.sheets[0], bin="piece left of sheet 9")
    plan = replace(before, sheets=(first, *before.sheets[1:]))
    after = keep_plan(small_job(), plan, begun=Begun((first,)))
    left = left_to_cut(small_job(), Begun((first,)))
    assert by_number(after)[first.number] == first
    assert after.figures.money == before.figures.money - SHEET.cost
    assert verify(left.problem, left.rest_of(after)) == () and left.holds(after)
