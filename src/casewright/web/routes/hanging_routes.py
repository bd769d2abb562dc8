"""The page for hanging the cases: in a hand, on a ladder."""

from __future__ import annotations

from fastapi import APIRouter, Request, Response

from ...app.views.hanging_page import hanging_of, pictures_of_hanging, pictures_of_hung_cases
from ..rendering import OnBench, page
from . import Tab

router = APIRouter(prefix="/jobs/{job}/hanging", include_in_schema=False)
TAB = Tab(45, "Hanging", "/hanging")


@router.get("")
def hanging(request: Request, work: OnBench) -> Response:
    """Every row of hung cases with its studs, screws and shims, case by case; then what is scribed."""
    sheet = hanging_of(work.worked)
    whole, single = pictures_of_hanging(work.worked), pictures_of_hung_cases(work.worked)
    rows = list(zip(sheet.rows, whole, single, strict=True))
    return page(request, "hanging/page.html", work=work, sheet=sheet, rows=rows)
