"""Rounding a normal size to the rule's marks, against drawing many and rounding them."""

from __future__ import annotations

from fractions import Fraction as F

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.tolerance.errors.rounded_size import Rounded, rounded


@settings(deadline=None, max_examples=20)
@given(
    st.fractions(F(0), F(40), max_denominator=128),
    st.floats(0.0005, 0.05),
    st.sampled_from([F(1, 32), F(5, 127)]),
)
def test_mean_slope_and_rest_are_those_of_many_rounded_sizes(middle: F, deviation: float, step: F) -> None:
    draws = 200_000
    drawn = np.random.default_rng(5).normal(float(middle), deviation, draws)
    width = float(step)
    marked = np.round(drawn / width) * width
    found = rounded(middle, deviation, step)
    slope = np.cov(drawn, marked)[0, 1] / drawn.var()
    rest = marked - marked.mean() - slope * (drawn - drawn.mean())
    assert found.mean == pytest.approx(marked.mean(), abs=5 * width / draws**0.5)
    assert found.follows == pytest.approx(slope, abs=12 * width / deviation / draws**0.5)
    assert found.rest == pytest.approx(rest.std(), abs=0.02 * width)


def test_a_size_on_a_mark_that_hardly_varies_stays_on_it() -> None:
    found = rounded(F(24), 0.001, F(1, 32))
    assert found.mean == 24
    assert found.follows < 1e-9 and found.rest < 1e-9


def test_a_size_that_varies_by_many_marks_follows_fully() -> None:
    found = rounded(F(24), 1.0, F(1, 32))
    assert found.follows == pytest.approx(1.0)
    assert found.rest == pytest.approx(float(F(1, 32)) / 12**0.5, rel=1e-3)


def test_without_any_variation_the_nearest_mark_is_taken() -> None:
    assert rounded(F(47, 64), 0.0, F(1, 32)) == Rounded(0.75, 0.0, 0.0)
