"""One part more than planned: from what boards leave, from a board at hand, or from the smallest to buy."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from board_lists import board_of, doors_from, rough_boards
from casewright.boards.board_faults import board_plan_faults
from casewright.boards.board_problem import BoardPart
from casewright.boards.glue_up import strips_of
from casewright.boards.one_more import left_place, left_places, smallest_board, unused_board, with_place
from casewright.boards.plan_boards import plan_boards
from casewright.shop.lumber import GRADES, GradeName
from casewright.shop.rough_boards import RoughBoard


@pytest.mark.parametrize("size", [(12, 2), (24, 2), (20, 4)])
def test_what_is_said_to_be_left_can_be_cut_with_all_the_rest(size: tuple[int, int]) -> None:
    found = [seed for seed in range(8) if _is_left(seed, BoardPart("again", F(size[0]), F(size[1])))]
    assert found, "no board leaves room for any"


def _is_left(seed: int, again: BoardPart) -> bool:
    """Whether a place is said to be left; the whole plan with it is judged."""
    problem = doors_from(rough_boards(seed, 5), doors=4)
    plan = plan_boards(problem)
    place = left_place(replace(problem, parts=(again,)), plan, again)
    if place is None:
        return False
    with_it = with_place(plan, place)
    assert board_of(with_it)["again"] == place.board.number
    assert board_plan_faults(replace(problem, parts=(*problem.parts, again)), with_it) == []
    return True


def test_a_clear_end_is_found_and_a_board_that_is_full_is_not() -> None:
    board = RoughBoard("A", F(60), (F(3),), F(1))
    part = BoardPart("one", F(20), F(2))
    problem = replace(doors_from((board,), None, 1), parts=(part,))
    plan = plan_boards(problem)
    place = left_place(problem, plan, BoardPart("one", F(20), F(2)))
    assert place is not None and place.fresh and place.length.x == 1 + 21 + F(1, 8)
    assert left_place(problem, plan, BoardPart("one", F(40), F(2))) is None
    other = replace(board, name="B")
    assert unused_board(replace(problem, at_hand=(board, other)), plan, (part,)) == other
    assert unused_board(problem, plan, (part,)) is None


def test_the_smallest_board_is_of_the_grade_and_holds_the_part() -> None:
    problem = doors_from((), doors=1)
    small = smallest_board(problem, GRADES[GradeName.FAS], (BoardPart("one", F(20), F(2)),), F(1))
    assert small == (F(96), F(6), 4)
    long = smallest_board(problem, GRADES[GradeName.FAS], (BoardPart("one", F(100), F(8)),), F(1))
    assert long == (F(103), F(8) + F(3, 8), 6)
    clear = RoughBoard("", long[0], (long[1],), F(1))
    one = BoardPart("one", F(100), F(8))
    assert plan_boards(replace(problem, parts=(one,), at_hand=(clear,), bought=None)).boards


def test_all_strips_of_a_panel_find_their_places_or_none_does() -> None:
    board = RoughBoard("A", F(96), (F(7),), F(1))
    problem = replace(doors_from((board,), None, 1), parts=(BoardPart("one", F(20), F(2)),))
    plan = plan_boards(problem)
    again = strips_of(problem, BoardPart("DP", F(21), F(11)), 4)
    places = left_places(replace(problem, parts=again), plan, again)
    assert places is not None and len({(one.length.x, one.strip.y) for one in places}) == 4
    for place in places:
        plan = with_place(plan, place)
    whole = (*problem.parts, BoardPart("DP", F(21), F(11)))
    assert board_plan_faults(replace(problem, parts=whole), plan) == []
    more = strips_of(problem, BoardPart("DP", F(40), F(11)), 4)
    assert left_places(replace(problem, parts=more), plan, more) is None


def test_the_smallest_board_for_strips_gives_all_of_them() -> None:
    problem = doors_from((), doors=1)
    for width, number in ((F(11), 4), (F(11), 3), (F(30), 6)):
        strips = strips_of(problem, BoardPart("DP", F(40), width), number)
        long, wide, _ = smallest_board(problem, GRADES[GradeName.FAS], strips, F(1))
        clear = RoughBoard("", long, (wide,), F(1))
        assert not plan_boards(replace(problem, parts=strips, at_hand=(clear,), bought=None)).unplaced
