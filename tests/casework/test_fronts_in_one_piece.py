"""Which fronts of a bay come of one piece, by what makes the grain run on or not."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from typing import Any

import pytest

from casework.drawer_jobs import SLIDES, with_drawers
from casewright.casework.extents import part_extent
from casewright.casework.front_choices import DoorKind, DrawerGrain, Front, FrontGrain, FrontKind
from casewright.casework.fronts_in_one_piece import FrontsInOnePiece, fronts_in_one_piece
from casewright.casework.job import Bay, Construction, Job
from casewright.casework.project import draw_up
from casewright.solids.solid_check import check_solids
from samples import SHEETS, job, spec

DOOR, PAIR, DRAWER = Front(FrontKind.DOOR), Front(FrontKind.TWO_DOORS), Front(FrontKind.DRAWER)
FIXED = Front(FrontKind.FIXED)


def fronted(*fronts: Front, bays: tuple[Bay, ...] = (), **made: Any) -> Job:
    construction = Construction(**made)
    one = spec(bays=bays or (Bay(fronts=fronts),), construction=construction)
    return job(one, construction=construction)


def together(made: Job) -> list[tuple[str, ...]]:
    return [one.marks for one in fronts_in_one_piece(draw_up(made))]


@pytest.mark.parametrize(
    ("fronts", "found"),
    [
        ((DRAWER, DRAWER, DRAWER), FrontsInOnePiece(("B1-DF3", "B1-DF2", "B1-DF1"), False, False)),
        ((FIXED, DRAWER), FrontsInOnePiece(("B1-DF1", "B1-FF1"), False, False)),
        ((DOOR, DOOR), FrontsInOnePiece(("B1-DO2", "B1-DO1"), False, True)),
        ((PAIR,), FrontsInOnePiece(("B1-DO1", "B1-DO2"), True, False)),
    ],
    ids=["a bank of drawers", "a drawer over a fixed front", "a door over a door", "a pair of doors"],
)
def test_the_grain_runs_on(fronts: tuple[Front, ...], found: FrontsInOnePiece) -> None:
    assert fronts_in_one_piece(draw_up(fronted(*fronts))) == (found,)
    assert together(fronted(*fronts, front_grain=FrontGrain.EACH_BY_ITSELF)) == []


def test_it_does_not_run_on_where_it_meets_across() -> None:
    """A drawer's front has its grain level, a door under it upright; the pair beside it runs on by itself."""
    assert together(fronted(DOOR, DRAWER)) == []
    assert together(fronted(PAIR, DRAWER)) == [("B1-DO1", "B1-DO2")]
    assert together(fronted(DRAWER, DOOR, DRAWER, DRAWER)) == [("B1-DF3", "B1-DF2")]


def test_upright_it_runs_on_from_drawers_to_a_door() -> None:
    project = draw_up(fronted(DOOR, DRAWER, DRAWER, FIXED, drawer_grain=DrawerGrain.UPRIGHT))
    marks = ("B1-FF1", "B1-DF2", "B1-DF1", "B1-DO1")
    assert fronts_in_one_piece(project) == (FrontsInOnePiece(marks, False, True),)
    level = draw_up(fronted(DOOR, DRAWER, DRAWER, FIXED))
    for mark in marks[:3]:
        assert project.dimensions(project.parts[mark])[:2] == level.dimensions(level.parts[mark])[1::-1]
    assert together(fronted(PAIR, DRAWER, drawer_grain=DrawerGrain.UPRIGHT)) == [("B1-DO1", "B1-DO2")]


def test_upright_fronts_are_hung_and_screwed_where_level_ones_are() -> None:
    bank = (DRAWER,) * 3
    upright = draw_up(with_drawers(SLIDES["side mount"], bank=bank, drawer_grain=DrawerGrain.UPRIGHT))
    level = draw_up(with_drawers(SLIDES["side mount"], bank=bank))
    assert check_solids(upright) == () and upright.findings == level.findings
    assert {part.mark: part_extent(upright, part) for part in upright} == {
        part.mark: part_extent(level, part) for part in level
    }


def test_it_does_not_run_on_from_one_bay_to_the_next() -> None:
    bays = (Bay(fronts=(DRAWER, DRAWER)), Bay(fronts=(DRAWER, DRAWER)))
    assert together(fronted(bays=bays)) == [("B1-DF2", "B1-DF1"), ("B1-DF4", "B1-DF3")]


def test_nothing_runs_on_over_framed_doors_or_sheets_without_grain_or_where_a_front_may_lie_across() -> None:
    assert together(fronted(PAIR, door=DoorKind.FRAME_AND_PANEL)) == []
    made = fronted(DRAWER, DRAWER, DRAWER)
    assert together(replace(made, sheets={**SHEETS, "ply": replace(SHEETS["ply"], grain=False)})) == []
    assert together(replace(made, either_way=frozenset({"B1-DF2"}))) == []
    assert together(replace(made, either_way=frozenset({"B1-DF1"}))) == [("B1-DF3", "B1-DF2")]


def test_a_front_of_another_width_is_cut_by_itself() -> None:
    """Edging at one end of a drawer front makes its blank shorter than that of the one below it."""
    project = draw_up(fronted(DRAWER, DRAWER))
    shorter = {"B1-DF2.length": project.sizes.of(project.parts["B1-DF2"].length) - F(1, 8)}
    assert fronts_in_one_piece(project.given(shorter)) == ()
