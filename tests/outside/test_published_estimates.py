"""Estimates that were published with their figures: finish by area, lumber by the board foot."""

from __future__ import annotations

from fractions import Fraction as F

from casewright.lengths.quantities import AREA_UNITS
from casewright.shop.lumber import GRADES, GradeName
from casewright.shop.rough_boards import BoughtAsBoards, RoughBoard
from casewright.workshop.costs.finish_area import cans_to_buy, cans_used

FOOT = 144


def test_a_room_of_ten_by_fifteen_takes_a_gallon_a_coat() -> None:
    """HowStuffWorks, "Estimating Interior Paint" (home.howstuffworks.com, read): two walls of 10 ft and two
    of 15 ft, 8 ft high, at 400 sq ft a gallon, take one gallon with one coat; two coats take 2 gallons."""
    walls = F(8) * (2 * 10 + 2 * 15) * FOOT
    assert [cans_to_buy(cans_used(walls, coats, F(400) * FOOT)) for coats in (1, 2)] == [1, 2]


def test_walls_less_a_door_and_a_window() -> None:
    """Reference.com, "How do you estimate the amount of paint you need?" (read): 450 sq ft of wall less a
    door of 20 and a window of 15 are 415; at 350 sq ft a gallon that is 1.2 gallons; a ceiling of 150 takes
    0.43."""
    gallon = F(350) * FOOT
    assert round(float(cans_used(F(450 - 20 - 15) * FOOT, 1, gallon)), 1) == 1.2
    assert round(float(cans_used(F(10 * 15) * FOOT, 1, gallon)), 2) == 0.43


def test_cherry_at_eighteen_dollars_a_board_foot() -> None:
    """GlobalWood, "How to calculate board feet" (globalwood.org, read): a 6/4 board 8 in wide and 72 in long
    has 6 board feet; of cherry at $18 it costs $108. (Its other example, a board of 3/4 in that counts as
    three quarters, is not how hardwood is tallied: what is under an inch counts as an inch.)"""
    board = RoughBoard("A", F(72), (F(8),), F(3, 2))
    bought = BoughtAsBoards(F(3, 2), GRADES[GradeName.FAS], F(18), F(72), F(8))
    assert (board.feet, bought.price_of(board.feet)) == (F(6), F(108))


def test_a_square_metre_in_square_feet() -> None:
    """NIST Special Publication 811, appendix B.8: 1 square foot is 9.290 304 E-02 square metre, exactly."""
    assert AREA_UNITS["ft2"] / AREA_UNITS["m2"] == F("0.09290304")
