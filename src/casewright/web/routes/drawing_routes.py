"""The bench: the run in elevation, and beside it a card for whatever was tapped."""

from __future__ import annotations

from fastapi import APIRouter, HTTPException, Request, Response
from fastapi.responses import RedirectResponse

from ...app.choices import KINDS
from ...app.sheets.promised_rack import promised_twice
from ...app.views.page_pictures import pictures_of_part
from ..rendering import OnBench, SavedJobs, bench_values, card, partial
from ..turns import TURN_TO_MAKE
from . import Tab

router = APIRouter(prefix="/jobs/{job}", include_in_schema=False)
TAB = Tab(10, "Drawing", "")

MOST_STEPS = 12


@router.get("")
def bench(request: Request, work: OnBench) -> Response:
    """The whole job: nothing tapped yet."""
    return card(request, work, "drawing/job_card.html", shown=work.worked.shown, kinds=KINDS)


@router.get("/findings", dependencies=[TURN_TO_MAKE])
def findings_card(request: Request, work: OnBench, saved: SavedJobs) -> Response:
    """Every finding, including those of the solid check, which takes time on the first request."""
    found = (*work.worked.all_findings, *promised_twice(saved, work))
    return card(request, work, "drawing/findings.html", found=found)


@router.get("/elevation")
def elevation_drawing(request: Request, work: OnBench) -> Response:
    """The drawing alone, as it is after a change."""
    return partial(request, "drawing/elevation.html", work=work, **bench_values(work.worked))


@router.get("/at/{name}")
def at(job: str, name: str, work: OnBench) -> Response:
    """Where a name in a drawing leads: a case, a part, or a size."""
    project = work.worked.needed()
    for kind, known in (("cases", project.cases), ("parts", project.parts), ("sizes", project.sizes.ledger)):
        if name in known:
            return RedirectResponse(f"/jobs/{job}/{kind}/{name}", 303)
    raise HTTPException(404, f"Nothing in this job is named {name!r}.")


@router.get("/sizes/{name}")
def size_card(request: Request, name: str, work: OnBench, trail: str = "") -> Response:
    """Where a size comes from. `trail` lists the sizes that led here, with commas."""
    shown = work.worked.needed_shown()
    if name not in shown.sizes.ledger:
        raise HTTPException(404, f"This job has no size named {name!r}.")
    steps = [step for step in trail.split(",") if step in shown.sizes.ledger][-MOST_STEPS:]
    if name in steps:
        steps = steps[: steps.index(name)]
    return card(
        request,
        work,
        "drawing/size_card.html",
        told=shown.explained(name),
        trail=[(shown.named(step), ",".join(steps[:place])) for place, step in enumerate(steps)],
        onward=",".join([*steps, name]),
        changed_at=changed_at(work, name),
    )


@router.get("/parts/{mark}")
def part_card(request: Request, mark: str, work: OnBench) -> Response:
    """One part: its sizes and what is cut into it."""
    project = work.worked.needed()
    if mark not in project.parts:
        raise HTTPException(404, f"This job has no part marked {mark!r}.")
    return card(
        request,
        work,
        "drawing/part_card.html",
        part=work.worked.needed_shown().part(mark),
        pictures_of_part=pictures_of_part(project, mark),
    )


def changed_at(work: OnBench, name: str) -> str:
    """The form in which a given size is changed, below the job's address; nothing for a worked-out one."""
    return work.worked.needed_shown().entered_in(name) if work.worked.project else ""
