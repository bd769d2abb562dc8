"""Parts of one piece: placed as one blank, parted in order, and found again in a plan made before."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.planner.again import Moves, keep_plan, moves, plan_again
from casewright.planner.begun import Begun
from casewright.planner.engine import MaxIterations
from casewright.planner.layout.one_piece import with_blanks
from casewright.planner.plan import Piece, Plan, PlanStatus, Purpose
from casewright.planner.problem import Direction, Item, OnePiece, Problem
from casewright.planner.solve import solve
from casewright.planner.verify.verify import verify

from .shop import HAND_SAW, SHEET, TABLE_SAW, problems, small_job

SHORT = MaxIterations(60)


def fronts(*heights: int | str, length: int = 20) -> tuple[Item, ...]:
    return tuple(Item(f"front {number}", F(length), F(high)) for number, high in enumerate(heights, 1))


def bank(*heights: int | str, length: int = 20, **more: object) -> Problem:
    """The small job with a bank of drawer fronts of these heights, side by side across the grain."""
    items = fronts(*heights, length=length)
    one = OnePiece(tuple(item.name for item in items), Direction.RIP)
    return small_job(items=(*small_job().items, *items), one_piece=(one,), **more)


def parent_of(plan: Plan, name: str) -> Piece:
    return next(
        piece
        for sheet in plan.sheets
        for piece in sheet.root.walk()
        if any(child.item == name for child in piece.children)
    )


def in_order(plan: Plan, names: tuple[str, ...]) -> bool:
    """Whether parts come of one piece, one beside the other."""
    found = tuple(child.item for child in parent_of(plan, names[0]).children if child.item in names)
    return found in (names, names[::-1])


@st.composite
def problems_with_sequences(draw: st.DrawFn, carry: bool = False) -> Problem:
    """Random jobs with one or two pieces from which two to four parts are cut, some of them too large."""
    problem = draw(problems(carry=carry))
    items, pieces = list(problem.items), []
    for number in range(draw(st.integers(1, 2))):
        lengthwise = draw(st.booleans())
        common = draw(st.integers(6, 40))
        sizes = draw(st.lists(st.integers(4, 40), min_size=2, max_size=4))
        may_turn = draw(st.booleans())
        parts = [
            Item(f"{number}.{place}", *((F(size), F(common)) if lengthwise else (F(common), F(size))))
            for place, size in enumerate(sizes)
        ]
        items += [replace(part, may_turn=may_turn) for part in parts]
        by = Direction.CROSSCUT if lengthwise else Direction.RIP
        pieces.append(OnePiece(tuple(part.name for part in parts), by))
    saw = replace(problem.table_saw, reach=draw(st.sampled_from([None, F(30)])))
    return replace(problem, items=tuple(items), one_piece=tuple(pieces), table_saw=saw)


@settings(max_examples=30, deadline=None)
@given(st.one_of(problems_with_sequences(), problems_with_sequences(carry=True)), st.data())
def test_any_plan_is_sound_read_back_and_planned_again(problem: Problem, data: st.DataObject) -> None:
    before = solve(problem, SHORT)
    assert verify(problem, before) == () and before.status is not PlanStatus.IMPOSSIBLE
    assert moves(before, keep_plan(problem, before)) == Moves()
    together = {pair for one in with_blanks(problem).one_piece for pair in pairwise(sorted(one.items))}
    for one in problem.one_piece:
        for pair in pairwise(one.items):
            said = any(finding.place == " + ".join(pair) for finding in before.findings)
            assert said is (pair not in together)
    numbers = data.draw(st.sets(st.sampled_from([sheet.number for sheet in before.sheets])))
    begun = Begun(tuple(sheet for sheet in before.sheets if sheet.number in numbers))
    spoiled = data.draw(st.sampled_from(problem.items))
    smaller = replace(spoiled, width=spoiled.width - F(1, 16), length=spoiled.length - F(1, 16))
    for changed in (
        problem,
        replace(
            problem,
            items=tuple(smaller if item is spoiled else item for item in problem.items),
            one_piece=tuple(one for one in problem.one_piece if spoiled.name not in one.items),
        ),
    ):
        assert verify(changed, keep_plan(changed, before, begun=begun)) == ()
        assert verify(changed, plan_again(changed, before, SHORT, 1, begun=begun)) == ()


def test_a_bank_comes_of_one_strip_in_order_with_no_setting_but_its_own() -> None:
    """The strip is as long as the fronts; each comes off it on its own width, and nothing else is set."""
    problem = replace(bank(5, 8, 10), items=fronts(5, 8, 10))
    plan = solve(problem, SHORT)
    assert in_order(plan, problem.one_piece[0].items)
    assert {(cut.direction, cut.setting) for cut in plan.sheets[0].cuts if cut.purpose is Purpose.SIZE} == {
        (Direction.CROSSCUT, F(20)),
        *((Direction.RIP, F(high)) for high in (5, 8, 10)),
    }
    parts = sorted(
        (child for child in parent_of(plan, "front 1").children if child.item), key=lambda one: one.y
    )
    assert all(low.y + low.width + F(1, 8) == high.y for low, high in pairwise(parts))


def test_the_bank_lies_together_among_other_parts() -> None:
    problem = bank(5, 8, 10)
    assert in_order(solve(problem, MaxIterations(300)), problem.one_piece[0].items)


def test_a_bank_larger_than_a_sheet_comes_of_as_few_pieces_as_can_be_and_says_where_it_breaks() -> None:
    problem = bank(20, 20, 20, 20)
    plan = solve(problem, SHORT)
    assert in_order(plan, ("front 1", "front 2")) and in_order(plan, ("front 3", "front 4"))
    said = [finding for finding in plan.findings if finding.code == "grain-broken"]
    assert [finding.place for finding in said] == ["front 2 + front 3"]
    assert verify(problem, plan) == ()
    assert {one.code for one in verify(problem, replace(plan, findings=()))} == {"grain-broken"}


def test_what_the_fence_does_not_reach_is_parted_last_or_by_hand() -> None:
    """A door over a door: the longer one is what is left. With two that are too long the straightedge parts
    them, and the edge it leaves is cleaned up for the next."""
    saw = replace(TABLE_SAW, reach=F(30))
    for lengths_, by_hand in (((40, 28), 0), ((28, 34, 34), 1)):
        items = tuple(Item(f"door {n}", F(long), F(16)) for n, long in enumerate(lengths_))
        one = OnePiece(tuple(item.name for item in items), Direction.CROSSCUT)
        bins = (replace(SHEET, length=F(120)),)
        problem = Problem(items, bins, saw, HAND_SAW, one_piece=(one,))
        plan = solve(problem, SHORT)
        assert verify(problem, plan) == () and in_order(plan, one.items)
        parent = parent_of(plan, "door 0")
        begins = sorted((child.x, child.length) for child in parent.children if child.item)
        parted = [cut for cut in parent.cuts if begins[0][0] < cut.at < begins[-1][0]]
        parted = [cut for cut in parted if cut.purpose is Purpose.SIZE]
        hand = [cut for cut in parted if cut.tool == HAND_SAW.name]
        assert len(hand) == by_hand and not any(cut.setting > F(30) for cut in parted if cut not in hand)


def test_a_front_cut_again_breaks_the_grain_where_it_joins_its_neighbours() -> None:
    """The sheet is begun, and the middle front is needed in another size: it comes of another place."""
    problem = bank(5, 8, 10)
    before = solve(problem, SHORT)
    sheet = next(sheet for sheet in before.sheets if any(part.item == "front 2" for part in sheet.parts))
    items = tuple(replace(item, width=F(7)) if item.name == "front 2" else item for item in problem.items)
    changed = replace(problem, items=items)
    for after in (
        keep_plan(changed, before, begun=Begun((sheet,))),
        plan_again(changed, before, SHORT, begun=Begun((sheet,))),
    ):
        assert verify(changed, after) == ()
        said = [finding.place for finding in after.findings if finding.code == "grain-broken"]
        assert said == ["front 1 + front 2", "front 2 + front 3"]


def test_of_a_bank_cut_again_in_part_the_neighbours_still_come_of_one_piece() -> None:
    problem = bank(5, 8, 10, 12)
    before = solve(problem, SHORT)
    sheet = next(sheet for sheet in before.sheets if any(part.item == "front 2" for part in sheet.parts))
    items = tuple(
        replace(item, width=item.width - 1) if item.name in ("front 2", "front 3") else item
        for item in problem.items
    )
    after = plan_again(replace(problem, items=items), before, SHORT, begun=Begun((sheet,)))
    assert in_order(after, ("front 2", "front 3"))


def test_a_plan_of_single_fronts_moves_them_alone_when_they_shall_come_of_one_piece() -> None:
    problem = bank(5, 8, 10)
    before = solve(replace(problem, one_piece=()), SHORT)
    after = keep_plan(problem, before)
    moved = moves(before, after)
    assert verify(problem, after) == ()
    assert {*moved.other_sheet, *moved.same_sheet} <= set(problem.one_piece[0].items)


def test_a_problem_without_is_searched_as_it_is() -> None:
    problem = small_job()
    assert with_blanks(problem) is problem
