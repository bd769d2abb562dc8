"""How much is worked out to find the ways of one mishap in a job of 60 cases, counted."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from fractions import Fraction as F

import pytest

from casewright.casework.directions import Way
from casewright.casework.job import Job
from casewright.casework.parts.part import Part
from casewright.casework.project import Project, draw_up
from casewright.jobfile.read.read_job import read_job
from casewright.planner.engine import MaxIterations, Stop
from casewright.planner.plan import Plan
from casewright.planner.problem import Problem
from casewright.planner.solve import solve, solve_whole
from casewright.repair import must_buy
from casewright.repair.facts import AsCut, Facts
from casewright.repair.find_ways import ways
from casewright.repair.harm import Harm, HarmKind
from casewright.repair.recorded_facts import cuts_to_free
from casewright.repair.repair_times import RepairPace
from casewright.repair.sheets_begun import facts_after
from casewright.repair.ways import change_places, free_sizes, from_wood, weighed_sizes
from casewright.repair.ways.free_sizes import SizeChange
from casewright.repair.ways.way import Option, WayKind
from casewright.workshop.sheets.cut_problems import cut_problems
from example_files import EXAMPLES

WHOLE, FEW = "layouts of a whole material", "layouts of a few parts"
DRAWN, SOLVED = "jobs drawn up", "proofs by the solver"
FORTY = 40
"""Parts above which a layout is one of a whole material; one sheet of this job holds 24 at most."""

Shop = tuple[Project, Mapping[str, Plan]]


@pytest.fixture(scope="module")
def school() -> Shop:
    """The job as planned, with nothing cut yet."""
    project = draw_up(read_job((EXAMPLES / "school-workshop.toml").read_text(encoding="utf-8")))
    plans = {key: solve(problem, MaxIterations(30)) for key, problem in cut_problems(project).items()}
    return project, plans


@pytest.fixture
def work(monkeypatch: pytest.MonkeyPatch) -> Counter[str]:
    """What has been worked out so far."""
    done: Counter[str] = Counter()

    def counted_layout(problem: Problem, stop: Stop) -> Plan | None:
        done[WHOLE if len(problem.items) > FORTY else FEW] += 1
        return solve_whole(problem, stop)

    def counted_draft(job: Job) -> Project:
        done[DRAWN] += 1
        return draw_up(job)

    real = must_buy._infeasible

    def counted_proof(asked: must_buy._Relaxed) -> bool:
        done[SOLVED] += 1
        return real(asked)

    monkeypatch.setattr(from_wood, "solve_whole", counted_layout)
    monkeypatch.setattr(free_sizes, "draw_up", counted_draft)
    monkeypatch.setattr(must_buy, "_infeasible", counted_proof)
    return done


def spoiled(shop: Shop, mark: str, short: F = F(0), narrow: F = F(0), *harms: Harm) -> Facts:
    """The facts with one part off its sheet, and no other, too short and too narrow by so much."""
    project, plans = shop
    length, width, _ = project.dimensions(project.parts[mark])
    facts = facts_after(project, plans, cuts_to_free(plans, {mark}))
    return facts.spoil({mark: AsCut(length - short, width - narrow, harms=harms)})


def test_a_short_side_is_answered_by_a_few_layouts(school: Shop, work: Counter[str]) -> None:
    """One layout to buy, one of all the oak, one of each material that a lower run changes."""
    project, _ = school
    found = ways(project, spoiled(school, "B1-L", F(1)))
    changed = [option for option in found.options if option.kind is WayKind.MOVE]
    assert changed and found.best_of(WayKind.BUY) and found.best_of(WayKind.RECUT)
    assert work[DRAWN] == len(changed), "only what is offered is drawn up"
    assert work[WHOLE] <= 1 + 2 * len(changed)
    assert work[FEW] <= 2
    assert work[SOLVED] == 0, "what is laid out from wood on hand needs no proof"


def test_the_first_way_comes_before_all_is_laid_out_again(school: Shop, work: Counter[str]) -> None:
    project, _ = school
    before: list[int] = []

    def heard(option: Option) -> None:
        before.append(work[WHOLE] + work[DRAWN])

    ways(project, spoiled(school, "B1-L", F(1)), report=heard)
    assert before[0] == 0 and before[-1] > 0


def test_a_part_off_in_both_directions_draws_nothing_up(school: Shop, work: Counter[str]) -> None:
    project, _ = school
    found = ways(project, spoiled(school, "B5-B", F(1), F(1)))
    assert found.options and work[DRAWN] == 0 and work[WHOLE] <= 1 and work[SOLVED] == 0


def test_a_damage_that_a_turn_hides_is_not_drawn_up(school: Shop, work: Counter[str]) -> None:
    project, _ = school
    found = ways(
        project, spoiled(school, "B1-L", F(0), F(0), Harm(HarmKind.DAMAGE, "", Way.FRONT, deep=F(1, 4)))
    )
    assert found.options[0].kind is WayKind.TURN
    assert work[DRAWN] == 0 and work[WHOLE] <= 1 and work[SOLVED] == 0


def test_of_many_changes_only_those_planned_are_drawn_up(
    school: Shop, work: Counter[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A bottom an inch short: each other case of its run, or the filler, could take it; one is planned."""
    project, _ = school
    weighed: list[SizeChange] = []
    real = weighed_sizes._resized

    def heard(base: Project, change: SizeChange) -> Project | None:
        weighed.append(change)
        return real(base, change)

    monkeypatch.setattr(weighed_sizes, "_resized", heard)
    found = ways(project, spoiled(school, "B5-B", F(1)))
    assert len(weighed) > 6
    assert work[DRAWN] == sum(option.kind is WayKind.MOVE for option in found.options) == 1


def test_parts_that_are_made_alike_are_looked_at_once(school: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    """Which piece serves as which part is asked for every size of part, not for every part."""
    project, _ = school
    asked: Counter[str] = Counter()
    real = change_places.serve_as

    def counted(project: Project, piece: change_places.PlacePiece, part: Part) -> object:
        asked[part.mark] += 1
        return real(project, piece, part)

    monkeypatch.setattr(change_places, "serve_as", counted)
    scrap = spoiled(school, "B2-A1", F(10), F(22))
    found = change_places.exchanges(project, scrap, [project.parts["B2-A1"]], RepairPace())
    assert not list(found), "what is left of it serves as no part, so that all are looked at"
    sizes = {project.dimensions(part)[:2] for part in project if part.material == "oak"}
    assert 1 < len(asked) <= len(sizes) + 1
