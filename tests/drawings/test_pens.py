"""Lines are told apart by weight on paper that prints no colour."""

from __future__ import annotations

from itertools import pairwise

from casewright.drawings.kit import pens
from casewright.drawings.kit.pens import BOLD, FINE, FIRM, HAIR, HAND_CUT, HEAVY, HIDDEN, TABLE_CUT, Pen

EVERY = [pen for pen in vars(pens).values() if isinstance(pen, Pen)]
THICK_TO_THIN = 2.0
"""Wide to narrow line, as ISO 128-2 and ASME Y14.2 have it (from memory)."""


def grey(colour: str) -> float:
    """How light a colour prints in greyscale, 0 for black and 1 for white (weights of Rec. 601)."""
    red, green, blue = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    return 0.299 * red + 0.587 * green + 0.114 * blue


def test_a_reference_edge_is_the_strongest_line() -> None:
    others = [pen for pen in EVERY if pen is not HEAVY]
    assert not HEAVY.dash and all(HEAVY.weight >= 1.4 * pen.weight for pen in others)
    assert all(grey(HEAVY.colour) <= grey(pen.colour) for pen in others)
    assert HEAVY.weight >= THICK_TO_THIN * BOLD.weight


def test_outlines_are_twice_as_wide_as_what_explains_them() -> None:
    assert all(BOLD.weight >= THICK_TO_THIN * pen.weight for pen in (FINE, HAIR, HIDDEN))
    weights = [pen.weight for pen in (HEAVY, BOLD, FIRM, FINE, HAIR)]
    assert all(one >= 1.4 * other for one, other in pairwise(weights))


def test_cuts_by_hand_and_at_the_table_differ_in_weight_and_dash() -> None:
    assert HAND_CUT.weight >= THICK_TO_THIN * TABLE_CUT.weight
    assert HAND_CUT.dash and not TABLE_CUT.dash
