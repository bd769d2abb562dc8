"""Board feet and grades against examples that the trade prints."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from casewright.shop.lumber import (
    GRADES,
    QUARTERS,
    GradeName,
    board_feet,
    planed_thickness,
)


@pytest.mark.parametrize(
    ("thick", "wide", "long", "feet"),
    [
        # A school quiz with its answers (numbers 7 to 10): under an inch counts as an inch, over it as it is.
        (F(1), F(6), F(48), F(2)),
        (F(3, 4), F(10), F(72), F(5)),
        (F(5, 4), F(6), F(96), F(5)),
        (F(3, 4), F(8), F(60), F(10, 3)),
        # Three other pages: 4/4 x 8 x 8 ft, 2 x 9 x 4 ft, 1 x 6 x 120.
        (QUARTERS["4/4"], F(8), F(96), F(16, 3)),
        (QUARTERS["8/4"], F(9), F(48), F(6)),
        (F(1), F(6), F(120), F(5)),
        # Woodworking tips and a question site.
        (QUARTERS["6/4"], F(9), F(96), F(9)),
        (F(2), F(8), F(72), F(8)),
    ],
)
def test_board_feet_as_printed(thick: F, wide: F, long: F, feet: F) -> None:
    assert board_feet(long, wide, thick) == feet


@pytest.mark.parametrize(
    ("feet", "each", "money"),
    # The same quiz, numbers 16 and 17: 1 x 6 x 14 ft at $4.25, 1/2 x 8 x 72 at $3.35.
    [
        (board_feet(F(168), F(6), F(1)), F(425, 100), F(2975, 100)),
        (board_feet(F(72), F(8), F(1, 2)), F(335, 100), F(134, 10)),
    ],
)
def test_what_boards_cost_as_printed(feet: F, each: F, money: F) -> None:
    assert feet * each == money


@pytest.mark.parametrize(
    ("wide", "feet", "quarters", "tallied"),
    [
        # American Hardwood Export Council: 6 1/4 in x 8 ft / 12 = 4 1/6, tallied as 4; an importer's page
        # quoting the rules; and AHEC again: two boards of 6 3/4 in x 8 ft are 4 1/2 each and tally 4 and 5.
        (F(25, 4), 8, "4/4", 4),
        (F(13, 2), 8, "4/4", 4),
        (F(8), 12, "4/4", 8),
        (F(10), 13, "4/4", 11),
        (F(27, 4), 8, "4/4", 4),
        (F(27, 4), 8, "4/4", 5),
        # A board of 8/4 counts its surface twice: 2 in thick, 6 1/4 in x 8 ft is 8 board feet.
        (F(25, 4), 8, "8/4", 8),
    ],
)
def test_a_yards_tally_is_the_exact_feet_rounded(wide: F, feet: int, quarters: str, tallied: int) -> None:
    """A yard rounds the face of each board to whole square feet; what is figured here is never rounded, so
    the two differ by half a foot an inch of thickness at most."""
    exact = board_feet(F(12 * feet), wide, QUARTERS[quarters])
    assert abs(exact - tallied) <= QUARTERS[quarters] / 2


@pytest.mark.parametrize(
    ("name", "share", "wide", "feet"),
    # NHLA by grade charts of lumber yards: least yield in clear cuttings, least board.
    [
        ("FAS", F(5, 6), 6, 8),
        ("Selects", F(5, 6), 4, 6),
        ("No. 1 Common", F(2, 3), 3, 4),
        ("No. 2A Common", F(1, 2), 3, 4),
        ("No. 3A Common", F(1, 3), 3, 4),
    ],
)
def test_grades_as_the_charts_have_them(name: str, share: F, wide: int, feet: int) -> None:
    grade = GRADES[GradeName(name)]
    assert (grade.least_yield, grade.least_width) == (share, F(wide))
    assert grade.least_length == 12 * feet


@pytest.mark.parametrize(
    ("quarters", "planed"),
    # NHLA's sizes for boards planed on two sides, by two tables of dealers.
    [("4/4", F(13, 16)), ("6/4", F(5, 4)), ("8/4", F(7, 4)), ("12/4", F(11, 4)), ("16/4", F(15, 4))],
)
def test_boards_planed_on_two_sides(quarters: str, planed: F) -> None:
    if quarters == "6/4":
        # The rule has 1 5/16 here and 1 1/16 for 5/4: 1/16 more than the yards' 1/4 in leaves.
        assert planed_thickness(QUARTERS[quarters]) == planed == F(21, 16) - F(1, 16)
    else:
        assert planed_thickness(QUARTERS[quarters]) == planed
