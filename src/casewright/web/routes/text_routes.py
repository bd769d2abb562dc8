"""The whole job as text, for those who prefer writing to forms."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Form, Request, Response
from fastapi.responses import RedirectResponse

from ...app.history.text_comparison import Line, compare_texts
from ...app.jobs.kept_jobs import Overtaken, RefusedChange
from ...findings import Finding
from ..rendering import OnBench, SavedJobs, page
from . import Tab

router = APIRouter(prefix="/jobs/{job}/text", include_in_schema=False)
TAB = Tab(80, "Text", "/text")


@router.get("")
def text_page(request: Request, work: OnBench) -> Response:
    """The job's text, with what is wrong in it."""
    return _page(request, work, work.revision.text, work.worked.all_findings)


@router.post("")
def post_text(
    request: Request,
    work: OnBench,
    saved: SavedJobs,
    text: Annotated[str, Form()],
    based_on: Annotated[int, Form()],
) -> Response:
    """Save a new text, or show it again with every error and its line."""
    text = text.replace("\r\n", "\n")
    try:
        outcome = saved.rewrite(work.id, text, "text edited", based_on)
    except Overtaken as fault:
        overtaken = Finding(
            "overtaken",
            "text",
            str(fault),
            "What was saved is shown first, then your text: take it over there, then save.",
        )
        theirs = compare_texts(saved.take(work.id, based_on).revision.text, work.revision.text)
        return _page(request, work, text, (overtaken,), 409, theirs)
    if isinstance(outcome, RefusedChange):
        return _page(request, work, text, outcome.findings, 422)
    return RedirectResponse(f"/jobs/{work.id}", 303)


def _page(
    request: Request,
    work: OnBench,
    text: str,
    findings: tuple[Finding, ...],
    status: int = 200,
    theirs: tuple[Line, ...] = (),
) -> Response:
    return page(
        request, "text/page.html", status=status, work=work, text=text, findings=findings, theirs=theirs
    )
