"""Sizes that are tried lie on marks that a maker chooses, the nearest first, and stay within reason."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from casewright.lengths.length import MM, Mark, Unit
from casewright.planner.plan import Plan
from casewright.planner.problem import Bin, Item, Problem
from casewright.planner.solve import solve
from casewright.workshop.sheets.trial_sizes import (
    LEAST_STRIP,
    MOST,
    heavier_carries,
    is_round,
    longer_carries,
    may_be_shared_by_one_less,
    narrower_strips,
    nudged_widths,
    offcut_sizes,
    priced_by_area,
    smaller_sizes,
)

RULE, METRIC = Mark.THIRTY_SECOND, Mark.HALF_MILLIMETRE


def test_smaller_sizes_lie_on_sixteenths_whatever_the_rule_shows() -> None:
    sizes = smaller_sizes(F(24), RULE)
    assert sizes[0] == F(24) - F(1, 16) and sizes[-1] == F(24) - MOST
    assert smaller_sizes(F(24) + F(1, 32), RULE)[0] == 24
    assert all((size / F(1, 16)).denominator == 1 for size in smaller_sizes(F(769, 32), RULE))
    assert is_round(F(93, 4), RULE) and not is_round(F(377, 16), RULE)


def test_smaller_sizes_lie_on_whole_millimetres() -> None:
    sizes = smaller_sizes(F(1201, 2) * MM, METRIC)
    assert sizes[0] == 600 * MM and all((size / MM).denominator == 1 for size in sizes)
    assert is_round(595 * MM, METRIC) and not is_round(597 * MM, METRIC)


def test_nothing_becomes_less_than_nothing() -> None:
    assert all(size > 0 for size in smaller_sizes(F(1, 4), RULE))
    assert smaller_sizes(F(1, 16), RULE) == ()


def test_strips_still_hold_two_screws() -> None:
    assert narrower_strips(F(4), RULE) == (F(15, 4), F(7, 2), F(13, 4), F(3))
    assert min(narrower_strips(F(3), RULE)) == LEAST_STRIP and narrower_strips(LEAST_STRIP, RULE) == ()


def test_limits_are_raised_step_by_step_up_to_the_largest_sheet() -> None:
    assert longer_carries(F(72), F(97), Unit.INCH) == (F(84), F(96), F(97))
    assert longer_carries(F(96), F(96), Unit.INCH) == ()
    assert longer_carries(1800 * MM, 2440 * MM, Unit.MM) == (2100 * MM, 2400 * MM, 2440 * MM)
    assert heavier_carries(F(50), F(149, 2), Unit.INCH) == (F(60), F(70), F(75))


@pytest.mark.parametrize(("width", "may"), [(24, True), (F(49, 2), False)])
def test_a_case_is_not_left_out_where_the_others_would_sag(width: F, may: bool) -> None:
    assert may_be_shared_by_one_less([F(width)] * 3) is may
    assert not may_be_shared_by_one_less([F(width)])


def test_shares_are_nudged_to_round_widths() -> None:
    wider, narrower = nudged_widths(F(721, 32), RULE)
    assert wider == (F(23), F(47, 2), F(24), F(49, 2)) and narrower == (F(22), F(43, 2), F(21), F(41, 2))


def test_the_largest_offcut_holds_what_the_emptiest_sheet_does() -> None:
    plan = _plan(Item("large", F(80), F(40)), Item("door", F(29), F(13) + F(1, 8)))
    sizes = offcut_sizes(plan, ["sheet"], Unit.INCH)
    assert sizes[-1] == (F(29), F(14))
    assert all(length <= 29 and width <= 14 for length, width in sizes)
    assert offcut_sizes(plan, ["another"], Unit.INCH) == ()


def test_more_than_half_a_sheet_is_no_offcut() -> None:
    assert offcut_sizes(_plan(Item("large", F(80), F(40))), ["sheet"], Unit.INCH) == ()


def test_another_size_is_priced_by_its_area() -> None:
    assert priced_by_area(F(96), (F(60), F(60)), (F(96), F(48))) == 75


def _plan(*items: Item) -> Plan:
    return solve(Problem(items, (Bin("sheet", F(96), F(48), price=F(90)),)))
