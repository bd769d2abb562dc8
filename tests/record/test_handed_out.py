"""The plans handed to the shop come back as they went, so a tick goes on meaning the same cut."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest

from casewright.casework.project import draw_up
from casewright.errors import RecordError
from casewright.findings import Finding, Weight
from casewright.planner.engine import MaxIterations
from casewright.planner.plan import Plan, SheetPlan
from casewright.planner.solve import solve
from casewright.record.handed_out import Issued, issued_from_plain, issued_to_plain, renumber_sheets
from casewright.workshop.order.batches import order
from casewright.workshop.sheets.cut_problems import cut_problems
from casewright.workshop.work import work
from planner.shop import small_job
from samples import job


def test_plans_come_back_and_lead_to_the_same_work() -> None:
    project = draw_up(job())
    plans = {key: solve(problem, MaxIterations(20)) for key, problem in cut_problems(project).items()}
    doubt = Finding("limit-bent", "sheet 1", "it is too heavy.", "Carry it with a helper.", Weight.WARN)
    plans["ply"] = replace(plans["ply"], findings=(doubt,))
    plain = json.loads(json.dumps(issued_to_plain(Issued(3, plans))))
    again = issued_from_plain(plain)
    assert again == Issued(3, plans)
    del plain["plans"]["ply"]["findings"]  # as it was written before findings were kept
    assert issued_from_plain(plain).plans["ply"] == replace(plans["ply"], findings=())
    first, second = (order(work(project, each).operations) for each in (plans, again.plans))
    assert first == second


@pytest.mark.parametrize(
    "plain", [None, {}, {"revision": 1}, {"revision": 1, "plans": {"ply": {"sheets": 3}}}, 3, {"plans": []}]
)
def test_what_cannot_be_read_is_refused(plain: object) -> None:
    with pytest.raises(RecordError, match="Hand the work out again"):
        issued_from_plain(plain)


@pytest.mark.parametrize("wrong", ["1/0", "wide", None, [], "Infinity"])
def test_a_length_that_is_none_is_refused(wrong: object) -> None:
    plain = issued_to_plain(Issued(1, {"ply": solve(small_job(), MaxIterations(5))}))
    plain["plans"]["ply"]["sheets"][0][2][0][1] = wrong  # the root's place across the sheet
    with pytest.raises(RecordError, match=r"plans\.ply\.sheets\.0.*Hand the work out again"):
        issued_from_plain(plain)


def test_a_plan_with_parts_left_out_keeps_them() -> None:
    problem = small_job()
    short = replace(problem, bins=(replace(problem.bins[0], count=1),))
    plan = solve(short, MaxIterations(5))
    assert plan.unplaced
    assert issued_from_plain(issued_to_plain(Issued(1, {"ply": plan}))).plans["ply"].unplaced == plan.unplaced


def two_plans() -> tuple[Plan, Plan]:
    """The same parts planned twice; of three sheets the second keeps one, under another number."""
    plan = solve(small_job(), MaxIterations(20))
    (root, *_) = (sheet.root for sheet in plan.sheets)
    roots = [replace(root, item=name) for name in ("a", "b", "c")]
    first = tuple(SheetPlan(number, "sheet", one) for number, one in enumerate(roots, 1))
    changed = (SheetPlan(1, "rack", roots[0]), SheetPlan(2, "sheet", roots[2]), replace(first[2], root=root))
    doubts = tuple(Finding("limit-bent", f"sheet {n}", "heavy.", "", Weight.WARN) for n in (1, 2))
    return replace(plan, sheets=first, findings=()), replace(plan, sheets=changed, findings=doubts)


def test_a_sheet_cut_otherwise_never_has_the_number_of_one_handed_out() -> None:
    """Handed out anew, sheets were numbered from 1: a tick on `ply 1 cut 1` then meant another cut."""
    first, second = two_plans()
    again = renumber_sheets({"ply": second}, [Issued(1, {"ply": first})], {})["ply"]
    assert [(sheet.number, sheet.bin, sheet.root.item) for sheet in again.sheets] == [
        (3, "sheet", "c"),
        (4, "rack", "a"),
        (5, "sheet", None),
    ]
    assert [finding.place for finding in again.findings] == ["sheet 4", "sheet 3"]
    third = renumber_sheets({"ply": first}, [Issued(1, {"ply": first}), Issued(2, {"ply": again})], {})["ply"]
    assert third == first


def test_the_same_plans_keep_their_numbers_and_a_new_material_begins_at_one() -> None:
    first, _ = two_plans()
    handed = Issued(1, {"ply": first})
    assert renumber_sheets({"ply": first, "thin": first}, [handed, handed], {}) == {
        "ply": first,
        "thin": first,
    }
    assert renumber_sheets({"ply": first}, [], {}) == {"ply": first}
