"""The parts list."""

from __future__ import annotations

from fastapi import APIRouter, Request, Response

from ...app.shown import group
from ...app.watch import alike_lines
from ..rendering import OnBench, page
from . import Tab

router = APIRouter(prefix="/jobs/{job}/parts", include_in_schema=False)
TAB = Tab(30, "Parts", "/parts")


@router.get("")
def parts(request: Request, work: OnBench) -> Response:
    """Every part by its case, those that are cut alike in one row."""
    shown = work.drawn.needed_shown()
    cases = [
        (case, group(shown.part(part.mark) for part in case.parts))
        for run in shown.runs
        for case in run.cases
    ]
    return page(
        request,
        "parts/page.html",
        work=work,
        cases=cases,
        count=len(shown.project.parts),
        alike=alike_lines(shown.project),
    )
