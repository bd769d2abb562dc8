"""Mishaps with drawers: what is no part of a glued case goes on it still, and boxes are made again by
themselves. What a maker does is common practice, no source."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from casework.drawer_jobs import SLIDES, with_drawers
from casewright.casework.front_choices import DrawerJoint, Front, FrontKind
from casewright.casework.job import Bay
from casewright.casework.parts.part import DRAWER_BOX, FRONTS, Part
from casewright.casework.project import draw_up
from casewright.repair.facts import AsCut, Blank, Facts, Origin
from casewright.repair.find_ways import ways
from casewright.repair.harm import Harm, HarmKind
from casewright.repair.ways.way import Mend, WayKind

# Beside a single front, which takes all there is, a bank: the search for changed sizes goes through both.
BAYS = (
    Bay(fronts=(Front(FrontKind.DRAWER), Front(FrontKind.DRAWER, F(6)))),
    Bay(fronts=(Front(FrontKind.FIXED),)),
)
PROJECT = draw_up(with_drawers(SLIDES["side mount"], width=F(40), bays=BAYS))
WOOD = Blank("half a sheet", "box", F(48), F(48), Origin.OFFCUT)


def others(mark: str) -> dict[str, AsCut]:
    return {part.mark: AsCut(*PROJECT.dimensions(part)[:2]) for part in PROJECT if part.mark != mark}


@pytest.mark.parametrize("part", [part for part in PROJECT if part.role in DRAWER_BOX | FRONTS])
def test_what_was_not_in_a_glued_case_still_goes_on_it(part: Part) -> None:
    mark = part.mark
    length, width, _ = PROJECT.dimensions(part)
    out = AsCut(length, width, harms=(Harm(HarmKind.LEFT_OUT),))
    found = ways(PROJECT, Facts(others(mark), {mark: out}, (), frozenset({"B1"})))
    assert found.options[0].kind is WayKind.USE


def test_a_drawer_side_that_came_out_short_is_cut_again_though_the_case_is_glued() -> None:
    length, width, _ = PROJECT.dimensions(PROJECT.parts["B1-DL1"])
    short = AsCut(length - F(1), width, worked=True)
    found = ways(PROJECT, Facts(others("B1-DL1"), {"B1-DL1": short}, (WOOD,), frozenset({"B1"})))
    assert any(option.kind is WayKind.RECUT for option in found.options)


@pytest.mark.parametrize(("off", "serves"), [(F(1, 32), True), (F(3, 64), False)])
def test_a_bottom_serves_that_is_smaller_by_less_than_its_play(off: F, serves: bool) -> None:
    """1/16 in of play, both edges together: half of it may be lacking before the bottom rattles."""
    length, width, _ = PROJECT.dimensions(PROJECT.parts["B1-DB1"])
    small = AsCut(length - off, width - off)
    found = ways(PROJECT, Facts(others("B1-DB1"), {"B1-DB1": small}, (replace(WOOD, material="thin"),)))
    assert any(option.kind is WayKind.USE for option in found.options) is serves


@pytest.mark.parametrize(("mark", "feature"), [("B1-DL1", "tails-front"), ("B1-DI1", "pins-left")])
@pytest.mark.parametrize(
    ("fault", "kind", "words"),
    [
        # Tight tails are pared, loose ones get slips; past a wrong shoulder line no wood is left.
        (HarmKind.LARGE, WayKind.TO_SIZE, "Pare the dovetailed end"),
        (HarmKind.SMALL, WayKind.FILL, "Glue slips to the dovetailed end"),
        (HarmKind.PLACE, None, ""),
    ],
)
def test_what_went_wrong_with_dovetails(
    mark: str, feature: str, fault: HarmKind, kind: WayKind | None, words: str
) -> None:
    project = draw_up(with_drawers(SLIDES["side mount"], drawer_joint=DrawerJoint.THROUGH_DOVETAILS))
    length, width, _ = project.dimensions(project.parts[mark])
    cut = AsCut(length, width, worked=True, harms=(Harm(fault, feature, by=F(1, 16)),))
    sound = {part.mark: AsCut(*project.dimensions(part)[:2]) for part in project if part.mark != mark}
    found = ways(project, Facts(sound, {mark: cut}, (WOOD,))).options
    mends = [one for one in found if one.kind in (WayKind.TO_SIZE, WayKind.FILL)]
    assert [one.kind for one in mends] == ([kind] if kind else [])
    told = [step for one in mends for act in one.actions if isinstance(act, Mend) for step in act.steps]
    assert not kind or told[0].startswith(words)
    assert any(one.kind is WayKind.RECUT for one in found)
