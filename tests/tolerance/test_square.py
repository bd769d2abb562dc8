"""Racking from two diagonals, against corners placed in the plane."""

from __future__ import annotations

from fractions import Fraction as F
from math import cos, dist, sin, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casewright.casework.extents import diagonal
from casewright.casework.job import BackKind, Construction
from casewright.casework.project import draw_up
from casewright.tolerance.as_built.square import racking, square_figures
from samples import job, spec

sides = st.fractions(F(10), F(96), max_denominator=32)


def leaning(width: F, height: F, angle: float) -> tuple[float, float, float]:
    """Both diagonals of a case whose sides lean to the right, and how far its top has moved."""
    wide, high = float(width), float(height)
    top = (high * sin(angle), high * cos(angle))
    corners = {"ll": (0.0, 0.0), "lr": (wide, 0.0), "ul": top, "ur": (wide + top[0], top[1])}
    return dist(corners["ll"], corners["ur"]), dist(corners["ul"], corners["lr"]), top[0]


@given(sides, sides, st.floats(-0.1, 0.1))
def test_the_lean_is_that_of_the_corners_in_the_plane(width: F, height: F, angle: float) -> None:
    rising, falling, moved = leaning(width, height, angle)
    found = racking(width, height, F(rising), F(falling))
    assert found.lean == pytest.approx(moved, abs=1e-9)
    assert found.odd == pytest.approx(0.0, abs=1e-9)
    # Shortening the long diagonal by what it says leaves the square case's own diagonal.
    assert max(rising, falling) - found.draw_in == pytest.approx(diagonal(width, height))


@given(sides, sides, st.floats(0.0001, 0.01))
def test_to_first_order_a_corner_is_drawn_in_by_half_the_difference(
    width: F, height: F, angle: float
) -> None:
    """Common practice, no source; exact to the second order in the lean."""
    rising, falling, moved = leaning(width, height, angle)
    found = racking(width, height, F(rising), F(falling))
    assert found.draw_in == pytest.approx((rising - falling) / 2, abs=2 * moved**2 / 10)
    assert found.corners == "lower left and upper right"


def test_three_four_five() -> None:
    assert diagonal(F(36), F(48)) == 60
    assert racking(F(36), F(48), F(60), F(60)).corners == ""


def test_a_common_error_of_both_readings_is_told_apart_from_racking() -> None:
    found = racking(F(36), F(48), F(60) + F(1, 8), F(60) + F(1, 8))
    assert found.lean == 0 and found.draw_in == 0
    assert found.odd == pytest.approx(1 / 8)


@pytest.mark.parametrize("rising", [F(0), F(-3), F(200)])
def test_diagonals_that_no_case_has_are_refused(rising: F) -> None:
    with pytest.raises(ValueError, match="diagonals"):
        racking(F(36), F(48), rising, F(60))


def test_the_back_squares_a_case_to_within_its_play() -> None:
    square = square_figures(project := draw_up(job()), project.cases["B1"])
    assert (square.width, square.height) == (F(36), F(69, 2))
    assert square.play == F(1, 16)
    assert square.lean is not None and square.differ is not None
    # The case leans as its back's upper corners allow: the play over the back's height.
    back = project.sizes.of("B1-K.length")
    assert square.lean == pytest.approx(float(F(69, 2)) * tan(float(F(1, 16) / back)), rel=1e-5)
    rising, falling, _ = leaning(F(36), F(69, 2), float(F(1, 16) / back))
    assert square.differ == pytest.approx(rising - falling, rel=1e-5)


def test_a_back_flush_with_both_sides_allows_no_lean_and_no_back_says_so() -> None:
    flush = Construction(back=BackKind.APPLIED)
    project = draw_up(job(spec(construction=flush), construction=flush))
    assert square_figures(project, project.cases["B1"]).lean == 0
    bare = Construction(back=BackKind.NONE)
    project = draw_up(job(spec(construction=bare), construction=bare))
    assert square_figures(project, project.cases["B1"]).lean is None
