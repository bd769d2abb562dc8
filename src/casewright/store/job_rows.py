"""Jobs and their revisions. A job's text is never overwritten: a save adds a revision."""

from __future__ import annotations

import sqlite3
from dataclasses import astuple, dataclass

from ..errors import StoreError
from .shop_file import GREATEST, StoreFile


@dataclass(frozen=True)
class JobRow:
    """A job as the list shows it. `version` is the number of its newest revision."""

    id: str
    name: str
    created: str
    changed: str
    version: int


@dataclass(frozen=True)
class Revision:
    """One text a job had. `parent` is the revision it was made from, None for the first.

    `device` is the name of the paired device that sent it, empty for the machine that keeps the file.
    """

    job: str
    number: int
    parent: int | None
    text: str
    note: str
    created: str
    device: str = ""


class NoSuchJob(StoreError, KeyError):
    """The file has no such job, or the job has no such revision."""

    def __str__(self) -> str:
        return str(self.args[0])


class UnknownBase(StoreError):
    """A change was made from a revision that the job never had."""

    def __init__(self, job: str, based_on: int, newest: int) -> None:
        super().__init__(
            f"This was made from revision {based_on} of job {job}, which has only revisions 1 to {newest}: "
            "the page is from another copy of the shop's file, or from before a backup was restored. "
            "Nothing was changed."
        )


class JobIdTaken(StoreError):
    """Another job has that id, on the list or removed from it."""


class Overtaken(StoreError):
    """Somebody saved another revision first, at `place` if known; make the change again on `newest`."""

    def __init__(self, job: str, newest: int, based_on: int, place: str = "") -> None:
        what = f"a change of {place}" if place else "a change"
        super().__init__(
            f"job {job} is now at revision {newest}, not {based_on}: "
            f"somebody saved {what} first. Look at it, then make yours again. Nothing was overwritten."
        )
        self.newest = newest


_LIST = """
    SELECT job.id, job.name, job.created, revision.created AS changed, job.version
    FROM job JOIN revision ON revision.job = job.id AND revision.number = job.version
"""


def list_jobs(file: StoreFile) -> tuple[JobRow, ...]:
    """Every job on the list, the one changed last first."""
    with file.reading() as connection:
        rows = connection.execute(
            f"{_LIST} WHERE job.put_away IS NULL ORDER BY changed DESC, job.id"
        ).fetchall()
    return tuple(JobRow(**dict(row)) for row in rows)


def get_job(file: StoreFile, job: str) -> JobRow:
    """One job; NoSuchJob when there is none by that id."""
    with file.reading() as connection:
        return _job(connection, job)


def add_job(
    file: StoreFile, job: str, name: str, text: str, note: str, created: str, device: str = ""
) -> Revision:
    """Keep a new job under the id `job`; JobIdTaken when another has it."""
    with file.writing() as connection:
        if connection.execute("SELECT 1 FROM job WHERE id = ?", (job,)).fetchone():
            raise JobIdTaken(f"a job {job} already exists; choose another name for the new one.")
        connection.execute("INSERT INTO job VALUES (?, ?, ?, 1, NULL)", (job, name, created))
        first = Revision(job, 1, None, text, note, created, device)
        _insert(connection, first)
    return first


def add_revision(
    file: StoreFile, job: str, based_on: int, name: str, text: str, note: str, created: str, device: str = ""
) -> Revision:
    """Keep `text` as the job's newest revision, made from revision `based_on`.

    Raises Overtaken when another revision came first, NoSuchJob for an unknown job.
    """
    with file.writing() as connection:
        newest = _job(connection, job).version
        if newest != based_on:
            raise Overtaken(job, newest, based_on)
        revision = Revision(job, newest + 1, based_on, text, note, created, device)
        _insert(connection, revision)
        connection.execute(
            "UPDATE job SET name = ?, version = ? WHERE id = ? AND version = ?",
            (name, revision.number, job, based_on),
        )
    return revision


def list_put_away(file: StoreFile) -> tuple[JobRow, ...]:
    """Every job that was taken off the list, the last first."""
    with file.reading() as connection:
        rows = connection.execute(
            f"{_LIST} WHERE job.put_away IS NOT NULL ORDER BY job.put_away DESC, job.id"
        ).fetchall()
    return tuple(JobRow(**dict(row)) for row in rows)


def put_away(file: StoreFile, job: str, when: str) -> None:
    """Take a job off the list. Its revisions stay in the file."""
    with file.writing() as connection:
        _job(connection, job)
        connection.execute("UPDATE job SET put_away = ? WHERE id = ?", (when, job))


def put_back(file: StoreFile, job: str) -> None:
    """Put a job on the list again."""
    with file.writing() as connection:
        _job(connection, job)
        connection.execute("UPDATE job SET put_away = NULL WHERE id = ?", (job,))


def newest_revision(file: StoreFile, job: str) -> Revision:
    """A job's newest revision; NoSuchJob when there is no such job."""
    with file.reading() as connection:
        return _revision(connection, job, _job(connection, job).version)


def get_revision(file: StoreFile, job: str, number: int) -> Revision:
    """One revision of a job; NoSuchJob when it never had it."""
    with file.reading() as connection:
        return _revision(connection, job, number)


def texts_from(file: StoreFile, job: str, number: int) -> tuple[str, ...]:
    """The job's texts from revision `number`, which a change was made from, to the newest; UnknownBase when
    it never had that revision."""
    with file.reading() as connection:
        newest = _job(connection, job).version
        if not 0 < number <= newest:
            raise UnknownBase(job, number, newest)
        first = _revision(connection, job, number)
        rows = connection.execute(
            "SELECT text FROM revision WHERE job = ? AND number > ? ORDER BY number", (job, number)
        ).fetchall()
    return (first.text, *(row["text"] for row in rows))


def list_revisions(file: StoreFile, job: str) -> tuple[Revision, ...]:
    """Every revision of a job, the newest first."""
    with file.reading() as connection:
        _job(connection, job)
        rows = connection.execute(
            "SELECT * FROM revision WHERE job = ? ORDER BY number DESC", (job,)
        ).fetchall()
    return tuple(Revision(**dict(row)) for row in rows)


def last_revisions(file: StoreFile, job: str, most: int) -> tuple[Revision, ...]:
    """The last revisions of a job, at most so many, the oldest first."""
    with file.reading() as connection:
        rows = connection.execute(
            "SELECT * FROM revision WHERE job = ? ORDER BY number DESC LIMIT ?", (job, most)
        ).fetchall()
    return tuple(Revision(**dict(row)) for row in reversed(rows))


def _job(connection: sqlite3.Connection, job: str) -> JobRow:
    row = connection.execute(f"{_LIST} WHERE job.id = ?", (job,)).fetchone()
    if row is None:
        raise NoSuchJob(f"This file has no job {job!r}; choose one from the list of jobs.")
    return JobRow(**dict(row))


def _revision(connection: sqlite3.Connection, job: str, number: int) -> Revision:
    row = None
    if 0 < number <= GREATEST:
        asked = (job, number)
        row = connection.execute("SELECT * FROM revision WHERE job = ? AND number = ?", asked).fetchone()
    if row is None:
        raise NoSuchJob(f"Job {job!r} has no revision {number}; choose one from its history.")
    return Revision(**dict(row))


def _insert(connection: sqlite3.Connection, revision: Revision) -> None:
    connection.execute(
        "INSERT INTO revision (job, number, parent, text, note, created, device) "
        "VALUES (?, ?, ?, ?, ?, ?, ?)",
        astuple(revision),
    )
