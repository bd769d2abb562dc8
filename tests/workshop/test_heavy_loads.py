"""What is heavy in a job: all that is over the limit for one, the heaviest first, and nothing else."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from types import SimpleNamespace
from typing import cast

import pytest

from casewright.casework.project import Project, draw_up
from casewright.planner.plan import Piece, PieceRole, Plan, SheetPlan
from casewright.shop.machines import Carry
from casewright.workshop.heavy_loads import heavy_lines, heavy_loads
from casewright.workshop.who_lifts import sheet_rule
from samples import SHEETS, SHOP, job


def shop(pounds: int) -> Project:
    """Two cases of sheets of 2 lb a square foot, in a shop where one lifts so much, 96 in long."""
    heavy = {key: replace(good, weight=F(2)) for key, good in SHEETS.items()}
    return draw_up(replace(job(), sheets=heavy, shop=replace(SHOP, carry=Carry(F(pounds), F(96)))))


def sheets(*lengths: int) -> dict[str, Plan]:
    """Sheets of ply so long, 48 in wide."""
    cut = tuple(
        SheetPlan(number, f"ply {long}", Piece(F(0), F(0), F(long), F(48), PieceRole.SHEET))
        for number, long in enumerate(lengths, 1)
    )
    return {"ply": cast("Plan", SimpleNamespace(sheets=cut))}


def test_sheets_and_cases_stand_in_one_list_from_the_heaviest() -> None:
    """A whole sheet is 64 lb, half of one 32; the cases weigh more than 50."""
    found = heavy_loads(shop(50), sheets(96, 48, 96), ())
    pounds = [one.pounds for one in found]
    assert pounds == sorted(pounds, key=lambda one: -(one or 0))
    (of_sheets,) = [one for one in found if "sheet" in one.what]
    assert of_sheets.what == "2 sheets of ply 96, from the rack onto the trestles"
    assert of_sheets.pounds == 64 and not of_sheets.less and of_sheets.who == "two"
    assert any(" on the floor" in one.what for one in found)


@pytest.mark.parametrize(("alone", "who"), [(47, "two with a cart"), (48, "two"), (63, "two")])
def test_a_sheet_of_64_lb_is_for_two_until_a_third_more_than_one_lifts(alone: int, who: str) -> None:
    (one,) = [one for one in heavy_loads(shop(alone), sheets(96), ()) if "sheet" in one.what]
    assert one.who == who


def test_what_two_carry_for_its_length_alone_is_not_heavy() -> None:
    """A sheet 120 in long is longer than one carries; at 80 lb of 100 it is carried by two and not heavy."""
    assert not sheet_rule(shop(100).job.shop.carry).lifters(F(80), F(120)).alone
    assert not [one for one in heavy_loads(shop(100), sheets(120), ()) if "sheet" in one.what]


def test_where_one_lifts_all_of_it_nothing_is_said() -> None:
    assert heavy_lines(shop(200), sheets(96), ()) == ()


def test_many_lines_are_cut_short_and_the_figures_stay() -> None:
    lines = heavy_lines(shop(20), sheets(96, 72, 60, 48), (), most=3)
    assert len(lines) == 4 and "more, lighter" in lines[2]
    assert "20 lb for one, 27 lb for two" in lines[3]
    assert lines[0] == "64 lb: sheet 1, ply 96, from the rack onto the trestles: two with a cart."
