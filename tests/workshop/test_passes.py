"""Passes of a blade, a buried stack, a notch: against the trade's facts and plane geometry."""

from __future__ import annotations

from fractions import Fraction as F
from itertools import pairwise
from math import hypot, isclose

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casewright.workshop.channels.passes import blade_passes, buried_width, from_far_edge, notch_cut, plunge

sizes = st.fractions(F(1, 16), F(3), max_denominator=128)


def test_a_3_16_back_takes_two_passes_with_the_fence_moved_a_sixteenth() -> None:
    """Common practice, no source: a 1/8 in kerf, then the fence moved 1/16 in."""
    assert blade_passes(F(3, 16), F(1, 8)) == (F(0), F(1, 16))


@given(sizes, st.fractions(F(1, 16), F(1, 4), max_denominator=64))
def test_passes_leave_nothing_standing_and_cut_no_wider(width: F, kerf: F) -> None:
    if width < kerf:
        with pytest.raises(ValueError):
            blade_passes(width, kerf)
        return
    passes = blade_passes(width, kerf)
    assert passes[0] == 0 and passes[-1] + kerf == width
    assert all(0 < b - a < kerf for a, b in pairwise(passes))
    # One pass fewer would leave a whisker.
    if len(passes) > 2:
        assert (width - kerf) / (len(passes) - 2) > kerf - F(1, 64)


def test_what_stands_out_of_the_sacrificial_fence_cuts() -> None:
    """Common practice, no source: a 13/16 stack with 7/16 out of the fence is buried 3/8."""
    assert buried_width(F(7, 16), F(13, 16)) == F(3, 8)
    with pytest.raises(ValueError):
        buried_width(F(7, 8), F(13, 16))


@given(sizes, sizes, sizes)
def test_turned_end_for_end_the_cutter_takes_the_same_wood(at: F, width: F, rest: F) -> None:
    across = at + width + rest
    distance = from_far_edge(across, at, width)
    assert (across - distance - width, across - distance) == (at, at + width)


@given(
    st.fractions(F(4), F(10), max_denominator=16),
    st.fractions(F(1, 4), F(1), max_denominator=32),
    st.fractions(F(1, 16), F(1, 2), max_denominator=32),
)
def test_the_cut_ends_where_the_circle_meets_each_face(diameter: F, thickness: F, proud: F) -> None:
    lying = plunge(diameter, thickness, proud)
    radius = float(diameter) / 2
    centre = radius - float(thickness + proud)  # of the blade above the near face
    assert isclose(hypot(lying.top, centre), radius)
    assert isclose(hypot(lying.below, centre + float(thickness)), radius)
    assert lying.left_standing > 0


def test_a_seven_and_a_quarter_blade_in_three_quarter_ply() -> None:
    """By hand: r = 3 5/8, depth 1; 3.625^2 - 2.625^2 = 13.140625 - 6.890625 = 6.25, whose root is 2.5."""
    assert plunge(F(29, 4), F(3, 4), F(1, 4)).top == 2.5
    with pytest.raises(ValueError):
        plunge(F(2), F(3, 4), F(1, 2))


def test_the_straightedge_stands_a_base_s_width_inside_the_notch_s_line() -> None:
    cut = notch_cut("front edge", F(3), F(4), F(3, 2), plunge(F(29, 4), F(3, 4), F(1, 4)))
    assert cut.guide == F(9, 2) and cut.stop == 2.5
