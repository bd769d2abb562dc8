"""The plans handed to the shop come back as they went, so a tick goes on meaning the same cut."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest

from breakdown.shop import small_job
from casewright.bench.cutlist import cut_problems
from casewright.bench.order import order
from casewright.bench.work import work
from casewright.breakdown.engine import MaxIterations
from casewright.breakdown.solve import solve
from casewright.casework.project import draw_up
from casewright.errors import RecordError
from casewright.record.issued import Issued, issued_from_plain, issued_to_plain
from samples import job


def test_plans_come_back_and_lead_to_the_same_work() -> None:
    project = draw_up(job())
    plans = {key: solve(problem, MaxIterations(20)) for key, problem in cut_problems(project).items()}
    kept = {key: replace(plan, findings=()) for key, plan in plans.items()}
    again = issued_from_plain(json.loads(json.dumps(issued_to_plain(Issued(3, plans)))))
    assert again == Issued(3, kept)
    first, second = (order(work(project, each).operations) for each in (plans, again.plans))
    assert first == second


@pytest.mark.parametrize(
    "plain", [None, {}, {"revision": 1}, {"revision": 1, "plans": {"ply": {"sheets": 3}}}]
)
def test_what_cannot_be_read_is_refused(plain: object) -> None:
    with pytest.raises(RecordError, match="Hand the work out again"):
        issued_from_plain(plain)


def test_a_plan_with_parts_left_out_keeps_them() -> None:
    problem = small_job()
    short = replace(problem, bins=(replace(problem.bins[0], count=1),))
    plan = solve(short, MaxIterations(5))
    assert plan.unplaced
    assert issued_from_plain(issued_to_plain(Issued(1, {"ply": plan}))).plans["ply"].unplaced == plan.unplaced
