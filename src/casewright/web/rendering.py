"""Templates: whole pages, and the parts of them that change in place."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import Annotated, Any
from urllib.parse import quote

from fastapi import Depends, Request
from fastapi.responses import HTMLResponse
from jinja2 import Environment, PackageLoader, StrictUndefined

from ..app.jobs.kept_jobs import KeptJobs, OpenedRevision
from ..app.jobs.worked_job import WorkedJob
from ..app.views.page_pictures import pictures_of_walls
from . import routes

_templates = Environment(
    loader=PackageLoader("casewright.web"),
    autoescape=True,
    undefined=StrictUndefined,
    trim_blocks=True,
    lstrip_blocks=True,
)
_templates.filters["clock"] = lambda time: f"{time[:16].replace('T', ' ')} UTC"
_templates.filters["in_path"] = lambda text: quote(str(text), safe="")


def _saved(request: Request) -> KeptJobs:
    saved = request.app.state.saved
    assert isinstance(saved, KeptJobs)
    return replace(saved, device=request.state.device)


SavedJobs = Annotated[KeptJobs, Depends(_saved)]


def _work(job: str, saved: SavedJobs) -> OpenedRevision:
    return saved.take(job)


OnBench = Annotated[OpenedRevision, Depends(_work)]
"""The job an endpoint below `/jobs/{job}` is about, at its newest revision."""


def page(request: Request, template: str, *, status: int = 200, **values: Any) -> HTMLResponse:
    """A whole page; of a job, with what undo and redo would do there."""
    work = values.get("work")
    if isinstance(work, OpenedRevision):
        values = {**values, "history": _saved(request).steps(work.id)}
    text = _templates.get_template(template).render(request=request, tabs=routes.tabs(), **values)
    return HTMLResponse(text, status)


def partial(request: Request, template: str, *, status: int = 200, **values: Any) -> HTMLResponse:
    """A part of a page, for htmx to swap in."""
    return page(request, template, status=status, **values)


def card(
    request: Request, work: OpenedRevision, template: str, *, status: int = 200, **values: Any
) -> HTMLResponse:
    """A card beside the drawing: alone for htmx, otherwise within the whole page."""
    if request.headers.get("hx-request"):
        answer = partial(request, template, status=status, work=work, **values)
    else:
        views = bench_values(work.worked)
        answer = page(
            request, "drawing/bench.html", status=status, work=work, card=template, **views, **values
        )
    tell_revision(answer, work)
    return answer


def tell_revision(answer: HTMLResponse, work: OpenedRevision) -> None:
    """Let the page's script know which revision this is, so that drawings of an older one are redrawn."""
    answer.headers["HX-Trigger"] = json.dumps({"job-at": {"job": work.id, "revision": work.newest}})


def bench_values(worked: WorkedJob) -> dict[str, Any]:
    """What the bench's drawing shows."""
    return {"pictures": pictures_of_walls(worked)}
