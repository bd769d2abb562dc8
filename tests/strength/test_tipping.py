"""Tipping: moments worked by hand, and what opening, filling and fastening change."""

from dataclasses import replace
from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casewright.strength.tipping import (
    FreestandingCase,
    StandingDoor,
    StandingDrawer,
    tips_when_open,
)

DRAWER = StandingDrawer(F(12), F(0), F(20), F(20), F(30))
CHEST = FreestandingCase("T1", F(100), F(24), F(40), drawers=(DRAWER,))


def test_moments_by_hand() -> None:
    """Level: 100 lb, 12 in behind the front, holds 1200; a drawer of 12 lb, 20 in long and out by 20, tips by
    10 x 12; 60 lb at its front edge by 20 x 60. It goes over; 120 lb in at 40 in hold it with a 3 lb pull."""
    level = tips_when_open(CHEST, under_back=F(0))
    assert (level.holding, level.tipping) == (F(1200), F(1320))
    assert not level.meets
    assert level.strap(F(40)) == 3


def test_leaning_as_on_carpet_tips_sooner() -> None:
    """A block of 10.9 mm under 24 in leans it by 0.0179: 100 lb at 20 in up come 0.358 in forward."""
    leaning = tips_when_open(CHEST)
    assert float(leaning.holding) == pytest.approx(100 * (12 - 20 * 0.42913 / 24), abs=0.1)
    on_toe = tips_when_open(replace(CHEST, drawers=(), foot=F(6)))  # 18 in of feet lean further
    assert float(on_toe.holding) == pytest.approx(100 * (6 - 20 * 0.42913 / 18), abs=0.1)
    heavy = replace(CHEST, pounds=F(111))
    assert tips_when_open(heavy, under_back=F(0)).meets
    assert not tips_when_open(heavy).meets


def test_full_drawers_and_a_toe_kick_tip_sooner() -> None:
    """8.5 lb/ft3 in 1728 in3 is 8.5 lb more at 10 in in front; a toe kick 3 in deep takes 3 in from every
    arm."""
    level = tips_when_open(CHEST, under_back=F(0))
    full = tips_when_open(replace(CHEST, drawers=(replace(DRAWER, volume=F(1728)),)), under_back=F(0))
    assert full.tipping - level.tipping == 85
    toe = tips_when_open(replace(CHEST, foot=F(3)), under_back=F(0))
    assert (toe.holding, toe.tipping) == (F(900), F(13 * 12 + 23 * 60))


def test_doors_carry_the_test_weight_where_there_is_no_drawer() -> None:
    """A door of 10 lb, 18 in wide: 9 in out; the weight at its end, 18 in out."""
    doored = replace(CHEST, drawers=(), doors=(StandingDoor(F(10), F(18), F(20)),))
    assert tips_when_open(doored, under_back=F(0)).tipping == 10 * 9 + 60 * 18
    both = replace(doored, drawers=(DRAWER,))
    assert tips_when_open(both, under_back=F(0)).tipping == 90 + 120 + 1200


def test_a_closed_case_only_leans() -> None:
    plain = replace(CHEST, drawers=())
    assert tips_when_open(plain).meets
    assert tips_when_open(plain).tipping == 0


@given(
    pounds=st.integers(20, 300).map(F),
    depth=st.integers(10, 30).map(F),
    travel=st.integers(5, 24).map(F),
    weight=st.integers(1, 100).map(F),
)
def test_a_fastening_just_holds(pounds: F, depth: F, travel: F, weight: F) -> None:
    case = FreestandingCase("T1", pounds, depth, F(60), drawers=(replace(DRAWER, travel=travel),))
    check = tips_when_open(case, weight)
    pull = check.strap(F(50))
    assert (pull == 0) == (check.holding >= check.tipping)
    if pull:
        assert check.holding + pull * 50 == check.tipping
    assert tips_when_open(case, weight + 1).strap(F(50)) >= pull
    assert tips_when_open(replace(case, pounds=pounds + 1), weight).strap(F(50)) <= pull


def test_cases_that_cannot_be_are_refused() -> None:
    with pytest.raises(ValueError, match="T1 needs a weight"):
        replace(CHEST, pounds=F(0))
    with pytest.raises(ValueError, match="24 in behind its front"):
        replace(CHEST, foot=F(24))
    with pytest.raises(ValueError, match="above the floor, not at 0 in"):
        tips_when_open(CHEST).strap(F(0))
