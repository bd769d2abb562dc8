"""The lifting equation against its manual's worked examples and its own limits."""

from dataclasses import replace
from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casewright.strength.lift_limit import (
    Grip,
    HandLift,
    coupling,
    distance,
    hands_out,
    horizontal,
    limit_of_lift,
    recommended_limit,
    vertical,
)
from oracles.lifting_equation import LiftingHours, frequency_multiplier, whole_equation

PUNCH_PRESS = HandLift(F(23), F(15), Grip.FAIR)


def test_loading_punch_press_stock() -> None:
    """NIOSH 94-110, example 1 (from memory): 44 lb from V 15 to V 63, H 23, fair: HM .44, VM .89 and .75, DM
    .86; RWL 16.3 lb at the origin and 14.5 lb at the destination, lifting index 2.7 and 3.0."""
    assert round(float(horizontal(F(23))), 2) == pytest.approx(0.43, abs=0.011)
    assert float(vertical(F(15))) == pytest.approx(0.89, abs=0.005)
    assert float(vertical(F(63))) == pytest.approx(0.75, abs=0.005)
    assert float(distance(F(48))) == pytest.approx(0.86, abs=0.005)
    origin = recommended_limit(PUNCH_PRESS, F(48))
    end = recommended_limit(replace(PUNCH_PRESS, high=F(63)), F(48))
    assert float(origin) == pytest.approx(16.3, abs=0.35)  # the manual prints HM .44 for 10 / 23 = .435
    assert float(end) == pytest.approx(14.5, abs=0.35)
    assert (round(44 / float(origin), 1), round(44 / float(end), 1)) == (2.7, 3.1)
    assert limit_of_lift(PUNCH_PRESS, F(48)).one == end


def test_loading_supply_rolls() -> None:
    """NIOSH 94-110, example 2 (from memory): 35 lb, H 20, V 27, D 33, poor: RWL 19.6 lb, lifting index
    1.8."""
    limit = recommended_limit(HandLift(F(20), F(27), Grip.POOR), F(33))
    assert float(limit) == pytest.approx(19.6, abs=0.1)
    assert round(35 / float(limit), 1) == 1.8


def test_the_canadian_pages_example() -> None:
    """CCOHS, frequency factor (read): hands turned 90 degrees: 0.71; ten lifts a minute for eight hours with
    the hands at 75 cm: 0.13."""
    turned = whole_equation(10, 30, 10, 1, turned=90)
    assert turned / 51 == pytest.approx(0.71, abs=0.005)
    often = whole_equation(10, 30, 10, 1, a_minute=10, hours=LiftingHours.EIGHT)
    assert often / 51 == pytest.approx(0.13)


def test_the_best_posture_allows_the_constant() -> None:
    assert recommended_limit(HandLift(F(10), F(30), Grip.GOOD), F(10)) == 51


def test_the_check_in_the_tables() -> None:
    """Worked out by hand from the formula: H 15, V 20, D 30, fair, at most one lift in five minutes: 26.29
    lb."""
    limit = recommended_limit(HandLift(F(15), F(20), Grip.FAIR), F(30))
    assert float(limit) == pytest.approx(26.29, abs=0.005)


@pytest.mark.parametrize(
    ("multiplier", "last", "beyond"),
    [
        (horizontal(F(25)), F("0.4"), horizontal(F("25.1"))),
        (vertical(F(70)), F("0.7"), vertical(F("70.1"))),
        (distance(F(70)), F("0.82") + F(18, 700), distance(F("70.1"))),
    ],
)
def test_beyond_the_manuals_reach_nothing_is_allowed(multiplier: F, last: F, beyond: F) -> None:
    assert (multiplier, beyond) == (last, F(0))


def test_frequency_takes_the_next_line_of_the_table() -> None:
    assert frequency_multiplier(0, LiftingHours.ONE, 20) == 1
    assert frequency_multiplier(0.3, LiftingHours.ONE, 20) == 0.97
    assert frequency_multiplier(13, LiftingHours.ONE, 29) == 0
    for hours in LiftingHours:
        values = [frequency_multiplier(lifts, hours, 30) for lifts in range(16)]
        assert values == sorted(values, reverse=True)


def test_grips() -> None:
    assert [coupling(grip, F(20)) for grip in Grip] == [1, F("0.95"), F("0.9")]
    assert [coupling(grip, F(30)) for grip in Grip] == [1, 1, F("0.9")]


def test_two_people_lift_a_third_more_than_one() -> None:
    """The Health and Safety Executive's guidance as a railway tells it (read): 20 kg for one, 26.6 kg for
    two."""
    limit = limit_of_lift(PUNCH_PRESS, F(48))
    assert float(20 * limit.two / limit.one) == pytest.approx(26.6, abs=0.1)
    assert [limit.people(limit.one), limit.people(limit.one + 1), limit.people(limit.two + 1)] == [1, 2, None]


def test_hands_on_a_deep_case_are_far_out() -> None:
    """94-110: H = 8 + W / 2 from 10 in up, 10 + W / 2 below."""
    assert [hands_out(F(24), F(30)), hands_out(F(24), F(5)), hands_out(F(1), F(30))] == [F(20), F(22), F(10)]
    too_deep = HandLift(hands_out(F(36), F(30)), F(30))
    assert limit_of_lift(too_deep, F(10)).one == 0


lifts = st.builds(
    HandLift,
    out=st.integers(0, 26).map(F),
    high=st.integers(0, 72).map(F),
    grip=st.sampled_from(Grip),
)


@given(lift=lifts, travel=st.integers(0, 72).map(F), more=st.integers(1, 20).map(F))
def test_a_harder_lift_never_allows_more(lift: HandLift, travel: F, more: F) -> None:
    here = recommended_limit(lift, travel)
    assert 0 <= here <= 51
    assert recommended_limit(replace(lift, out=lift.out + more), travel) <= here
    assert recommended_limit(lift, travel + more) <= here


@given(lift=lifts, travel=st.integers(0, 72).map(F))
def test_a_lift_straight_ahead_and_seldom_is_the_whole_equations(lift: HandLift, travel: F) -> None:
    coupled = float(coupling(lift.grip, lift.high))
    whole = whole_equation(float(lift.out), float(lift.high), float(travel), coupled)
    assert float(recommended_limit(lift, travel)) == pytest.approx(whole)


def test_a_lift_that_cannot_be_is_refused() -> None:
    with pytest.raises(ValueError, match="the high of a lift cannot be less than zero, not -1"):
        replace(PUNCH_PRESS, high=F(-1))
