"""Gaps beside inset doors by season: what the stiles of all doors swell is shared by all gaps."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

from casework.solid_jobs import solid
from casewright.casework.front_choices import DoorKind, Front, FrontKind, FrontLie
from casewright.casework.job import Bay
from casewright.casework.movement import movement_text
from casewright.casework.parts.part import Role
from casewright.casework.project import draw_up
from casewright.workshop.assembly.gaps_by_season import panel_words, season_words
from casewright.workshop.assembly.joining import Stage, glue_ups

PAIR = (Bay(fronts=(Front(FrontKind.TWO_DOORS),)),)


def test_four_stiles_of_a_pair_close_its_three_gaps() -> None:
    made = solid({"front": "cherry"}, bays=PAIR, fronts=FrontLie.INSET, door=DoorKind.FRAME_AND_PANEL)
    project = draw_up(made)
    (said,) = season_words(project, project.cases["B1"])
    # Flatsawn cherry, 0.00248 for 1 % (Wood Handbook, table 13-5): 4 x 2 1/4 in from 8 to 11 % and to 6 %.
    closed = F(1, 8) - 4 * F(9, 4) * F("0.00248") * 3 / 3
    opened = F(1, 8) + 4 * F(9, 4) * F("0.00248") * 2 / 3
    assert [round(one * 64) for one in (closed, opened)] == [7, 9]
    assert 'close to 7/64"' in said and 'open to 9/64"' in said


def test_plywood_keeps_its_gaps_and_overlaid_doors_have_none_to_lose() -> None:
    plain = solid(bays=PAIR, fronts=FrontLie.INSET)
    over = solid({"front": "cherry"}, bays=PAIR)
    for made in (plain, over):
        project = draw_up(replace(made))
        assert not list(season_words(project, project.cases["B1"]))


def test_a_solid_panel_s_movement_stands_where_it_goes_into_its_frame() -> None:
    made = solid({"panel": "thin-oak"}, bays=PAIR, door=DoorKind.FRAME_AND_PANEL, panel_play=F(1, 4))
    project = draw_up(made)
    panels = [part for part in project if part.role is Role.DOOR_PANEL]
    width = max(project.sizes.of(part.width) for part in panels)
    told = {one.stage: one.words for one in glue_ups(project, "B1")}
    # Flatsawn red oak, 0.00369 for 1 % (Wood Handbook, table 13-5): from 8 to 6 % and to 11 %.
    shrinks, swells = (movement_text(project.job, width * F("0.00369") * by) for by in (2, 3))
    assert (
        f"shrinks {shrinks} and swells {swells}" in told[Stage.DOORS] and '1/4" in all' in told[Stage.DOORS]
    )
    assert sum("Solid wood moves" in words for words in told.values()) == 1


def test_a_plywood_panel_says_nothing_of_the_seasons() -> None:
    project = draw_up(solid({"front": "cherry"}, bays=PAIR, door=DoorKind.FRAME_AND_PANEL))
    assert not list(panel_words(project, project.cases["B1"]))
