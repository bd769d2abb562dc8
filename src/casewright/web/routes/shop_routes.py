"""The shop screen: work handed out, led through step by step, ticked at several benches at once."""

from __future__ import annotations

import json
from dataclasses import asdict
from importlib.resources import files
from secrets import token_urlsafe
from typing import Annotated, Any

from fastapi import APIRouter, Body, HTTPException, Request, Response
from fastapi.responses import RedirectResponse

from ...app.fit.fit_as_built import shop_state
from ...app.jobs.kept_jobs import KeptJobs
from ...app.repair.shop_repair import ways_chosen
from ...app.shop.receiving import receive
from ...app.shop.shop_floor import BenchRecord, hand_out, read_record
from ...app.shop.shop_work import sent_work
from ...app.shop.told_tablets import told_after
from ...app.views.page_pictures import step_picture
from ..plan_for_page import planning_of, wait_for
from ..rendering import OnBench, SavedJobs, page
from ..turns import TURN_TO_WAIT
from . import Tab

router = APIRouter(prefix="/jobs/{job}/shop", include_in_schema=False)
TAB = Tab(60, "Shop", "/shop")

MOST_EVENTS = 500
NO_STORE = {"Cache-Control": "no-store"}
Sent = Annotated[dict[str, Any], Body()]


@router.get("")
def shop_page(request: Request, work: OnBench, saved: SavedJobs) -> Response:
    """The screen itself, or a button that hands the work out."""
    heard = _hear(saved, work.id)
    return page(request, "shop/page.html", work=work, heard=heard, chosen=ways_chosen(heard))


@router.post("/hand-out", dependencies=[TURN_TO_WAIT])
def post_hand_out(request: Request, work: OnBench, saved: SavedJobs) -> Response:
    """Make the plan of record the shop's work from now on. Where the job has changed since that plan was
    made, the Sheets page asks first what to do; a job whose parts overlap is refused."""
    work.worked.needed_sound()
    planning = planning_of(request, saved, work)
    wait_for(planning)
    if planning.changes:
        return RedirectResponse(f"/jobs/{work.id}/sheets", 303)
    if planning.planned is None:
        fault = planning.findings[0]
        raise HTTPException(422, f"{fault.text} {fault.fix}".strip())
    identity = f"issue-{token_urlsafe(9)}"
    made = planning.planned
    number, now = work.revision.number, saved.clock()
    hand_out(saved.file, work.id, number, made.made.plans, identity, now, made.board_plans)
    return RedirectResponse(f"/jobs/{work.id}/shop", 303)


@router.get("/work")
def get_work(request: Request, work: OnBench, saved: SavedJobs) -> Response:
    """The batches and steps, for a tablet to keep; 304 for one that keeps these already."""
    sent = sent_work(_hear(saved, work.id))
    headers = {**NO_STORE, "ETag": f'"{sent.tag}"', "Vary": "Accept-Encoding"}
    if request.headers.get("if-none-match") == headers["ETag"]:
        return Response(status_code=304, headers=headers)
    # Hundreds of steps say nearly the same, so it packs to a fifteenth. There is no secret in it that its
    # length could give away.
    if "gzip" in request.headers.get("accept-encoding", ""):
        headers["Content-Encoding"] = "gzip"
        return Response(sent.packed, media_type="application/json", headers=headers)
    return Response(sent.text, media_type="application/json", headers=headers)


@router.get("/state")
def get_state(job: str, saved: SavedJobs, after: int = -1, work: str = "") -> Response:
    """What changed in the shop after the place `after` in the `work` a tablet knows, the whole state for one
    that knows none; 204 for nothing."""
    told = told_after(saved.file, job, after, work)
    return Response(status_code=204, headers=NO_STORE) if told is None else _json(told)


@router.get("/findings")
def get_findings(job: str, saved: SavedJobs) -> Response:
    """Everything that there is to look at; the state holds only the newest of it."""
    return _json(shop_state(_hear(saved, job))["findings"])


@router.post("/events")
def post_events(work: OnBench, saved: SavedJobs, sent: Sent) -> Response:
    """Store the events of a bench, each once; a refused one comes back with the reason, and a reading that
    looks like a slip with a question: it is kept when it is sent again with `sure`. `after` and `work` say
    which state the bench knows, as in `/state`."""
    events = sent.get("events")
    if not isinstance(events, list) or len(events) > MOST_EVENTS:
        raise HTTPException(422, f"events: send a list of at most {MOST_EVENTS} events.")
    job = work.worked.job
    if job is None:
        raise HTTPException(
            422, "The job cannot be read; correct its text first. The tablet keeps its ticks."
        )
    received = receive(saved.file, work.id, events, job.unit, saved.clock(), saved.device)
    refused = [{"id": identity, **finding.plain} for identity, finding in received.refused]
    refused += [
        {"id": identity, **doubt.finding.plain, "asks": {"use": doubt.meant, "keep": doubt.said}}
        for identity, doubt in received.asked
    ]
    after, knows = sent.get("after"), sent.get("work")
    known = (after, knows) if isinstance(after, int) and isinstance(knows, str) else (-1, "")
    return _json(
        {
            "kept": received.kept,
            "places": received.places,
            "refused": refused,
            "already": [asdict(one) for one in received.already],
            "state": told_after(saved.file, work.id, *known),
        }
    )


def _json(plain: Any) -> Response:
    """In plain ASCII: half a character, which a broken tablet may send, comes back to it as it was."""
    return Response(json.dumps(plain, separators=(",", ":")), media_type="application/json", headers=NO_STORE)


@router.get("/picture")
def step_picture_svg(work: OnBench, saved: SavedJobs, step: str) -> Response:
    """How the piece of a step lies at its machine, as SVG; nothing (204) where words say it better."""
    floor = _hear(saved, work.id).floor
    drawn = step_picture(floor, step) if floor else None
    if drawn is None:
        return Response(status_code=204)
    return Response(drawn, media_type="image/svg+xml")


@router.get("/worker.js")
def worker() -> Response:
    """The script that keeps this screen on the tablet, allowed to answer for the page above it."""
    script = files("casewright.web").joinpath("static/js/shop/worker.js").read_text(encoding="utf-8")
    headers = {"Service-Worker-Allowed": "/jobs/", "Cache-Control": "no-cache"}
    return Response(script, media_type="text/javascript", headers=headers)


def _hear(saved: KeptJobs, job: str) -> BenchRecord:
    return read_record(saved.file, job)
