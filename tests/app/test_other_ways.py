"""Other ways to build a job: which are thought of, and that each stands on a plan of its own."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from casewright.app.jobs.worked_job import PlannedJob, open_job
from casewright.app.money.compared_jobs import comparison_rows, planned_like
from casewright.app.money.other_ways import beside, other_ways
from job_texts import EXAMPLES
from loft_job import LOFT
from priced_box import BOX, PRICES

STUDIO = (EXAMPLES / "pottery-studio.toml").read_text(encoding="utf-8")


@cache
def planned(text: str = STUDIO) -> PlannedJob:
    return open_job(text).planned(0.1)


def test_the_cheaper_sheet_of_the_same_thickness_the_back_and_a_larger_sheet() -> None:
    """Most money goes into the maple, sold as 3/4 in; of the other sheets of 3/4 in the MDF is cheapest."""
    what = [way.what for way in other_ways(planned())]
    assert what[:2] == ["MDF for shelves in place of maple plywood 3/4", "backs applied from behind"]
    assert what[2].startswith("sheets of maple plywood 3/4 ")


def test_a_box_of_one_sheet_without_a_back_has_only_another_size() -> None:
    assert [way.what for way in other_ways(planned(BOX + PRICES))] == [
        "sheets of hardwood plywood 3/4 in 120 × 60 to choose from"
    ]


def test_each_is_planned_and_says_what_is_lost() -> None:
    first, *ways = beside(planned())
    assert first.job.planned is planned() and not first.edits
    assert len(ways) == 3
    material, back, _sheet = ways
    of_maple = [part for part in material.job.planned.project if part.material == "maple"]
    assert not [part for part in of_maple if part.mark.endswith(("-L", "-R"))]
    assert material.lost.startswith("lost: the face of maple plywood 3/4")
    assert any("of MDF for shelves in place of maple plywood 3/4" in line for line in material.job.otherwise)
    channels = [part for part in back.job.planned.project for one in part.channels if one.takes_back]
    assert channels == [] and "its edges are seen" in back.lost
    for way in ways:
        assert way.job.planned.made.complete and way.plans == way.job.planned.plans
    known = planned().worked.problems
    for way in ways:
        for key, problem in way.job.planned.worked.problems.items():
            if known.get(key) == problem:
                assert way.job.planned.plans[key] == planned().plans[key], "cut alike, by one plan"


def test_the_rows_have_a_figure_for_each_way() -> None:
    rows = dict(comparison_rows(way.job for way in beside(planned())))
    assert list(rows) == ["quote", "bought", "hours", "sheets to buy", "settings", "weight"]
    assert {len(figures) for figures in rows.values()} == {4}
    assert "not priced" in rows["quote"][0], "a sum that lacks something says so in every column"


def test_who_stops_it_keeps_what_is_planned() -> None:
    (first,) = beside(planned(), stopped=lambda: True)
    assert first.job.planned is planned()


def test_what_is_cut_alike_is_searched_once_and_boards_keep_the_first_jobs_plan() -> None:
    """Another name changes no board: the second job is cut by the first one's plan, though a search
    would come to another. Only the sheets differ, so only they are searched."""
    worked = open_job(LOFT)
    (first, *others) = worked.board_plans["maple"].boards
    other = replace(worked.board_plans["maple"], boards=(replace(first, number=5), *others))
    loft = worked.with_plan(worked.planned(0.1).plans, 0.1, boards={"maple": other})
    reported: list[str] = []
    same = planned_like(loft, open_job(LOFT.replace('job = "Loft"', 'job = "Attic"')), reported.append)
    assert same.board_plans == loft.board_plans and same.plans == loft.plans and not reported
    more = planned_like(loft, open_job(LOFT.replace("opening = 60", "opening = 62")), reported.append)
    assert more.board_plans != loft.board_plans and reported and more.made.seconds == 0.1


def test_a_small_sheet_is_not_cheaper_for_its_size() -> None:
    """MDF at $47 for a quarter of a sheet costs twice as much by the square foot as maple at $94."""
    small = STUDIO.replace('name = "MDF for shelves"\n', 'name = "MDF for shelves"\nsize = [48, 24]\n')
    assert small != STUDIO
    assert not [way.what for way in other_ways(planned(small)) if "MDF" in way.what]
