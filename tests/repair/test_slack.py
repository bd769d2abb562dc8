"""What the plan's own leftovers could replace, found before any mishap."""

from __future__ import annotations

from fractions import Fraction as F

from casewright.casework.project import draw_up
from casewright.planner.engine import MaxIterations
from casewright.planner.solve import solve
from casewright.planner.verify.verify import verify
from casewright.repair.facts import AsCut
from casewright.repair.find_ways import ways
from casewright.repair.prevention.spare_cover import Cover, cover, insure
from casewright.repair.sheets_begun import facts_after
from casewright.repair.ways.way import WayKind
from casewright.workshop.sheets.cut_problems import cut_problems
from samples import BASE, job, spec


def test_the_share_that_is_covered() -> None:
    assert Cover({"B1-L": "ply sheet 1", "B1-R": None, "B1-B": None}).share == F(1, 3)
    assert Cover({}).share == 1, "where nothing is to be cut, nothing is uncovered"


def test_what_is_covered_can_really_be_cut_again_and_costs_nothing() -> None:
    project = draw_up(job(*(spec(f"B{n}", width=F(24), bays=BASE[1:]) for n in (1, 2))))
    plans = {key: solve(problem, MaxIterations(300)) for key, problem in cut_problems(project).items()}
    covered = cover(project, plans)
    assert set(covered.sources) == set(project.parts)
    assert 0 < covered.share < 1
    everything = facts_after(
        project,
        plans,
        [
            f"{key} {sheet.number} cut {cut.order}"
            for key, plan in plans.items()
            for sheet in plan.sheets
            for cut in sheet.cuts
        ],
    )
    for mark, source in list(covered.sources.items())[::5]:
        ruined = everything.spoil({mark: AsCut(F(1), F(1))})
        again = ways(project, ruined).best_of(WayKind.RECUT)
        assert (again is not None) == (source is not None), mark


def test_insurance_costs_no_sheet_and_covers_no_less() -> None:
    project = draw_up(job(*(spec(f"B{n}", width=F(24), bays=BASE[1:]) for n in (1, 2, 3))))
    problems = cut_problems(project)
    plans = {key: solve(problem, MaxIterations(100)) for key, problem in problems.items()}
    insured = insure(project, plans, range(1, 5), 100)
    assert insured.after.share >= insured.before.share
    for key, plan in insured.plans.items():
        assert plan.figures.money <= plans[key].figures.money
        assert verify(problems[key], plan) == ()


def test_insurance_finds_a_plan_as_cheap_that_covers_more() -> None:
    """Three cases 27 in wide, found by trying: of their first plan's leftovers other layouts make more."""
    project = draw_up(job(*(spec(f"B{n}", width=F(27), bays=BASE[1:]) for n in (1, 2, 3))))
    problems = cut_problems(project)
    plans = {key: solve(problem, MaxIterations(20)) for key, problem in problems.items()}
    insured = insure(project, plans, range(1, 5), 20)
    assert insured.after.share > insured.before.share == cover(project, plans).share
    assert insured.after == cover(project, insured.plans)
