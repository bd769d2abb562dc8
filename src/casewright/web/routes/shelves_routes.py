"""The page of all shelves: what each holds, how far it sags, and by whose figure it is judged."""

from __future__ import annotations

from fastapi import APIRouter, Request, Response

from ...app.views.shelves_page import shelves_of
from ..rendering import OnBench, page
from . import Tab

router = APIRouter(prefix="/jobs/{job}/shelves", include_in_schema=False)
TAB = Tab(36, "Shelves", "/shelves")


@router.get("")
def shelves(request: Request, work: OnBench) -> Response:
    """Every shelf with its sag, alike ones together, those that do not meet their figure first."""
    return page(request, "shelves.html", work=work, sheet=shelves_of(work.worked))
