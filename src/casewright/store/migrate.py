"""The file's layout, as numbered migrations that are only ever added to."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from importlib.resources import files
from pathlib import Path

from ..errors import StoreError


@dataclass(frozen=True, order=True)
class Migration:
    """One change of the file's layout: its number, its name and its SQL."""

    number: int
    name: str
    sql: str


def migrations() -> tuple[Migration, ...]:
    """Every migration of this version, in order, from the package's own files."""
    folder = files(__package__) / "migrations"
    found = (
        Migration(int(entry.name[:4]), entry.name[5:-4], entry.read_text(encoding="utf-8"))
        for entry in folder.iterdir()
        if entry.name.endswith(".sql")
    )
    return tuple(sorted(found))


def bring_up_to_date(
    connection: sqlite3.Connection, path: Path, upto: Iterable[Migration] | None = None
) -> None:
    """Apply the migrations the file lacks, all or none, under the write lock.

    `upto` replaces this version's migrations where a test makes an older file.
    Raises StoreError for a file of a newer casewright.
    """
    wanted = tuple(upto) if upto is not None else migrations()
    connection.execute("BEGIN IMMEDIATE")
    try:
        connection.execute(
            "CREATE TABLE IF NOT EXISTS layout (number INTEGER PRIMARY KEY, name TEXT NOT NULL)"
        )
        there = check_layout(connection, path, wanted)
        for step in wanted:
            if step.number not in there:
                for statement in _statements(step.sql):
                    connection.execute(statement)
                connection.execute("INSERT INTO layout VALUES (?, ?)", (step.number, step.name))
    except BaseException:
        connection.execute("ROLLBACK")
        raise
    connection.execute("COMMIT")


def check_layout(
    connection: sqlite3.Connection, path: Path, wanted: tuple[Migration, ...] | None = None
) -> set[int]:
    """The numbers of the migrations a file has had. StoreError for a file of a newer casewright."""
    wanted = migrations() if wanted is None else wanted
    there = {row[0] for row in connection.execute("SELECT number FROM layout")}
    if newer := there - {step.number for step in wanted}:
        raise StoreError(
            f"{path} was written by a newer version of casewright (file layout {max(newer)}; this "
            f"version reads up to {wanted[-1].number}); update casewright or open another file."
        )
    return there


def _statements(sql: str) -> Iterator[str]:
    """The statements one by one: running a whole script at once would end the transaction."""
    waiting = ""
    for line in sql.splitlines(keepends=True):
        waiting += line
        if sqlite3.complete_statement(waiting):
            yield waiting
            waiting = ""
