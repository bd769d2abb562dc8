"""The plan of record of an endpoint's job: the one that stands, or one begun on first request."""

from __future__ import annotations

from fastapi import Request

from ..app.background.planning import Planner, Planning
from ..app.background.waiting import Waiting
from ..app.jobs.kept_jobs import KeptJobs, OpenedRevision
from ..app.jobs.worked_job import PlannedJob
from ..app.money.other_ways import WayBeside
from ..app.repair.repair_record import record_of
from ..app.sheets.plan_keeping import Choice, outdated
from ..app.sheets.savings import Saving
from ..errors import JobError

PATIENCE = 60.0


def planning_of(
    request: Request, saved: KeptJobs, work: OpenedRevision, choice: Choice = Choice.ASK
) -> Planning:
    """The plan for the job's present text. Raises JobError while the job cannot be built."""
    planner = request.app.state.planner
    assert isinstance(planner, Planner)
    return planner.plan_for(saved, work, choice)


def stop_planning(request: Request, work: OpenedRevision) -> None:
    """Look for a plan for the job's present text no longer, if one is being looked for."""
    planner = request.app.state.planner
    assert isinstance(planner, Planner)
    planner.stop(work)


def plan_as_found(request: Request, saved: KeptJobs, work: OpenedRevision, found: Saving | WayBeside) -> None:
    """Begin to plan a job that was changed, from the plans that were found with the change."""
    planner = request.app.state.planner
    assert isinstance(planner, Planner)
    planner.plan_for(saved, work, Choice.AGAIN, found.plans)


def planned_of(request: Request, saved: KeptJobs, work: OpenedRevision) -> PlannedJob:
    """The same once it is finished, waited for. Raises JobError when there can be no plan, or while it is
    open whether the job is to be planned again."""
    planning = planning_of(request, saved, work)
    wait_for(planning)
    if planning.planned is None:
        question = outdated(planning.name, planning.changes, "Choose on the Sheets page what to do.")
        raise JobError(planning.findings or (question,))
    return planning.planned


def is_handed_out(saved: KeptJobs, work: OpenedRevision, planning: Planning) -> bool:
    """Whether the benches work by this plan."""
    floor = record_of(saved, work.id).floor
    planned = planning.planned
    if floor is None or planned is None:
        return False
    return floor.plans == planned.plans and floor.board_plans == planned.board_plans


def wait_for(waiting: Waiting) -> None:
    """Wait until it has finished."""
    seen, finished = 0, False
    while not finished:
        sentences, finished = waiting.follow(seen, PATIENCE)
        seen += len(sentences)
