"""Sheet plans, made while the page waits and shows the plans found so far."""

from __future__ import annotations

import json
from collections.abc import Iterator

from fastapi import APIRouter, Request, Response
from fastapi.responses import StreamingResponse

from ...app.background.waiting import Waiting
from ...app.sheets.sheets_page import sheets_view
from ..plan_for_page import planning_of
from ..rendering import OnBench, SavedJobs, page
from . import Tab

router = APIRouter(prefix="/jobs/{job}/sheets", include_in_schema=False)
TAB = Tab(40, "Sheets", "/sheets")

HEARTBEAT = 10.0


@router.get("")
def sheets(request: Request, work: OnBench, saved: SavedJobs) -> Response:
    """Every sheet with its cuts, or the progress of the planning."""
    planning = planning_of(request, saved, work)
    planned = planning.planned
    shown = sheets_view(planned) if planned else ()
    minded = planned.doubts if planned else ()
    return page(request, "sheets/page.html", work=work, planning=planning, shown=shown, minded=minded)


@router.get("/progress")
def plan_progress(request: Request, work: OnBench, saved: SavedJobs) -> Response:
    """Server-sent events: a sentence for every better plan, then `done`."""
    events = event_stream(planning_of(request, saved, work))
    return StreamingResponse(events, media_type="text/event-stream", headers={"Cache-Control": "no-store"})


def event_stream(waiting: Waiting) -> Iterator[str]:
    """The progress of waiting work, as server-sent events."""
    seen, finished = 0, False
    while not finished:
        sentences, finished = waiting.follow(seen, HEARTBEAT)
        seen += len(sentences)
        yield "".join(f"data: {json.dumps(sentence)}\n\n" for sentence in sentences) or ": still at it\n\n"
    yield "event: done\ndata: {}\n\n"
