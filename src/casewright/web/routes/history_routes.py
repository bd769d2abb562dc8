"""Every revision of a job, and the way back to any of them."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Form, Request, Response
from fastapi.responses import PlainTextResponse, RedirectResponse

from ...app.history.text_comparison import compare_texts
from ..rendering import OnBench, SavedJobs, page
from . import Tab

router = APIRouter(prefix="/jobs/{job}", include_in_schema=False)
TAB = Tab(90, "History", "/history")


@router.get("/history")
def history(request: Request, work: OnBench, saved: SavedJobs) -> Response:
    """What changed, the newest first."""
    return page(request, "history/list.html", work=work, revisions=saved.history(work.id))


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
