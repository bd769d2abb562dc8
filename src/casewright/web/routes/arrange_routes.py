"""Buttons that add, move and remove what a job is made up of, from runs to drawers and hinges."""

from __future__ import annotations

from typing import Annotated, Literal

from fastapi import APIRouter, Depends, Form, HTTPException, Response
from fastapi.responses import RedirectResponse

from ...app.editing import arrangement as arrange
from ...app.editing.forms import followed_bay, followed_case
from ...app.editing.text_edits import Edit
from ...app.jobs.kept_jobs import RefusedChange
from ...errors import JobError
from ..rendering import OnBench, SavedJobs

router = APIRouter(prefix="/jobs/{job}", include_in_schema=False)

Text = Annotated[str, Form()]
FittingTable = Literal["hinges", "slides"]


def _seen(work: OnBench, based_on: Annotated[int | None, Form()] = None) -> int:
    """The revision that the page with the button showed; the newest for whoever does not say."""
    return based_on or work.newest


Seen = Annotated[int, Depends(_seen)]


@router.post("/cases/{mark}/{verb}")
def rearrange_case(
    work: OnBench,
    saved: SavedJobs,
    mark: str,
    verb: str,
    seen: Seen,
    bay: Annotated[int, Form()] = 0,
) -> Response:
    """Copy, move or take out a case, one of its bays, or the top front of a bay.

    What is taken out is what was seen: it is looked up in the revision of the page. All else is done to
    the case as it is now, under the mark it has now.
    """
    values = work.worked.values
    edits: list[Edit]
    try:
        if verb.startswith("drop"):
            values = saved.values_since(work.id, seen)[0]
        else:
            now = followed_bay(saved, work.id, mark, bay, seen) if verb == "add-front" else bay
            if now is None:
                gone = "Another device removed this bay since this page was opened. Undo brings it back."
                raise HTTPException(409, gone)
            bay, mark = now, followed_case(saved, work.id, mark, seen) or ""
            seen = work.newest
        goes_to = f"cases/{mark}"
        match verb:
            case "copy":
                edits, new = arrange.copy_case(values, mark)
                goes_to = f"cases/{new}"
            case "drop":
                edits, goes_to = arrange.drop_case(values, mark), ""
            case "left" | "right":
                edits = arrange.move_case(values, mark, 1 if verb == "right" else -1)
            case "add-bay":
                edits = arrange.add_bay(values, mark)
            case "drop-bay":
                edits = arrange.drop_bay(values, mark, bay)
            case "add-front":
                edits = arrange.add_front(values, mark, bay)
            case "drop-front":
                edits = arrange.drop_front(values, mark, bay)
            case _:
                raise HTTPException(404, "This page does not exist.")
    except KeyError:
        raise HTTPException(404, f"This job has no case {mark}.") from None
    return _made(work, saved, edits, f"case {mark}: {verb.replace('-', ' ')}", goes_to, seen)


@router.post("/runs")
def post_run(work: OnBench, saved: SavedJobs, name: Text, opening: Text) -> Response:
    """Another run of one base case."""
    edits = arrange.add_run(work.worked.values, name.strip(), opening.strip())
    return _made(work, saved, edits, f"run {name}: new", f"runs/{len(work.worked.values.get('runs', ()))}")


@router.post("/runs/{index}/drop")
def post_run_removal(work: OnBench, saved: SavedJobs, index: int, seen: Seen) -> Response:
    """Take a run out with its cases, as the page showed it."""
    try:
        edits = arrange.drop_run(saved.values_since(work.id, seen)[0], index)
    except KeyError:
        raise HTTPException(404, f"This job has no run {index}.") from None
    return _made(work, saved, edits, "run taken out", "", seen)


@router.post("/materials/add")
def post_material(work: OnBench, saved: SavedJobs, sheet: Text) -> Response:
    """Another material from the shop's list."""
    edits, key = arrange.add_material(work.worked.values, sheet)
    return _made(work, saved, edits, f"material {key}: new", "materials")


@router.post("/materials/{key}/drop")
def post_material_removal(work: OnBench, saved: SavedJobs, key: str, seen: Seen) -> Response:
    """Take a material out."""
    return _made(work, saved, arrange.drop_material(key), f"material {key}: out", "materials", seen)


@router.post("/edging/add")
def post_edging(work: OnBench, saved: SavedJobs, name: Text, thickness: Text) -> Response:
    """Another edging, by its name and thickness."""
    edits, key = arrange.add_edging(work.worked.values, name.strip(), thickness.strip())
    return _made(work, saved, edits, f"edging {key}: new", "edging")


@router.post("/edging/{key}/drop")
def post_edging_removal(work: OnBench, saved: SavedJobs, key: str, seen: Seen) -> Response:
    """Take an edging out."""
    return _made(work, saved, arrange.drop_edging(key), f"edging {key}: out", "edging", seen)


@router.post("/hardware/{table}/add")
def post_fitting(work: OnBench, saved: SavedJobs, table: FittingTable, like: Text) -> Response:
    """Other hinges or slides from the shop's list."""
    edits, key = arrange.add_fitting(work.worked.values, table, like)
    return _made(work, saved, edits, f"{table} {key}: new", "hardware")


@router.post("/hardware/{table}/{key}/drop")
def post_fitting_removal(
    work: OnBench, saved: SavedJobs, table: FittingTable, key: str, seen: Seen
) -> Response:
    """Take hinges or slides out."""
    return _made(work, saved, arrange.drop_fitting(table, key), f"{table} {key}: out", "hardware", seen)


def _made(
    work: OnBench, saved: SavedJobs, edits: list[Edit], note: str, goes_to: str, based_on: int | None = None
) -> Response:
    """Keep the change and go on to the card it concerns; JobError when it cannot be built, Overtaken when it
    would take out what another device has changed since `based_on`."""
    outcome = saved.change(work.id, edits, note, work.newest if based_on is None else based_on)
    if isinstance(outcome, RefusedChange):
        raise JobError(outcome.findings)
    return RedirectResponse(f"/jobs/{work.id}/{goes_to}".rstrip("/"), 303)
