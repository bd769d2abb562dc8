"""Walls of every length, alone and in rows: their words stand clear, every mark and width is there."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casewright.casework.job import CaseKind, Filler, Job, Run
from casewright.casework.project import draw_up
from casewright.drawings.kit.pages import at_scale
from casewright.drawings.kit.places import spread
from casewright.drawings.kit.scene import Dimension, FigurePlace
from casewright.drawings.kit.svg import svg
from casewright.drawings.views.elevation import elevation, fit_elevation
from casewright.drawings.views.plan_view import plan_view
from casewright.drawings.views.room import Wall, walls
from casewright.packet.pages.wall_pages import GAP, ROOM, wall_rows
from drawings.shown_jobs import HUNG
from packet.drawn_words import Picture, picture
from samples import job, spec

WIDTHS = (F(33), F(12), F(9), F(24) + F(15, 32), F(18) + F(9, 16))


def long_wall(count: int, name: str = "north") -> tuple[Run, Run]:
    """A run on the floor and one above it, of many cases, most of them narrow, with fillers at both ends."""
    widths = [WIDTHS[number % len(WIDTHS)] for number in range(count)]
    low = tuple(spec(f"B{number}", width=width) for number, width in enumerate(widths, 1))
    high = tuple(
        spec(f"W{number}", width=width, kind=CaseKind.WALL, height=F(30), depth=F(12), construction=HUNG)
        for number, width in enumerate(widths, 1)
    )
    ends = (Filler(F(3, 2), F(1, 2), "ply"), Filler(F(1, 2), F(1, 4), "ply"))
    opening = sum(widths) + F(5, 2)
    lower = Run("low", opening, low, wall=name, left=ends[0], right=ends[1], ceiling=F(96))
    return lower, Run(
        "high", opening, high, wall=name, lift=F(54), left=ends[0], right=ends[1], ceiling=F(96)
    )


def walls_of(*runs: Run) -> tuple[Wall, ...]:
    whole: Job = replace(job(), runs=runs)
    return walls(draw_up(whole))


def whole(wall: Wall, scale: float) -> Picture:
    """Elevation and plan at so many points per inch."""
    point = 1.0 / scale
    return picture(svg(at_scale(elevation(wall, point), point, plan_view(wall, point), gap=12.0)).decode())


@pytest.mark.parametrize("count", [1, 2, 8, 25])
@pytest.mark.parametrize("scale", [1.1, 1.4, 1.8, 3.0])
def test_no_word_of_a_wall_lies_over_another_or_over_a_line(count: int, scale: float) -> None:
    (wall,) = walls_of(*long_wall(count))
    shown = whole(wall, scale)
    assert shown.collisions() == []
    marks = [word.text for word in shown.words]
    for case in wall.cases:
        assert case.mark in marks
    widths = [one for one in elevation(wall) if isinstance(one, Dimension) and one.name.endswith(".width")]
    assert len(widths) == 2 * count and all(marks.count(one.text) for one in widths)


def test_a_width_that_has_no_room_is_turned_and_a_fillers_stands_outside() -> None:
    (wall,) = walls_of(*long_wall(5))
    point = 1.0 / 1.4
    placed = {one.name: one.figure for one in elevation(wall, point) if isinstance(one, Dimension)}
    assert placed["B1.width"] is FigurePlace.CHAINED and placed["B4.width"] is FigurePlace.TURNED
    assert placed["run1.left_filler"] is FigurePlace.BEFORE


def test_marks_on_a_wall_are_of_one_size_unless_a_case_is_narrow() -> None:
    (wall,) = walls_of(*long_wall(5))
    sizes = {word.text: word.size for word in whole(wall, 1.8).words if word.text.startswith("B")}
    assert set(sizes.values()) == {10.0}


def test_no_word_of_a_wall_on_the_screen_lies_over_another() -> None:
    (wall,) = walls_of(*long_wall(12))
    placed = fit_elevation(wall, (820.0, 420.0))
    assert placed.wide <= 820.0 and placed.tall <= 420.0
    assert picture(svg(placed).decode()).collisions() == []


def test_short_walls_share_a_row_at_one_scale_and_long_ones_stand_alone() -> None:
    short = [replace(long_wall(2, name)[0], name=name) for name in ("east", "south")]
    again = [
        replace(run, cases=tuple(replace(case, mark=f"{name}{case.mark}") for case in run.cases))
        for name, run in zip("EF", short, strict=True)
    ]
    rows = wall_rows(draw_up(replace(job(), runs=(*long_wall(14), *again))))
    assert [[wall.name for wall, _ in row] for row in rows] == [["north"], ["east", "south"]]
    for row in rows:
        assert len({placed.point for _, placed in row}) == 1
        assert sum(placed.wide for _, placed in row) + GAP * (len(row) - 1) <= ROOM[0] + 0.01
        assert max(placed.tall for _, placed in row) <= ROOM[1] + 0.01


@given(st.lists(st.floats(0.0, 200.0), max_size=12).map(sorted), st.floats(1.0, 20.0))
def test_figures_are_spread_in_order_and_no_further_than_needed(places: list[float], apart: float) -> None:
    moved = [place + by for place, by in zip(places, spread(places, apart), strict=True)]
    assert all(high - low >= apart - 1e-6 for low, high in pairwise(moved))
    if all(high - low >= apart for low, high in pairwise(places)):
        assert moved == pytest.approx(places)
    # Their middle stays where it was.
    assert sum(moved) == pytest.approx(sum(places))
