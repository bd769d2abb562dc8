"""The job's unit: what its figures are to mean when it is changed."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Form, Request, Response
from fastapi.responses import RedirectResponse

from ...app.editing.unit_change import UnitChange, change_unit, unit_question
from ...app.jobs.kept_jobs import RefusedChange
from ...findings import Finding
from ..rendering import OnBench, SavedJobs, page

router = APIRouter(prefix="/jobs/{job}/unit", include_in_schema=False)


@router.get("")
def unit_page(request: Request, work: OnBench) -> Response:
    """The question: convert the figures, or read them anew."""
    return _page(request, work)


@router.post("")
def post_unit(
    request: Request,
    work: OnBench,
    saved: SavedJobs,
    how: Annotated[UnitChange, Form()],
    based_on: Annotated[int, Form()],
) -> Response:
    """Change the unit as the maker says, or say why the job could not be built so."""
    outcome = change_unit(saved, work, how, based_on)
    if isinstance(outcome, RefusedChange):
        return _page(request, work, outcome.findings, 422)
    return RedirectResponse(f"/jobs/{work.id}", 303)


def _page(request: Request, work: OnBench, findings: tuple[Finding, ...] = (), status: int = 200) -> Response:
    asked = unit_question(work.worked)
    return page(request, "unit/page.html", status=status, work=work, asked=asked, findings=findings)
