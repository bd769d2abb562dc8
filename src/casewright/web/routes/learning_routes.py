"""The shop's own figures: what the readings say, written into the job when asked; and the shop's test."""

from __future__ import annotations

from secrets import token_urlsafe
from typing import Annotated

from fastapi import APIRouter, Depends, Form, Request, Response
from fastapi.responses import JSONResponse, RedirectResponse

from ...app.jobs.kept_jobs import OpenedRevision, RefusedChange
from ...app.learning.dry_fit_figures import dry_fit_figures
from ...app.learning.dry_fit_taps import dry_fits_told
from ...app.learning.shop_figures import NOTE
from ...app.learning.shop_record import dry_fits_of_shop
from ...app.learning.shop_test_sheet import TrialSheet, filled_sheet, results_of_shop, take_test
from ...app.shop.shop_floor import read_record
from ...errors import JobError
from ..rendering import OnBench, SavedJobs, card, page
from ..turns import TURN_TO_WAIT

router = APIRouter(prefix="/jobs/{job}", include_in_schema=False)

LONGEST_READING = 60


@router.get("/fit/figures", dependencies=[TURN_TO_WAIT])
def figures_card(request: Request, work: OnBench, saved: SavedJobs) -> Response:
    """Each figure before and after the shop's readings, and how the dry fits went."""
    results = results_of_shop(saved, work)
    fits = dry_fit_figures(dry_fits_of_shop(saved))
    return card(request, work, "learning/figures.html", results=results, fits=fits)


@router.post("/fit/figures", dependencies=[TURN_TO_WAIT])
def use_figures(
    work: OnBench,
    saved: SavedJobs,
    based_on: Annotated[int, Form()],
    use: Annotated[list[str] | None, Form()] = None,
) -> Response:
    """Write the figures that were chosen into the job."""
    found = {**results_of_shop(saved, work).figures.edits, **dry_fit_figures(dry_fits_of_shop(saved)).edits}
    edits = [edit for name, edit in found.items() if name in (use or ())]
    if edits:
        changed = saved.change(work.id, edits, NOTE, based_on)
        if isinstance(changed, RefusedChange):
            raise JobError(changed.findings)
    return RedirectResponse(f"/jobs/{work.id}/fit/figures", 303)


@router.get("/shop/dry-fits")
def get_dry_fits(job: str, saved: SavedJobs) -> Response:
    """How the joints tried so far went together, for a tablet that shows a case."""
    return JSONResponse(dry_fits_told(read_record(saved.file, job)), headers={"Cache-Control": "no-store"})


@router.get("/shop-test", dependencies=[TURN_TO_WAIT])
def test_page(request: Request, work: OnBench, saved: SavedJobs) -> Response:
    """The sheet of the test with what was read last, and what it comes to."""
    return _sheet(request, work, saved, filled_sheet(saved, work), 200)


async def _typed(request: Request) -> dict[str, str]:
    """What stands in the sheet's fields. Only the reading waits where all requests are taken.

    A turn would watch the request for its end and take the form away, so the sheet is sent without one.
    """
    form = await request.form()
    return {name: text[:LONGEST_READING] for name, text in form.items() if isinstance(text, str)}


Typed = Annotated[dict[str, str], Depends(_typed)]


@router.post("/shop-test")
def send_test(request: Request, work: OnBench, saved: SavedJobs, typed: Typed) -> Response:
    """Keep the readings, or show which of them cannot be right; what was typed stays in its field."""
    sheet = take_test(saved, work, typed, f"test-{token_urlsafe(9)}")
    if sheet.findings:
        return _sheet(request, work, saved, sheet, 422)
    return RedirectResponse(f"/jobs/{work.id}/shop-test#results", 303)


def _sheet(
    request: Request, work: OpenedRevision, saved: SavedJobs, sheet: TrialSheet, status: int
) -> Response:
    results = results_of_shop(saved, work)
    return page(request, "learning/test.html", status=status, work=work, sheet=sheet, results=results)
