"""Whole copies of the file, taken and put back while it is in use, by SQLite's own online backup."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from .plain_faults import said_plainly
from .shop_file import StoreFile, connect


@dataclass(frozen=True)
class JobContents:
    """What a file holds of one job: its name, the time of its newest revision, and a key for each of its
    revisions, events and plans. Two files hold the same one if they hold the same key."""

    name: str
    changed: str
    revisions: frozenset[tuple[object, ...]]
    events: frozenset[tuple[object, ...]]
    plans: frozenset[tuple[object, ...]]


def contents(file: StoreFile) -> dict[str, JobContents]:
    """Everything the file holds, by job, those put away too."""
    with file.reading() as connection:
        rows = connection.execute("SELECT id, name FROM job ORDER BY id").fetchall()
        return {row["id"]: _contents(connection, row["id"], row["name"]) for row in rows}


def _contents(connection: sqlite3.Connection, job: str, name: str) -> JobContents:
    def every(columns: str, table: str) -> frozenset[tuple[object, ...]]:
        rows = connection.execute(f"SELECT {columns} FROM {table} WHERE job = ?", (job,))
        return frozenset(tuple(row) for row in rows)

    (changed,) = connection.execute("SELECT max(created) FROM revision WHERE job = ?", (job,)).fetchone()
    return JobContents(
        name,
        changed,
        every("number, created, text", "revision"),
        every("id", "event"),
        every("number, created, name", "plan"),
    )


def copy_to(file: StoreFile, to: Path) -> None:
    """Write a whole copy to a new file, as the shop's file stands at one moment, while others may write.

    The copy is one file by itself, which can be carried away on a stick. StoreError when it cannot be
    written, and then there is none.
    """
    try:
        with said_plainly(to), closing(connect(file.path)) as source, closing(connect(to)) as target:
            source.backup(target)
            target.execute("PRAGMA journal_mode = DELETE")
    except BaseException:
        to.unlink(missing_ok=True)
        raise


def put_copy_back(file: StoreFile, copy: StoreFile) -> None:
    """Make the file hold what the copy holds, all or nothing, while others may read it.

    The copy gets the paired devices of the file as it is now: one that was revoked since the copy was made
    stays out.
    """
    with file.reading() as connection:
        devices = [tuple(row) for row in connection.execute("SELECT * FROM device")]
    with copy.writing() as connection:
        connection.execute("DELETE FROM device")
        connection.executemany("INSERT INTO device VALUES (?, ?, ?, ?, ?)", devices)
    with (
        said_plainly(file.path),
        closing(connect(copy.path)) as source,
        closing(connect(file.path)) as target,
    ):
        source.backup(target)
