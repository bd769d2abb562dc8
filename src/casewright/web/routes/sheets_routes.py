"""Sheet plans, made while the page waits and shows the plans found so far."""

from __future__ import annotations

import asyncio
import json
from collections.abc import AsyncIterator
from typing import Annotated

from fastapi import APIRouter, Form, Request, Response
from fastapi.responses import RedirectResponse, StreamingResponse

from ...app.background.waiting import Waiting
from ...app.jobs.kept_jobs import OpenedRevision
from ...app.repair.made_in_shop import made_in_shop
from ...app.repair.repair_record import record_of
from ...app.sheets.boards_page import boards_view
from ...app.sheets.made_already import NOTHING_MADE
from ...app.sheets.plan_keeping import Choice
from ...app.sheets.promised_rack import promised_twice
from ...app.sheets.sheets_page import heavy_of, sheets_view, total_to_buy
from ..plan_for_page import is_handed_out, planning_of, stop_planning
from ..rendering import OnBench, SavedJobs, page
from . import Tab

router = APIRouter(prefix="/jobs/{job}/sheets", include_in_schema=False)
TAB = Tab(40, "Sheets", "/sheets")

LOOK = 0.2  # seconds
LOOKS_BEFORE_A_SIGN = 50  # of life, or what lies between takes the connection for dead


@router.get("")
def sheets(request: Request, work: OnBench, saved: SavedJobs) -> Response:
    """Every sheet with its cuts, or the progress of the planning."""
    planning = planning_of(request, saved, work)
    planned = planning.planned
    already = made_in_shop(planned, record_of(saved, work.id)) if planned else NOTHING_MADE
    shown = sheets_view(planned, already) if planned else ()
    boards = boards_view(planned, already) if planned else ()
    minded = (*promised_twice(saved, work), *planned.doubts, *planned.made.ended_early) if planned else ()
    return page(
        request,
        "sheets/page.html",
        work=work,
        planning=planning,
        handed_out=is_handed_out(saved, work, planning),
        shown=(*shown, *boards),
        minded=minded,
        heavy=heavy_of(planned) if planned else (),
        total=total_to_buy(planned, already) if planned else "",
    )


@router.post("")
def post_choice_of_plan(
    request: Request,
    work: OnBench,
    saved: SavedJobs,
    choice: Annotated[Choice, Form()],
    page_from: Annotated[str, Form()] = "sheets",
) -> Response:
    """Plan again from the plan of record, or keep its places for the changed job; then back to the page that
    asked."""
    planning_of(request, saved, work, choice)
    return _back(work, page_from)


@router.post("/stop")
def post_stop(
    request: Request, work: OnBench, saved: SavedJobs, page_from: Annotated[str, Form()] = "sheets"
) -> Response:
    """Look for a plan no longer, and take the best so far; then back to the page that waited for it."""
    stop_planning(request, work)
    return _back(work, page_from)


def _back(work: OpenedRevision, page_from: str) -> Response:
    back = page_from if page_from in ("sheets", "fit", "papers", "costs") else "sheets"
    return RedirectResponse(f"/jobs/{work.id}/{back}", 303)


@router.get("/progress")
def plan_progress(request: Request, work: OnBench, saved: SavedJobs) -> Response:
    """Server-sent events: a sentence for every better plan, then `done`."""
    events = event_stream(planning_of(request, saved, work))
    return StreamingResponse(events, media_type="text/event-stream", headers={"Cache-Control": "no-store"})


async def event_stream(waiting: Waiting) -> AsyncIterator[str]:
    """The progress of waiting work, as server-sent events.

    It looks again and again instead of waiting, so that a page left open holds no thread.
    """
    seen, finished, quiet = 0, False, 0
    while True:
        sentences, finished = waiting.follow(seen, 0)
        seen, quiet = seen + len(sentences), quiet + 1
        if sentences or quiet == LOOKS_BEFORE_A_SIGN:
            quiet = 0
            said = "".join(f"data: {json.dumps(sentence)}\n\n" for sentence in sentences)
            yield said or ": still at it\n\n"
        if finished:
            break
        await asyncio.sleep(LOOK)
    yield "event: done\ndata: {}\n\n"
