"""Parts that fit no sheet: one finding for each reason, in the job's unit, with what would let them fit."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from casewright.casework.job import Job
from casewright.casework.project import draw_up
from casewright.findings import Finding, Weight
from casewright.lengths.length import MM, Mark, Unit
from casewright.planner.solve import solve
from casewright.workshop.sheets.cut_problems import cut_problems
from casewright.workshop.sheets.sheet_findings import plan_findings, sheet_findings
from finding_rows import Provoke, Row, check, each
from samples import SHEETS, SHOP, job, spec


def on_sheets(length: F, width: F, unit: Unit = Unit.INCH, **fields: object) -> Job:
    """A base case 36 x 34 1/2 x 24 with its ply in sheets of this size, 1/4 trimmed all round."""
    ply = replace(SHEETS["ply"], sheet_length=length, sheet_width=width)
    mark = Mark.THIRTY_SECOND if unit is Unit.INCH else Mark.HALF_MILLIMETRE
    plain = replace(job(), sheets={**SHEETS, "ply": ply}, unit=unit, mark=mark)
    return replace(plain, **fields)  # type: ignore[arg-type]


def said(made: Job) -> list[Finding]:
    project = draw_up(made)
    problems = cut_problems(project)
    return [one for key, problem in problems.items() for one in sheet_findings(project, key, problem)]


def of(made: Job) -> Provoke:
    return lambda: said(made)


MARKS = ("B1-L", "B1-R", "B1-B", "B1-SF", "B1-SB", "B1-TK", "B1-A1", "B1-M1")
ROWS = [
    Row(
        "too-large",
        "B1-L",
        'B1-L, B1-R and B1-B, up to 35 1/16" long, fit no sheet of birch ply: 23 1/2 x 71 1/2" is left',
        "Make B1 smaller, or list a larger sheet under others of materials.ply",
        of(on_sheets(F(24), F(72))),
        of(on_sheets(F(96), F(48))),
    ),
    Row(
        "too-large",
        "B1-L",
        "up to ~890.5 mm long",
        "larger sheet",
        of(on_sheets(F(24), F(72), Unit.MM)),
        of(on_sheets(F(96), F(48), Unit.MM)),
    ),
    Row(
        "grain",
        "B1-L",
        'up to 35 1/16 x 24", fit a sheet of birch ply only with the grain running across',
        'either_way = ["B1-L", "B1-R", "B1-B", "B1-SF", "B1-SB", "B1-TK", "B1-A1", "B1-M1"]',
        of(on_sheets(F(61, 2), F(48))),
        of(on_sheets(F(61, 2), F(48), either_way=frozenset(MARKS))),
    ),
]


@each(ROWS)
def test_each_is_said_of_the_wrong_sheet_and_not_of_its_neighbour(row: Row) -> None:
    check(row)


def test_no_sheet_fault_of_a_job_in_millimetres_is_in_inches() -> None:
    """The trim is wider than a strip, the fence short of a rip: said in the job's unit, plan or no plan."""
    ply = replace(SHEETS["ply"], trim=40 * MM)
    made = replace(job(), sheets={**SHEETS, "ply": ply}, unit=Unit.MM, mark=Mark.HALF_MILLIMETRE)
    narrow = replace(made.construction, strip_width=30 * MM)
    saw = replace(SHOP, table_saw=replace(SHOP.table_saw, rip_capacity=300 * MM), hand_saw=SHOP.hand_saw)
    spec_ = replace(made.runs[0].cases[0], construction=narrow)
    runs = (replace(made.runs[0], cases=(spec_,)),)
    project = draw_up(replace(made, runs=runs, shop=saw, construction=narrow))
    problem = cut_problems(project)["ply"]
    # Only where there is no hand-held saw is a rip left to a fence that is too short for it.
    plan = solve(by_table_saw := replace(problem, hand_saw=None))
    (trim,) = sheet_findings(project, "ply", problem)
    assert "40 mm is wider than the smallest part, 30 mm" in trim.text
    told = [*plan_findings(project, "ply", by_table_saw, plan)]
    reach = [finding for finding in told if finding.code == "fence-reach"]
    assert reach and all("the fence, which reaches 300 mm" in finding.text for finding in reach)
    assert {"trim", "grain", "too-large"}.isdisjoint(finding.code for finding in told), "said before"


def test_a_part_whose_grain_may_run_either_way_is_turned_and_no_other() -> None:
    project = draw_up(on_sheets(F(61, 2), F(48), either_way=frozenset(MARKS) - {"B1-R"}))
    problem = cut_problems(project)["ply"]
    assert {item.name for item in problem.items if not item.may_turn} == {"B1-R"}
    plan = solve(problem)
    assert [one.item for one in plan.unplaced] == ["B1-R"]
    (finding,) = sheet_findings(project, "ply", problem)
    assert (finding.code, finding.place) == ("grain", "B1-R")


@pytest.mark.parametrize("unit", list(Unit))
def test_the_reason_is_said_once_however_many_parts_share_it(unit: Unit) -> None:
    cases = [spec(f"B{n}") for n in range(1, 6)]
    many = replace(job(*cases), sheets=on_sheets(F(61, 2), F(48)).sheets, unit=unit)
    (finding,) = said(many)
    assert "and 37 more" in finding.text and finding.weight is Weight.REFUSE
