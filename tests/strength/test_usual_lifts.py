"""Lifts of sheets by the equation, worked by hand."""

from __future__ import annotations

import pytest

from casewright.strength.usual_lifts import limit_off_trestles, limit_on_edge


def test_a_sheet_on_edge() -> None:
    """From 15 in to 30 in, 10 in out: 51 x (1 - 0.0075 x 15) x (0.82 + 1.8 / 15) x 0.9 = 38.3 lb; two lift
    4/3 of it."""
    by_hand = 51 * 0.8875 * 0.94 * 0.9
    assert float(limit_on_edge().one) == pytest.approx(by_hand)
    assert float(limit_on_edge().two) == pytest.approx(by_hand * 4 / 3)


def test_a_sheet_off_trestles() -> None:
    """15 in out, from 30 in down to 15 in, where it is set down: 51 x 10 / 15 x 0.8875 x 0.94 x 0.9."""
    assert float(limit_off_trestles().one) == pytest.approx(51 * 10 / 15 * 0.8875 * 0.94 * 0.9)
