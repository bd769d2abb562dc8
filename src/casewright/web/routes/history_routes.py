"""Every revision of a job, and the way back to any of them."""

from __future__ import annotations

from collections.abc import Mapping
from secrets import token_urlsafe
from typing import Annotated

from fastapi import APIRouter, Depends, Form, Request, Response
from fastapi.responses import PlainTextResponse, RedirectResponse

from ...app.history.text_comparison import compare_texts
from ...app.shop.left_out import enter_again, leave_out, take_back_in, unreadable_entries
from ...app.shop.shop_floor import read_record
from ...errors import JobError
from ...findings import Finding
from ...lengths.length import Unit
from ..rendering import OnBench, SavedJobs, page
from . import Tab

router = APIRouter(prefix="/jobs/{job}", include_in_schema=False)
TAB = Tab(90, "History", "/history")


@router.get("/history")
def history(request: Request, work: OnBench, saved: SavedJobs) -> Response:
    """What changed, the newest first, and entries of the shop's record that cannot be read."""
    return _page(request, work, saved)


async def _form(request: Request) -> dict[str, str]:
    return {name: value for name, value in (await request.form()).items() if isinstance(value, str)}


@router.post("/history/entries/{place}/leave-out")
def post_leave_out(job: str, place: int, saved: SavedJobs) -> Response:
    """Leave an unreadable entry of the shop's record out for good."""
    leave_out(saved, job, place, _new_name)
    return RedirectResponse(f"/jobs/{job}/history#unreadable", 303)


@router.post("/history/entries/{place}/take-back")
def post_take_back(job: str, place: int, saved: SavedJobs) -> Response:
    """Tell of an entry again that was left out."""
    take_back_in(saved, job, place, _new_name)
    return RedirectResponse(f"/jobs/{job}/history#unreadable", 303)


@router.post("/history/entries/{place}/again")
def post_again(
    request: Request,
    work: OnBench,
    saved: SavedJobs,
    place: int,
    typed: Annotated[dict[str, str], Depends(_form)],
) -> Response:
    """Keep what was typed in place of an unreadable entry, or show it again with what is wrong."""
    unit = work.worked.job.unit if work.worked.job else Unit.INCH
    try:
        enter_again(saved, work.id, place, typed, unit, _new_name)
    except JobError as refused:
        return _page(request, work, saved, place, typed, refused.findings, 422)
    return RedirectResponse(f"/jobs/{work.id}/history#unreadable", 303)


def _new_name() -> str:
    return token_urlsafe(9)


def _page(
    request: Request,
    work: OnBench,
    saved: SavedJobs,
    place: int = 0,
    typed: Mapping[str, str] | None = None,
    findings: tuple[Finding, ...] = (),
    status: int = 200,
) -> Response:
    return page(
        request,
        "history/list.html",
        status=status,
        work=work,
        revisions=saved.history(work.id),
        unreadable=unreadable_entries(read_record(saved.file, work.id)),
        place=place,
        typed=typed or {},
        findings=findings,
    )


@router.get("/history/{number}")
def revision_page(request: Request, job: str, number: int, work: OnBench, saved: SavedJobs) -> Response:
    """One revision: what it changed, line by line."""
    then = saved.take(job, number)
    parent = then.revision.parent
    before = saved.take(job, parent).revision.text if parent else ""
    lines = compare_texts(before, then.revision.text)
    return page(request, "history/revision.html", work=work, then=then, lines=lines)


@router.get("/history/{number}/text")
def text(job: str, number: int, saved: SavedJobs) -> Response:
    """A revision's own text."""
    return PlainTextResponse(saved.take(job, number).revision.text)


@router.post("/history/{number}/restore")
def restore_revision(job: str, number: int, saved: SavedJobs) -> Response:
    """Make an earlier revision the newest again."""
    saved.restore(job, number)
    return RedirectResponse(f"/jobs/{job}", 303)


@router.post("/undo")
def undo_change(job: str, saved: SavedJobs, based_on: Annotated[int, Form()]) -> Response:
    """Take back the last step, unless another device has saved one since the page was made."""
    saved.undo(job, based_on)
    return RedirectResponse(f"/jobs/{job}", 303)


@router.post("/redo")
def redo_change(job: str, saved: SavedJobs, based_on: Annotated[int, Form()]) -> Response:
    """Make the step that was taken back last again."""
    saved.redo(job, based_on)
    return RedirectResponse(f"/jobs/{job}", 303)
