"""The list of jobs, and new ones."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, File, Form, Request, Response, UploadFile
from fastapi.responses import RedirectResponse

from ...app.examples import blank, example, examples
from ..refusals import Refusal, respond
from ..rendering import SavedJobs, page

router = APIRouter(include_in_schema=False)

LARGEST = 2_000_000


@router.get("/")
def the_list(request: Request, saved: SavedJobs) -> Response:
    """Every job, the one changed last first."""
    return page(request, "jobs/list.html", jobs=saved.list(), examples=examples())


@router.post("/jobs")
def new_job(
    saved: SavedJobs,
    start: Annotated[str, Form()],
    name: Annotated[str, Form()] = "",
    opening: Annotated[str, Form()] = "",
    unit: Annotated[str, Form()] = "in",
) -> Response:
    """A new job: one of the examples, or one run in a measured opening."""
    text = example(start) if start != "blank" else blank(name, unit, opening)
    work = saved.start(text)
    return RedirectResponse(f"/jobs/{work.id}", 303)


@router.post("/jobs/file")
async def from_file(request: Request, saved: SavedJobs, file: Annotated[UploadFile, File()]) -> Response:
    """A new job from a job file. One with faults is kept too: its page says what to mend."""
    read = await file.read(LARGEST + 1)
    if len(read) > LARGEST:
        return respond(
            request,
            Refusal(413, "file-too-long", "The file is longer than two million bytes.", "Split the job."),
        )
    try:
        text = read.decode("utf-8-sig")
    except UnicodeDecodeError:
        return respond(
            request,
            Refusal(
                422, "not-text", f"{file.filename} is no text file.", "Choose a job file, saved as UTF-8."
            ),
        )
    if not text.strip():
        return respond(request, Refusal(422, "empty", "No job file came with the form.", "Choose one first."))
    work = saved.start(text, f"from the file {file.filename}")
    return RedirectResponse(f"/jobs/{work.id}", 303)


@router.post("/jobs/{job}/put-away")
def put_away(job: str, saved: SavedJobs) -> Response:
    """Take a job off the list."""
    saved.put_away(job)
    return RedirectResponse("/", 303)
