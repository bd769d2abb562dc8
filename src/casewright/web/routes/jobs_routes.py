"""The list of jobs, and new ones."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from fastapi import APIRouter, File, Form, Request, Response, UploadFile
from fastapi.responses import RedirectResponse

from ...app.choices import KINDS, LONGEST_JOB_TEXT
from ...app.new_job.examples import example, examples
from ...app.new_job.from_opening import job_in_opening
from ...errors import JobError, LengthError
from ..refusals import Refusal, respond
from ..rendering import SavedJobs, page

router = APIRouter(include_in_schema=False)

LARGEST = 4 * LONGEST_JOB_TEXT  # bytes: a letter takes four at most


@dataclass(frozen=True)
class NewJobEntries:
    """The entries of the form for a new job, and why they were refused."""

    name: str = ""
    opening: str = ""
    unit: str = "in"
    kind: str = "base"
    why: tuple[str, ...] = ()


@router.get("/")
def jobs_page(request: Request, saved: SavedJobs) -> Response:
    """Every job, the one changed last first."""
    return _list(request, saved)


@router.post("/jobs")
def post_new_job(
    request: Request,
    saved: SavedJobs,
    start: Annotated[str, Form()],
    name: Annotated[str, Form()] = "",
    opening: Annotated[str, Form()] = "",
    unit: Annotated[str, Form()] = "in",
    kind: Annotated[str, Form()] = "base",
) -> Response:
    """A new job: one of the examples, or one run of cases that fill a measured opening.

    A refused opening is shown again as typed, with the reason beside it.
    """
    if start != "opening":
        return RedirectResponse(f"/jobs/{saved.start(example(start)).id}", 303)
    try:
        text = job_in_opening(name, unit, opening, kind)
    except LengthError as fault:
        return _list(request, saved, NewJobEntries(name, opening, unit, kind, (str(fault),)), 422)
    except JobError as fault:
        why = tuple(
            f"{finding.text[:1].upper()}{finding.text[1:]} {finding.fix}" for finding in fault.findings
        )
        return _list(request, saved, NewJobEntries(name, opening, unit, kind, why), 422)
    return RedirectResponse(f"/jobs/{saved.start(text).id}", 303)


@router.post("/jobs/file")
def from_file(request: Request, saved: SavedJobs, file: Annotated[UploadFile, File()]) -> Response:
    """A new job from a job file. One with errors is saved too: its page lists what to correct."""
    read = file.file.read(LARGEST + 1)
    if len(read) > LARGEST:
        return respond(
            request,
            Refusal(
                413, "file-too-long", f"The file is larger than {LARGEST:,} bytes.", "Split the job into two."
            ),
        )
    try:
        text = read.decode("utf-8-sig")
    except UnicodeDecodeError:
        return respond(
            request,
            Refusal(
                422,
                "not-text",
                f"{file.filename} is not a text file.",
                "Choose a job file saved as UTF-8 text.",
            ),
        )
    if not text.strip():
        return respond(
            request,
            Refusal(422, "empty", "The file is empty, or no file was chosen.", "Choose a job file first."),
        )
    work = saved.start(text, f"from the file {file.filename}")
    return RedirectResponse(f"/jobs/{work.id}", 303)


@router.post("/jobs/{job}/put-away")
def post_put_away(job: str, saved: SavedJobs) -> Response:
    """Take a job off the list."""
    saved.put_away(job)
    return RedirectResponse("/", 303)


@router.post("/jobs/{job}/put-back")
def post_put_back(job: str, saved: SavedJobs) -> Response:
    """Put a job on the list again."""
    saved.put_back(job)
    return RedirectResponse("/", 303)


def _list(
    request: Request, saved: SavedJobs, typed: NewJobEntries = NewJobEntries(), status: int = 200
) -> Response:
    return page(
        request,
        "jobs/list.html",
        status=status,
        jobs=saved.list(),
        put_away=saved.list_put_away(),
        examples=examples(),
        typed=typed,
        kinds=KINDS,
    )
