"""Lifts of sheets by the equation, worked by hand."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from casewright.strength.usual_lifts import (
    limit_of_hung_case,
    limit_of_piece,
    limit_of_standing_case,
    limit_off_trestles,
    limit_on_edge,
)


def test_a_sheet_on_edge() -> None:
    """From 15 in to 30 in, 10 in out: 51 x (1 - 0.0075 x 15) x (0.82 + 1.8 / 15) x 0.9 = 38.3 lb; two lift
    4/3 of it."""
    by_hand = 51 * 0.8875 * 0.94 * 0.9
    assert float(limit_on_edge().one) == pytest.approx(by_hand)
    assert float(limit_on_edge().two) == pytest.approx(by_hand * 4 / 3)


def test_a_sheet_off_trestles() -> None:
    """15 in out, from 30 in down to 15 in, where it is set down: 51 x 10 / 15 x 0.8875 x 0.94 x 0.9."""
    assert float(limit_off_trestles().one) == pytest.approx(51 * 10 / 15 * 0.8875 * 0.94 * 0.9)


def test_a_piece_slid_on_edge_to_the_saw_is_the_best_posture() -> None:
    """10 in out, 30 in up, level, fingers round an edge: every multiplier is 1, the load constant stays."""
    assert limit_of_piece().one == 51
    assert limit_of_piece().two == 68


def test_a_standing_case_is_held_round_by_one_and_at_its_ends_by_two() -> None:
    """From 18 in to 24 in, fair grip: 51 (1 - 0.0075 12) 0.95 = 44.1 lb close to the body; one with the arms
    round 24 in has the hands 8 + 12 in out, so half of it."""
    close = 51 * 0.91 * 0.95
    limit = limit_of_standing_case(F(24))
    assert float(limit.one) == pytest.approx(close / 2)
    assert float(limit.two) == pytest.approx(close * 4 / 3)


def test_a_case_is_hung_from_a_bench() -> None:
    """12 in deep to 54 up: hands 14 in out. 51 (10/14) (1 - 0.0075 24) (0.82 + 1.8/24), by hand."""
    assert float(limit_of_hung_case(F(12), F(54)).one) == pytest.approx(51 * 10 / 14 * 0.82 * 0.895)
