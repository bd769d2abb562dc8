"""Drawer slides against makers' published measuring pages."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from casewright.jobfile.catalogue import packaged_catalogue
from casewright.lengths.length import MM
from casewright.shop.slides import SlideKind, box_width, least_depth, screw_holes, slide_length

SLIDES = packaged_catalogue().slides
SIDE, UNDER, UNDER_MM = SLIDES["side mount"], SLIDES["under mount"], SLIDES["under mount mm"]


@pytest.mark.parametrize("name", ["side mount", "side mount mm"])
def test_room_beside_side_mount_slides(name: str) -> None:
    """A slide maker's page: 12.9 to 13.2 mm beside a slide of 12.7; a factory's: 13, 12.5 binds, 13.5
    shakes. The same whatever the sides are."""
    for sides in (F(1, 2), F(5, 8)):
        room = (F(20) - box_width(F(20), SLIDES[name], sides)) / 2 / MM
        assert F("12.9") <= room <= F("13.2")


@pytest.mark.parametrize(("sides", "less"), [(F(1, 2), F(5, 8)), (F(5, 8), F(3, 8))])
def test_width_on_under_mount_slides(sides: F, less: F) -> None:
    """A drawer maker, a hardware seller and a drawer shop: outside 5/8 in less with 1/2 in sides, 3/8 in with
    5/8 in."""
    assert box_width(F(20), UNDER, sides) == F(20) - less


@pytest.mark.parametrize(("sides", "less"), [(13, 16), (15, 12)])
def test_width_on_under_mount_slides_in_millimetres(sides: int, less: int) -> None:
    """A British drawer maker's page."""
    assert box_width(500 * MM, UNDER_MM, sides * MM) == (500 - less) * MM


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
