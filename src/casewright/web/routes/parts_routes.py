"""The parts list."""

from __future__ import annotations

from fastapi import APIRouter, Request, Response

from ...app.prevention import alike_lines
from ...app.views.parts_page import movement
from ..rendering import OnBench, page
from . import Tab

router = APIRouter(prefix="/jobs/{job}/parts", include_in_schema=False)
TAB = Tab(30, "Parts", "/parts")


@router.get("")
def parts_page(request: Request, work: OnBench) -> Response:
    """Every part by its case, those that are cut alike in one row."""
    shown = work.worked.needed_shown()
    groups = work.worked.parts_list
    cases = [
        (case, [(shown.part(group.first.mark), group) for group in work.worked.parts_of_case(case.mark)])
        for run in shown.runs
        for case in run.cases
    ]
    return page(
        request,
        "parts/page.html",
        work=work,
        cases=cases,
        count=len(shown.project.parts),
        kinds=len(groups),
        alike=alike_lines(work.worked),
        movement=movement(work.worked),
    )
