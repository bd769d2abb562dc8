"""A front cut again comes from elsewhere: the grain runs on where that buys nothing, else it is said where it
breaks."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from casewright.casework.front_choices import Front, FrontKind
from casewright.casework.job import Bay
from casewright.casework.project import Project, draw_up
from casewright.planner.engine import MaxIterations
from casewright.planner.solve import solve
from casewright.planner.verify.verify import verify
from casewright.repair.facts import AsCut, Blank, Origin
from casewright.repair.find_ways import ways
from casewright.repair.plans_after import plans_after
from casewright.repair.sheets_begun import facts_after
from casewright.repair.way_wording import list_steps
from casewright.repair.ways.from_wood import finish
from casewright.repair.ways.way import CutAgain
from casewright.workshop.operations import cut_key
from casewright.workshop.sheets.cut_problems import cut_problems
from casewright.workshop.sheets.parted_fronts import parted_fronts
from samples import job, spec

BANK = ("B1-DF3", "B1-DF2", "B1-DF1")


@pytest.fixture(scope="module")
def project() -> Project:
    return draw_up(job(spec(bays=(Bay(fronts=(Front(FrontKind.DRAWER),) * 3),))))


def blank(project: Project, fronts: int, name: str) -> Blank:
    """A scrap that just holds so many fronts side by side."""
    length, width = project.dimensions(project.parts["B1-DF1"])[:2]
    return Blank(name, "ply", length, fronts * (width + F(1, 8)), Origin.OFFCUT)


def test_a_step_says_where_the_grain_breaks_beside_a_front_cut_again(project: Project) -> None:
    said = list_steps(project, project, [CutAgain("B1-DF2", "a scrap")])
    assert [words for words in said if "grain" in words] == [
        f"The grain will not run on between {pair}: choose a face that goes well there."
        for pair in ("B1-DF3 and B1-DF2", "B1-DF2 and B1-DF1")
    ]
    whole = list_steps(project, project, [CutAgain(mark, "a scrap") for mark in BANK])
    assert not any("grain" in words for words in whole)


def test_fronts_cut_again_together_come_of_one_scrap_where_one_is_large_enough(project: Project) -> None:
    parts = [project.parts[mark] for mark in BANK[:2]]
    scraps = [blank(project, 1, "one"), blank(project, 1, "other"), blank(project, 2, "large")]
    found = finish(project, parts, scraps, buy=True)
    assert found is not None and not found.bought
    assert found.cuts == dict.fromkeys(BANK[:2], "large")
    assert [one.fronts.marks for one in parted_fronts(project, found.plans)] == [BANK[:2]]


@pytest.mark.parametrize("buy", [False, True])
def test_no_sheet_is_bought_for_the_grain(project: Project, buy: bool) -> None:
    parts = [project.parts[mark] for mark in BANK[:2]]
    scraps = [blank(project, 1, "one"), blank(project, 1, "other")]
    found = finish(project, parts, scraps, buy=buy)
    assert found is not None and not found.bought and set(found.cuts.values()) == {"one", "other"}
    assert not verify(found.problems["ply"], found.plans["ply"])


def test_where_a_sheet_is_bought_anyway_they_come_of_it_together(project: Project) -> None:
    parts = [project.parts[mark] for mark in BANK[:2]]
    found = finish(project, parts, [blank(project, 1, "one")], buy=True)
    assert found is not None and sum(one.count for one in found.bought) == 1
    assert [one.fronts.marks for one in parted_fronts(project, found.plans)] == [BANK[:2]]
    assert not verify(found.problems["ply"], found.plans["ply"])


def test_the_plan_after_a_front_is_cut_again_says_where_its_grain_breaks(project: Project) -> None:
    problems = cut_problems(project)
    plans = {key: solve(problem, MaxIterations(60)) for key, problem in problems.items()}
    done = [
        cut_key(key, sheet.number, cut.order)
        for key, plan in plans.items()
        for sheet in plan.sheets
        for cut in sheet.cuts
    ]
    facts = facts_after(project, plans, done).spoil({"B1-DF2": AsCut(F(1), F(1), worked=True)})
    facts = replace(facts, blanks=(*facts.blanks, blank(project, 1, "a scrap")))
    option = next(
        option
        for option in ways(project, facts).options
        if any(isinstance(one, CutAgain) and one.mark == "B1-DF2" for one in option.actions)
    )
    after = plans_after(project, plans, done, facts, option)["ply"]
    said = [one.place for one in after.findings if one.code == "grain-broken"]
    assert said == ["B1-DF3 + B1-DF2", "B1-DF2 + B1-DF1"]
    assert not [one for one in verify(problems["ply"], after) if one.code == "grain-broken"]
