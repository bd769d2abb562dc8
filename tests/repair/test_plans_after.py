"""The plan of a job after a repair: its figures are those of its sheets as they now are."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction as F

import pytest

from casewright.casework.project import Project, draw_up
from casewright.planner.engine import MaxIterations
from casewright.planner.plan import PieceRole, Plan, PlanStatus
from casewright.planner.solve import solve
from casewright.repair.facts import AsCut
from casewright.repair.find_ways import ways
from casewright.repair.plans_after import plans_after
from casewright.repair.sheets_begun import facts_after
from casewright.repair.ways.way import Option, WayKind
from casewright.workshop.operations import cut_key
from casewright.workshop.sheets.cut_problems import cut_problems
from samples import job

Repaired = tuple[Project, Mapping[str, Plan], dict[str, Plan], Option, str]


@pytest.fixture(scope="module", params=[WayKind.RECUT, WayKind.BUY])
def repaired(request: pytest.FixtureRequest) -> Repaired:
    """A strip spoiled once all is cut: cut again from a leftover; or a side, when none is left."""
    mark = {WayKind.RECUT: "B1-M1", WayKind.BUY: "B1-L"}[request.param]
    project = draw_up(job())
    plans = {key: solve(problem, MaxIterations(100)) for key, problem in cut_problems(project).items()}
    done = [
        cut_key(key, sheet.number, cut.order)
        for key, plan in plans.items()
        for sheet in plan.sheets
        for cut in sheet.cuts
    ]
    facts = facts_after(project, plans, done)
    if request.param is WayKind.BUY:
        facts = replace(facts, blanks=())
    facts = facts.spoil({mark: AsCut(F(1), F(1), worked=True)})
    option = ways(project, facts).best_of(request.param)
    assert option is not None and option.cost.remade == 1
    assert option.cost.in_sight == 0, "the same part again"
    return project, plans, plans_after(project, plans, done, facts, option), option, mark


def test_every_part_is_cut_once(repaired: Repaired) -> None:
    project, _, after, _, _ = repaired
    cut = [piece.item for plan in after.values() for _, piece in plan.parts()]
    assert sorted(filter(None, cut)) == sorted(project.parts)


def test_the_figures_are_those_of_the_sheets(repaired: Repaired) -> None:
    project, before, after, option, mark = repaired
    changed = project.parts[mark].material
    for material, plan in after.items():
        figures = plan.figures
        area = sum(sheet.root.length * sheet.root.width for sheet in plan.sheets)
        parts = sum(piece.length * piece.width for _, piece in plan.parts())
        assert figures.used == parts / area and 0 < figures.used < 1
        assert figures.sheets == len(plan.sheets)
        assert figures.cuts == sum(len(sheet.cuts) for sheet in plan.sheets)
        assert figures.leftover_worth == before[material].figures.leftover_worth
        assert plan.status is PlanStatus.OPEN, "what was proved held for the plan before"
        bought = figures.money - before[material].figures.money
        sheets = 1 if option.kind is WayKind.BUY and material == changed else 0
        assert bought == sheets * project.job.sheets[material].price
        assert len({sheet.number for sheet in plan.sheets}) == len(plan.sheets)


def test_the_first_sheets_of_a_material_are_numbered_from_one(repaired: Repaired) -> None:
    """A part made of a material that was in no plan before."""
    project, before, _, option, mark = repaired
    changed = project.parts[mark].material
    others = {material: plan for material, plan in before.items() if material != changed}
    facts = facts_after(project, before, ())
    first = plans_after(project, others, (), facts, option)[changed]
    assert [sheet.number for sheet in first.sheets] == list(range(1, len(option.plans[changed].sheets) + 1))
    assert first.figures.leftover_worth == 0
    assert first.figures.money == (project.job.sheets[changed].price if option.kind is WayKind.BUY else 0)


def test_where_a_worked_part_was_cut_there_is_waste_and_no_other_place_changes(repaired: Repaired) -> None:
    _, before, after, _, mark = repaired
    old = {
        (material, sheet.number, piece.x, piece.y): piece
        for material, plan in before.items()
        for sheet, piece in plan.parts()
    }
    new = {
        (material, sheet.number, piece.x, piece.y): piece
        for material, plan in after.items()
        for sheet in plan.sheets
        for piece in sheet.root.walk()
        if not piece.children
    }
    for place, piece in old.items():
        stands = new[place]
        assert (stands.length, stands.width) == (piece.length, piece.width)
        assert stands.role is (PieceRole.WASTE if piece.item == mark else PieceRole.PART), piece.item
