"""Drawer slides against makers' published measuring pages."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from casewright.jobfile.catalogue import packaged_catalogue
from casewright.lengths.length import MM
from casewright.shop.slides import SlideKind, least_depth, screw_holes, slide_length

SLIDES = packaged_catalogue().slides
SIDE, UNDER = SLIDES["side mount"], SLIDES["under mount"]


def test_room_about_the_box() -> None:
    """A drawer maker's measuring page: 13/16 in lower on under-mount slides, 1/2 in on side-mount ones;
    another maker's: 1/2 in free below and behind."""
    assert (UNDER.lower, UNDER.below, UNDER.behind) == (F(13, 16), F(1, 2), F(1, 2))
    assert SIDE.lower == F(1, 2)


def test_the_longest_that_a_case_takes() -> None:
    assert slide_length(F(22), SIDE) == 22
    assert slide_length(F(22) - F(1, 32), SIDE) == 20
    assert slide_length(F(21), UNDER) == 18, "18 in and 1/2 in behind it; 21 in would need 21 1/2"
    assert slide_length(F(21) + F(1, 2), UNDER) == 21
    assert slide_length(F(9), UNDER) is None
    assert least_depth(F(21), UNDER) == F(43, 2)


def test_kinds() -> None:
    assert {one.kind for one in SLIDES.values()} == set(SlideKind)
    assert all(one.below <= one.lower for one in SLIDES.values())


@pytest.mark.parametrize(
    ("length", "holes"),
    [
        # By hand on the grid of the 32 mm system: 37 + 7 x 32 = 261, and so on.
        (F(250), [37, 37 + 64, 37 + 128]),
        (F(500), [37, 37 + 192, 37 + 384]),
        (F(550), [37, 261, 485]),
        (F(130), [37]),  # no two steps fit
    ],
)
def test_screws_of_slides_are_on_their_steps_and_within_them(length: F, holes: list[int]) -> None:
    found = screw_holes(SLIDES["side mount mm"], length * MM)
    assert found is not None and found.up == F("22.5") * MM
    at = [(found.setback + found.pitch * number) / MM for number in range(found.number)]
    assert at == holes and at[-1] <= length - 37


def test_slides_that_tell_nothing_of_their_screws_are_not_bored_for() -> None:
    assert screw_holes(UNDER, F(18)) is None
    assert screw_holes(replace(SIDE, bored=False), F(18)) is None
    assert screw_holes(replace(SIDE, screw_depth=None), F(18)) is None
