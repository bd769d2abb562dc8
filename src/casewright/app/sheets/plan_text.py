"""A job's sheet plans in words."""

from __future__ import annotations

from dataclasses import replace

from ...lengths.quantities import with_cents
from ...planner.plan_wording import plan_text
from ...workshop.boards.board_wording import board_plan_lines, board_plan_proof, typical_words
from ...workshop.boards.buying_wording import what_to_buy
from ...workshop.heavy_loads import HEAVY_TITLE
from ...workshop.sheets.lifts import lifts_for_two
from ...workshop.sheets.purchases import left_on_the_rack
from ...workshop.sheets.sheet_findings import parts_without_a_sheet, plan_findings
from ..jobs.worked_job import PlannedJob
from .sheets_page import heavy_of


def plan_words(planned: PlannedJob) -> str:
    """Every plan in words, one material after another; what is for two to lift is said with its weight,
    and listed at the end."""
    project = planned.project
    job = project.job

    write = project.printed
    said = []
    for key, plan in planned.made.plans.items():
        name = job.sheets[key].name
        problem = planned.made.problems[key]
        found = (
            *parts_without_a_sheet(project, key, problem),
            *plan_findings(project, key, problem, plan),
            *lifts_for_two(project, key, planned.work.operations),
        )
        here = tuple(replace(one, place=one.place.removeprefix(f"{name}, ")) for one in found)
        unused = left_on_the_rack(project, key, plan)
        rack = f"Not used: {', '.join(unused)}.\n" if unused else ""
        said.append(f"{name}\n{rack}{plan_text(replace(plan, findings=here), write, job.money)}")
    for wood in planned.board_purchases:
        key, boards = wood.material, planned.board_plans[wood.material]
        bought = what_to_buy(project, wood)
        told = (bought, board_plan_proof(boards), typical_words(project, key, boards))
        lines = (wood.name, *filter(None, told), *board_plan_lines(project, key, boards))
        said.append("\n".join(lines))
    for one in planned.worked.hardware.edging:
        lengths = f"{one.sticks} {'length' if one.sticks == 1 else 'lengths'} of {write(one.edging.stick)}"
        price = f", {job.money}{with_cents(one.money)}" if one.money else ""
        said.append(f"{one.edging.name}\n{lengths}{price}{'; fewer will not do' if one.proved else ''}.")
    if heavy := heavy_of(planned):
        said.append("\n".join((HEAVY_TITLE, *heavy)))
    return "\n\n".join(said)
