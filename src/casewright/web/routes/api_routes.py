"""The same use cases for programs: JSON in and out, described at /api/docs."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from fastapi import APIRouter, HTTPException
from pydantic import BaseModel, Field

from ...app.choices import LONGEST_JOB_TEXT
from ...app.editing.text_edits import SetEntry, as_path
from ...app.editing.unit_change import UnitChange, change_entries
from ...app.jobs.kept_jobs import OpenedRevision, RefusedChange
from ...app.sheets.promised_rack import promised_twice
from ...errors import JobError
from ..refusals import finding_json
from ..rendering import OnBench, SavedJobs
from ..turns import TURN_TO_MAKE

router = APIRouter(prefix="/api", tags=["jobs"])


class NewJob(BaseModel):
    """A job file's text."""

    text: str = Field(max_length=LONGEST_JOB_TEXT)
    note: str = Field("new", max_length=200)


class NewText(NewJob):
    """A whole new text for a job, made from the revision `based_on`."""

    based_on: int


class Changes(BaseModel):
    """Entries to set, all or none, on a job as it was at revision `based_on`."""

    class Entry(BaseModel):
        """One entry to set, by its path through the job file, as in `runs.0.opening`; null takes it out."""

        path: str
        value: Any = None

    entries: list[Entry] = Field(min_length=1, max_length=500)
    based_on: int
    note: str = Field("changed by a program", max_length=200)
    figures: UnitChange | None = Field(
        None, description="Where `unit` is changed: convert the figures, or read the same ones anew."
    )


@router.get("/jobs")
def jobs(saved: SavedJobs) -> list[dict[str, Any]]:
    """Every job, the one changed last first."""
    return [asdict(row) for row in saved.list()]


@router.post("/jobs", status_code=201, name="new_job")
def post_job(saved: SavedJobs, new: NewJob) -> dict[str, Any]:
    """Keep a new job. A text with faults is kept too; its findings say what to mend."""
    return _job(saved.start(new.text, new.note))


@router.get("/jobs/{job}")
def job(work: OnBench) -> dict[str, Any]:
    """A job: its text, its revision, what is wrong with it."""
    return _job(work)


@router.get("/jobs/{job}/findings", dependencies=[TURN_TO_MAKE])
def findings(saved: SavedJobs, work: OnBench) -> list[dict[str, Any]]:
    """Everything there is to say of the job before a saw starts, the solid check's findings too."""
    return [finding_json(one) for one in (*work.worked.all_findings, *promised_twice(saved, work))]


@router.put("/jobs/{job}/text")
def rewrite(saved: SavedJobs, work: OnBench, new: NewText) -> dict[str, Any]:
    """Keep a new text, unless it could not be built (422, with findings)."""
    return _kept(saved.rewrite(work.id, new.text, new.note, new.based_on))


@router.patch("/jobs/{job}")
def change(saved: SavedJobs, work: OnBench, changes: Changes) -> dict[str, Any]:
    """Set entries of the job, unless it could not be built with them (422, with findings)."""
    edits = [SetEntry(as_path(entry.path), entry.value) for entry in changes.entries]
    return _kept(change_entries(saved, work, edits, changes.note, changes.based_on, changes.figures))


@router.get("/jobs/{job}/revisions")
def revisions(saved: SavedJobs, work: OnBench) -> list[dict[str, Any]]:
    """Every revision, the newest first, without its text."""
    return [
        {key: value for key, value in asdict(revision).items() if key != "text"}
        for revision in saved.history(work.id)
    ]


@router.get("/jobs/{job}/revisions/{number}")
def revision(saved: SavedJobs, job: str, number: int) -> dict[str, Any]:
    """One revision with its text."""
    return asdict(saved.take(job, number).revision)


@router.post("/jobs/{job}/revisions/{number}/restore")
def restore(saved: SavedJobs, job: str, number: int) -> dict[str, Any]:
    """Make an earlier revision the newest again."""
    return _job(saved.restore(job, number))


@router.get("/jobs/{job}/parts")
def parts(work: OnBench) -> list[dict[str, Any]]:
    """Every part: sizes as printed, each with its name in the ledger, and what is cut into it."""
    return [asdict(part) for part in work.worked.needed_shown().parts()]


@router.get("/jobs/{job}/sizes")
def sizes(work: OnBench) -> dict[str, str]:
    """Every named size, in inches, as an exact fraction."""
    return {name: str(value) for name, value in work.worked.needed().sizes.values.items()}


@router.get("/jobs/{job}/sizes/{name}", name="size")
def explain_size(work: OnBench, name: str) -> dict[str, Any]:
    """Where a size comes from, one level down."""
    project = work.worked.needed()
    if name not in project.sizes.ledger:
        raise HTTPException(404, f"This job has no size named {name!r}.")
    told = work.worked.needed_shown().explained(name)
    return {**asdict(told), "inches": str(project.sizes.values[name])}


def _kept(outcome: OpenedRevision | RefusedChange) -> dict[str, Any]:
    if isinstance(outcome, RefusedChange):
        raise JobError(outcome.findings)
    return _job(outcome)


def _job(work: OpenedRevision) -> dict[str, Any]:
    return {
        "id": work.id,
        "name": work.name,
        "revision": work.revision.number,
        "note": work.revision.note,
        "buildable": work.worked.project is not None,
        "findings": [finding_json(finding) for finding in work.worked.findings],
        "text": work.revision.text,
    }
