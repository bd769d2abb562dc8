"""Money and hours: what the job costs line by line, and other ways to build it beside it."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Form, HTTPException, Request, Response
from fastapi.responses import RedirectResponse, StreamingResponse

from ...app.background.other_ways_search import WayComparison, WayComparisons
from ...app.jobs.kept_jobs import KeptJobs, OpenedRevision, RefusedChange
from ...app.money.compared_jobs import comparison_rows
from ...app.money.told_costs import told_costs
from ...errors import JobError
from ..plan_for_page import plan_as_found, planned_of, planning_of, wait_for
from ..rendering import OnBench, SavedJobs, page
from ..turns import TURN_TO_WAIT
from . import Tab
from .sheets_routes import event_stream

router = APIRouter(prefix="/jobs/{job}/costs", include_in_schema=False)
TAB = Tab(45, "Costs", "/costs")


@router.get("")
def money_page(request: Request, work: OnBench, saved: SavedJobs) -> Response:
    """Every line of the costs, once the sheets are planned."""
    planning = planning_of(request, saved, work)
    told = told_costs(planning.planned) if planning.planned else None
    return page(request, "costs/page.html", work=work, planning=planning, told=told)


@router.get("/other-ways", dependencies=[TURN_TO_WAIT])
def other_ways_page(request: Request, work: OnBench, saved: SavedJobs) -> Response:
    """Other ways to build the job beside it, or how far their planning is."""
    found = _comparison(request, work, saved)
    rows = comparison_rows(way.job for way in found.ways)
    return page(request, "costs/other_ways.html", work=work, found=found, rows=rows)


@router.get("/other-ways/progress", dependencies=[TURN_TO_WAIT])
def other_ways_progress(request: Request, work: OnBench, saved: SavedJobs) -> Response:
    """Server-sent events: a sentence for each way that is planned, then `done`."""
    events = event_stream(_comparison(request, work, saved))
    return StreamingResponse(events, media_type="text/event-stream", headers={"Cache-Control": "no-store"})


@router.post("/other-ways/stop", dependencies=[TURN_TO_WAIT])
def stop_other_ways(request: Request, work: OnBench, saved: SavedJobs) -> Response:
    """End the planning with the ways that are planned so far."""
    _comparison(request, work, saved).stop()
    return RedirectResponse(f"/jobs/{work.id}/costs/other-ways", 303)


@router.post("/other-ways/{number}", dependencies=[TURN_TO_WAIT])
def post_other_way(
    request: Request, work: OnBench, saved: SavedJobs, number: int, based_on: Annotated[int, Form()]
) -> Response:
    """Build the job in one of the other ways, by the plan that was found for it."""
    found = _comparison(request, work, saved)
    wait_for(found)
    if not 1 <= number < len(found.ways):
        raise HTTPException(404, f"There is no other way {number}; choose one from the page.")
    way = found.ways[number]
    changed = saved.change(work.id, way.edits, way.job.name, based_on)
    if isinstance(changed, RefusedChange):
        raise JobError(changed.findings)
    plan_as_found(request, saved, changed, way)
    return RedirectResponse(f"/jobs/{work.id}/costs", 303)


def _comparison(request: Request, work: OpenedRevision, saved: KeptJobs) -> WayComparison:
    comparisons = request.app.state.way_comparisons
    assert isinstance(comparisons, WayComparisons)
    return comparisons.comparison_for(planned_of(request, saved, work))
