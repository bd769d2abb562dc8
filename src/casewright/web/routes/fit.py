"""Will it close: gaps at risk with their chains drawn, advice, measurements and what they break."""

from __future__ import annotations

from fastapi import APIRouter, Request, Response

from ...app import fit
from ...app.built import as_it_stands
from ...app.shop import hear
from ..rendering import OnBench, SavedJobs, card, page
from . import Tab

router = APIRouter(prefix="/jobs/{job}/fit", include_in_schema=False)
TAB = Tab(35, "Fit", "/fit")

LIMIT = 0.01
ADVICE = 10
MOST = 40  # gaps listed at once; the rest stand with their cases


@router.get("")
def whole(request: Request, work: OnBench) -> Response:
    """Every case with its chance, and the gaps likeliest not to close."""
    plan = fit.of_text(work.revision.text)
    return page(
        request,
        "fit/page.html",
        work=work,
        cases=fit.case_lines(plan),
        gaps=fit.gap_lines(plan, LIMIT),
        most=MOST,
    )


@router.get("/advice")
def advice(request: Request, work: OnBench) -> Response:
    """What would help, the most first."""
    found = fit.advice_lines(fit.of_text(work.revision.text), LIMIT, ADVICE)
    return card(request, work, "fit/advice.html", advice=found)


@router.get("/gap")
def one(request: Request, work: OnBench, name: str) -> Response:
    """One gap: its chain drawn along the section, links in order, the loose link marked."""
    found = fit.explained(fit.of_text(work.revision.text), name)
    return card(request, work, "fit/gap.html", gap=found)


@router.get("/case")
def case(request: Request, work: OnBench, mark: str) -> Response:
    """Every gap of one case or run, and its diagonals to fill in."""
    plan = fit.of_text(work.revision.text)
    gaps = fit.gap_lines(plan, LIMIT, mark)
    return card(request, work, "fit/case.html", mark=mark, gaps=gaps, has_sides=mark in plan.project.cases)


@router.get("/square")
def square(request: Request, work: OnBench, mark: str, rising: str, falling: str) -> Response:
    """Which corners of a case to draw in, from both diagonals."""
    found = fit.squared(fit.of_text(work.revision.text), mark, rising, falling)
    return card(request, work, "fit/square.html", mark=mark, found=found)


@router.get("/measured")
def measured(request: Request, work: OnBench, readings: str = "", cut: str = "") -> Response:
    """What readings, one to a line, break when these parts are cut, and what would mend it."""
    lines = [line.strip() for line in readings.splitlines() if line.strip()]
    marks = cut.replace(",", " ").split()
    found = fit.as_built(fit.of_text(work.revision.text), lines, marks)
    return card(request, work, "fit/measured.html", found=found, lines=lines, marks=marks)


@router.get("/shop")
def shop(request: Request, work: OnBench, saved: SavedJobs) -> Response:
    """How the job closes with what the benches have cut and measured."""
    heard = hear(saved.file, work.id, lambda number: saved.take(work.id, number).revision.text)
    return card(request, work, "fit/shop.html", stands=as_it_stands(heard))


@router.get("/measure")
def measure(request: Request, work: OnBench) -> Response:
    """The fewest measurements that bring every gap under the limit."""
    found, left = fit.measure_lines(fit.of_text(work.revision.text), LIMIT)
    return card(request, work, "fit/measure.html", found=found, left=left)
