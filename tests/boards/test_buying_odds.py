"""Buying by the board foot: lots of a grade, and how often what is bought is enough."""

from __future__ import annotations

from fractions import Fraction as F
from itertools import islice

import pytest

from board_lists import USUAL, doors_from
from casewright.boards.board_faults import board_plan_faults
from casewright.boards.buying_odds import BuyingOdds, LotNeeds, buying_odds, lot_needs, lot_of
from casewright.boards.plan_boards import plan_boards
from casewright.boards.random_lots import boards_of_grade
from casewright.shop.lumber import GRADES, GradeName
from casewright.shop.rough_boards import RoughBoard, feet_of

FAS = GRADES[GradeName.FAS]


@pytest.mark.parametrize("name", list(GradeName))
def test_boards_are_of_their_grade(name: GradeName) -> None:
    """No smaller than the grade allows, and no more lost to defects than it grants."""
    grade = GRADES[name]
    usual = (grade.least_length + 24, grade.least_width + 1)
    boards = list(islice(boards_of_grade(grade, *usual, F(1), 7), 300))
    assert all(board.length >= grade.least_length and board.length % 12 == 0 for board in boards)
    assert all(board.widths[0] >= grade.least_width - F(1, 2) for board in boards)
    for board in boards:
        lost = sum(
            (one.end - one.start) * (min(one.high, board.widths[0]) - one.low) for one in board.defects
        )
        assert all(0 <= one.start < one.end <= board.length for one in board.defects)
        assert lost <= (1 - grade.least_yield) * board.area
    mean = sum(float(board.length) for board in boards) / len(boards)
    assert abs(mean - float(usual[0])) < 2


def test_a_lot_needs_what_its_plan_uses_and_no_board_less_was_found() -> None:
    problem = doors_from((), doors=3)
    lot = list(islice(lot_of(USUAL, FAS, 5), 30))
    needs = lot_needs(problem, lot)
    assert needs is not None and needs.without_last < needs.needed
    taken = next(n for n in range(31) if feet_of(lot[:n]) == needs.needed)
    with_all = plan_boards(doors_from(tuple(lot[:taken]), None, 3))
    assert not with_all.unplaced and not board_plan_faults(doors_from(tuple(lot[:taken]), None, 3), with_all)


def test_the_odds_rise_with_what_is_bought_and_meet_what_is_asked() -> None:
    odds = buying_odds(doors_from((), doors=3), FAS, lots=20)
    feet = odds.to_buy(F(9, 10))
    assert feet is not None and odds.lots_enough(F(feet)) >= 18
    assert odds.lots_enough(F(0)) == 0 and odds.lots_enough(F(1000)) == 20
    assert odds.lots_enough(F(feet - 1)) < odds.lots_enough(F(feet)) or feet == odds.to_buy(F(8, 10))
    assert odds == buying_odds(doors_from((), doors=3), FAS, lots=20)


def test_nothing_is_bought_where_boards_at_hand_do() -> None:
    plenty = tuple(RoughBoard(f"board {n}", F(120), (F(8),), F(1)) for n in range(6))
    assert buying_odds(doors_from(plenty, doors=2), FAS, 5).to_buy() == 0


def test_lots_that_never_do_count_against_the_odds() -> None:
    odds = BuyingOdds((LotNeeds(F(10), F(5)),) * 9, hopeless=1)
    assert (odds.lots_enough(F(6)), odds.drawn) == (9, 10)
    assert odds.to_buy(F(9, 10)) == 6 and odds.to_buy(F(95, 100)) is None
