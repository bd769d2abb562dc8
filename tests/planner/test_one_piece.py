"""Parts of one piece: placed as one blank, parted in order, and found again in a plan made before."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.planner.again import Moves, keep_plan, moves, plan_again
from casewright.planner.begun import Begun
from casewright.planner.engine import MaxIterations
from casewright.planner.plan import Piece, Plan, PlanStatus
from casewright.planner.problem import Direction, Item, OnePiece, Problem
from casewright.planner.solve import solve
from casewright.planner.verify.verify import verify

from .shop import problems, small_job

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


@settings(max_examples=60, deadline=None)
@given(st.one_of(problems_with_sequences(), problems_with_sequences(carry=True)), st.data())
def test_any_plan_is_sound_read_back_and_planned_again(problem: Problem, data: st.DataObject) -> None:
    before = solve(problem, SHORT)
    assert verify(problem, before) == () and before.status is not PlanStatus.IMPOSSIBLE
    assert moves(before, keep_plan(problem, before)) == Moves()
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
