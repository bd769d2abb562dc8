"""Plans of record: each job's, one after another. None is ever overwritten."""

from __future__ import annotations

from dataclasses import astuple, dataclass

from .job_rows import NoSuchJob
from .shop_file import StoreFile


@dataclass(frozen=True)
class PlanRow:
    """A plan as it is kept: its place in the job's series, its name and, as JSON text, its content.

    `after_event` is the place of the newest event when it was kept.
    """

    job: str
    number: int
    name: str
    payload: str
    after_event: int
    created: str


def newest_plan(file: StoreFile, job: str) -> PlanRow | None:
    """The plan of record of a job; None while it has none."""
    with file.reading() as connection:
        row = connection.execute(
            "SELECT * FROM plan WHERE job = ? ORDER BY number DESC LIMIT 1", (job,)
        ).fetchone()
    return None if row is None else PlanRow(**dict(row))


def add_plan(file: StoreFile, job: str, name: str, payload: str, created: str) -> PlanRow:
    """Keep a plan as the job's newest. Raises NoSuchJob for a job that is not in the file."""
    with file.writing() as connection:
        if connection.execute("SELECT 1 FROM job WHERE id = ?", (job,)).fetchone() is None:
            raise NoSuchJob(f"This file has no job {job!r}; no plan was kept.")
        last = connection.execute("SELECT max(number) FROM plan WHERE job = ?", (job,)).fetchone()[0]
        event = connection.execute("SELECT max(place) FROM event WHERE job = ?", (job,)).fetchone()[0]
        row = PlanRow(job, (last or 0) + 1, name, payload, event or 0, created)
        connection.execute(
            "INSERT INTO plan (job, number, name, payload, after_event, created) VALUES (?, ?, ?, ?, ?, ?)",
            astuple(row),
        )
    return row
