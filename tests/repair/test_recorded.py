"""The facts of a repair are read from the shop's record, and nothing else."""

from __future__ import annotations

from fractions import Fraction as F

from casewright.casework.project import draw_up
from casewright.planner.engine import MaxIterations
from casewright.planner.solve import solve
from casewright.record.shop_state import PartState, RecordedReading, State, Status, Tick
from casewright.repair.facts import Origin
from casewright.repair.recorded_facts import cuts_to_free, facts_now
from casewright.workshop.operations import cut_key
from casewright.workshop.sheets.cut_problems import cut_problems
from samples import job, spec


def test_ticks_readings_and_losses_become_facts() -> None:
    project = draw_up(job(spec("B1", width=F(24))))
    plans = {key: solve(problem, MaxIterations(200)) for key, problem in cut_problems(project).items()}
    done = cuts_to_free(plans, ["B1-L", "B1-R"])
    parts = {mark: PartState(mark, Status.TO_CUT) for mark in project.parts}
    parts["B1-L"] = PartState("B1-L", Status.IN_HAND)
    parts["B1-R"] = PartState("B1-R", Status.SPOILED, how="an inch short")
    parts["B1-A1"] = PartState("B1-A1", Status.GIVEN_UP)
    state = State(
        parts,
        {key: Tick(key, "saw", "1", "") for key in done},
        {"B1-R.length": (RecordedReading(F(67, 2), "rule", "saw", "2"),)},
    )
    facts = facts_now(project, plans, state)
    assert "B1-L" in facts.finished and "B1-R" not in facts.finished
    assert facts.spoiled["B1-R"].length == F(67, 2)
    assert "B1-A1" not in {part.mark for part in facts.to_make(project)}
    assert all("B1-A1" not in blank.planned for blank in facts.blanks)
    assert "B1-R" in {part.mark for part in facts.to_make(project)}
    assert any(blank.origin is Origin.SPOILED for blank in facts.remnants(project))


def test_a_spoiled_part_has_left_its_sheet_even_unticked() -> None:
    project = draw_up(job(spec("B1", width=F(24))))
    plans = {key: solve(problem, MaxIterations(200)) for key, problem in cut_problems(project).items()}
    parts = {mark: PartState(mark, Status.TO_CUT) for mark in project.parts}
    parts["B1-L"] = PartState("B1-L", Status.SPOILED)
    facts = facts_now(project, plans, State(parts, {}))
    assert all("B1-L" not in blank.planned for blank in facts.blanks)
    sheet = plans["ply"].sheets[0]
    assert cut_key("ply", sheet.number, 1) in cuts_to_free(plans, ["B1-L"])
