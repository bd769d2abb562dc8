"""The sheet plan of an endpoint's job: the one handed out, or one started on first request."""

from __future__ import annotations

from fastapi import Request

from ..app.background.planning import Planner, Planning
from ..app.background.waiting import Waiting
from ..app.jobs.kept_jobs import KeptJobs, OpenedRevision
from ..app.jobs.worked_job import PlannedJob
from ..app.repair.shop_repair import record_of
from ..errors import JobError

PATIENCE = 60.0


def planning_of(request: Request, saved: KeptJobs, work: OpenedRevision) -> Planning:
    """The plan for the job's present text. Raises JobError while the job cannot be built.

    Where the benches work from this text, it is the plan they were handed.
    """
    floor = record_of(saved, work.id).floor
    if floor and floor.worked.text == work.revision.text:
        return Planning(finished=True, planned=floor, handed_out=True)
    planner = request.app.state.planner
    assert isinstance(planner, Planner)
    return planner.plan_for(work.worked)


def planned_of(request: Request, saved: KeptJobs, work: OpenedRevision) -> PlannedJob:
    """The same once it is finished, waited for. Raises JobError when there can be no plan."""
    planning = planning_of(request, saved, work)
    wait_for(planning)
    if planning.planned is None:
        raise JobError(planning.findings)
    return planning.planned


def wait_for(waiting: Waiting) -> None:
    """Wait until it has finished."""
    seen, finished = 0, False
    while not finished:
        sentences, finished = waiting.follow(seen, PATIENCE)
        seen += len(sentences)
