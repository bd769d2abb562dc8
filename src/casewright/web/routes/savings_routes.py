"""What would save a sheet: looked for while the page waits, and made with one tap."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Form, HTTPException, Request, Response
from fastapi.responses import RedirectResponse, StreamingResponse

from ...app.background.saving_search import SavingSearch, SavingSearches
from ...app.jobs.kept_jobs import KeptJobs, OpenedRevision, RefusedChange
from ...app.sheets.savings import TRIED
from ...errors import JobError
from ..plan_for_page import plan_as_found, planned_of, wait_for
from ..rendering import OnBench, SavedJobs, page
from ..turns import TURN_TO_WAIT
from .sheets_routes import event_stream

router = APIRouter(prefix="/jobs/{job}/savings", include_in_schema=False, dependencies=[TURN_TO_WAIT])


@router.get("")
def savings_page(request: Request, work: OnBench, saved: SavedJobs) -> Response:
    """The changes that would save a sheet, or how far the search for them is."""
    search = _search(request, work, saved)
    return page(request, "savings/page.html", work=work, search=search, tried=TRIED)


@router.get("/progress")
def saving_progress(request: Request, work: OnBench, saved: SavedJobs) -> Response:
    """Server-sent events: each saving as it is found, then `done`."""
    events = event_stream(_search(request, work, saved))
    return StreamingResponse(events, media_type="text/event-stream", headers={"Cache-Control": "no-store"})


@router.post("/stop")
def stop_savings(request: Request, work: OnBench, saved: SavedJobs) -> Response:
    """End the search with what it has found so far."""
    _search(request, work, saved).stop()
    return RedirectResponse(f"/jobs/{work.id}/savings", 303)


@router.post("/{number}")
def post_saving(
    request: Request, work: OnBench, saved: SavedJobs, number: int, based_on: Annotated[int, Form()]
) -> Response:
    """Make one of the changes, and plan again from the plan that was found for it."""
    search = _search(request, work, saved)
    wait_for(search)
    if not 1 <= number <= len(search.savings):
        raise HTTPException(404, f"There is no saving {number}; choose one from the list.")
    saving = search.savings[number - 1]
    if not saving.edits:
        plan_as_found(request, saved, work, saving)
        return RedirectResponse(f"/jobs/{work.id}/sheets", 303)
    changed = saved.change(work.id, saving.edits, saving.what, based_on)
    if isinstance(changed, RefusedChange):
        raise JobError(changed.findings)
    plan_as_found(request, saved, changed, saving)
    return RedirectResponse(f"/jobs/{work.id}/sheets", 303)


def _search(request: Request, work: OpenedRevision, saved: KeptJobs) -> SavingSearch:
    searches = request.app.state.saving_searches
    assert isinstance(searches, SavingSearches)
    return searches.search_for(planned_of(request, saved, work))
