"""The Fit page: gaps at risk with their chains, advice, measurements and what they break.

Every answer is that of the job's sheet plan, which says which parts share a setting and so which
errors they share. The page shows how far the planning is; the cards wait for it.
"""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Depends, Query, Request, Response

from ...app.fit import fit_page as fit
from ...app.fit import typed_readings as typed
from ...app.fit.fit_advice import advice_page, measure_page
from ...app.fit.fit_as_built import as_it_stands
from ...app.shop.shop_floor import read_record
from ...errors import JobError
from ..plan_for_page import planned_of, planning_of
from ..rendering import OnBench, SavedJobs, card, page
from ..turns import TURN_TO_WAIT
from . import Tab

router = APIRouter(prefix="/jobs/{job}/fit", include_in_schema=False, dependencies=[TURN_TO_WAIT])
TAB = Tab(35, "Fit", "/fit")

LIMIT = 0.01


def _closing(request: Request, work: OnBench, saved: SavedJobs) -> fit.Fit:
    return planned_of(request, saved, work).fit


Closing = Annotated[fit.Fit, Depends(_closing)]
"""How the joints close when the job is cut by its plan."""


@router.get("")
def fit_overview(request: Request, work: OnBench, saved: SavedJobs) -> Response:
    """What happens to each case, and the joints worth a look."""
    planning = planning_of(request, saved, work)
    closing = planning.planned.fit if planning.planned else None
    return page(
        request,
        "fit/page.html",
        work=work,
        planning=planning,
        job=fit.job_line(closing) if closing else None,
        cases=fit.case_lines(closing) if closing else (),
        runs=fit.run_lines(closing) if closing else (),
        looks=fit.worth_a_look(closing) if closing else (),
        example=typed.example_reading(closing.project) if closing else "",
    )


@router.get("/advice")
def advice(request: Request, work: OnBench, closing: Closing) -> Response:
    """What would help, the best first."""
    return card(request, work, "fit/advice.html", found=advice_page(closing))


@router.get("/gap")
def gap_card(request: Request, work: OnBench, closing: Closing, name: str) -> Response:
    """One gap: its chain drawn along the section, links in order, the loose link marked."""
    return card(request, work, "fit/gap.html", gap=fit.explain_gap(closing, name))


@router.get("/case")
def case_fit(request: Request, work: OnBench, closing: Closing, mark: str) -> Response:
    """Every gap of one case or run, and its diagonals to fill in."""
    gaps = fit.gap_lines(closing, LIMIT, mark)
    has_sides = mark in closing.project.cases  # a run has none
    line = fit.case_line(closing, mark) if has_sides else None
    said = fit.place_sentence(closing, mark)
    return card(request, work, "fit/case.html", mark=mark, said=said, line=line, gaps=gaps)


@router.get("/square")
def square(
    request: Request,
    work: OnBench,
    closing: Closing,
    mark: str,
    rising: str,
    falling: str,
    sure: bool = False,
) -> Response:
    """Which corners of a case to draw in, from both diagonals; or first what they were meant to be."""
    try:
        found = typed.check_square(closing, mark, rising, falling, sure=sure)
    except JobError as refused:
        if mark not in closing.project.cases:
            raise
        values = {"mark": mark, "rising": rising, "falling": falling, "findings": refused.findings}
        return _refused(request, work, "fit/square_refused.html", **values)
    if isinstance(found, typed.AskedFirst):
        said = {"rising": rising, "falling": falling}
        meant = {**said, **{("rising", "falling")[at]: one.meant for at, one in found.doubts if one.meant}}
        doubts = [doubt for _, doubt in found.doubts]
        return card(request, work, "fit/square_asked.html", mark=mark, doubts=doubts, typed=said, meant=meant)
    return card(request, work, "fit/square.html", mark=mark, found=found)


@router.get("/measured")
def measured_card(
    request: Request,
    work: OnBench,
    closing: Closing,
    readings: str = "",
    cut: str = "",
    sure: Annotated[tuple[str, ...], Query()] = (),
) -> Response:
    """What readings, one to a line, break when these parts are cut, and what would mend it. A line that looks
    like a slip is asked about first, unless it is in `sure`."""
    lines = [line.strip() for line in readings.splitlines() if line.strip()]
    marks = cut.replace(",", " ").split()
    try:
        found = typed.as_built(closing, lines, marks, sure=sure)
    except JobError as refused:
        of_parts = [one for one in refused.findings if one.place in marks]
        of_readings = [one for one in refused.findings if one.place not in marks]
        example = typed.example_reading(closing.project)
        values = {
            "example": example,
            "cut": cut,
            "readings": readings,
            "of_parts": of_parts,
            "of_readings": of_readings,
        }
        return _refused(request, work, "fit/measured_refused.html", **values)
    if isinstance(found, typed.AskedFirst):
        asked = [
            (doubt, lines[at], "\n".join((*lines[:at], typed.as_meant(lines[at], doubt), *lines[at + 1 :])))
            for at, doubt in found.doubts
        ]
        return card(request, work, "fit/measured_asked.html", asked=asked, lines=lines, cut=cut, sure=sure)
    return card(request, work, "fit/measured.html", found=found, lines=lines, marks=marks)


def _refused(request: Request, work: OnBench, template: str, **values: Any) -> Response:
    """The form as it was filled in, with what cannot be read beside its field."""
    answer = card(request, work, template, status=422, **values)
    answer.headers["HX-Retarget"] = "#card"
    return answer


@router.get("/shop")
def shop_fit(request: Request, work: OnBench, saved: SavedJobs) -> Response:
    """How the job closes with what the benches have cut and measured."""
    heard = read_record(saved.file, work.id)
    return card(request, work, "fit/shop.html", stands=as_it_stands(heard))


@router.get("/measure")
def measure(request: Request, work: OnBench, closing: Closing) -> Response:
    """The few readings worth taking, in the order of the work."""
    return card(request, work, "fit/measure.html", found=measure_page(closing))
