"""Opening the file safely, and one whole transaction at a time.

Every write takes the file's write lock at its start (BEGIN IMMEDIATE): a deferred transaction
that reads first and writes later fails, or loses another's write, when several benches work at
once. `synchronous=FULL` keeps what was answered "saved" through a power cut.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from pathlib import Path

from ..errors import StoreError
from .migrate import bring_up_to_date, check_layout
from .plain_faults import WAIT_SECONDS, DamagedFile, said_plainly

GREATEST = 2**63 - 1
"""The greatest whole number SQLite holds."""

APPLICATION = 0x43735772
"""What the file's header says of whose it is: "CsWr", set by the fourth migration."""

OUR_TABLES = {"layout", "job", "revision"}
"""What every file of an earlier version holds, which said nothing of whose it is."""


@dataclass(frozen=True)
class StoreFile:
    """The file's path, known to hold the present layout. Make one with `open_file`."""

    path: Path

    @contextmanager
    def reading(self) -> Iterator[sqlite3.Connection]:
        """A connection that sees one unchanging state of the file."""
        with said_plainly(self.path), closing(connect(self.path)) as connection:
            connection.execute("BEGIN")
            yield connection
            connection.execute("ROLLBACK")

    @contextmanager
    def writing(self) -> Iterator[sqlite3.Connection]:
        """A connection that alone may write until the block ends; an exception leaves no trace."""
        with said_plainly(self.path), closing(connect(self.path)) as connection:
            connection.execute("BEGIN IMMEDIATE")
            try:
                yield connection
                connection.execute("COMMIT")
            except BaseException:
                if connection.in_transaction:  # a full disk has ended it already
                    connection.execute("ROLLBACK")
                raise


def open_file(path: Path) -> StoreFile:
    """Open the file, making it when it is not there and bringing an older one up to date.

    Raises StoreError when it cannot be read or written, is damaged, is another program's, or was written by
    a newer casewright. Such a file is left as it is.
    """
    with said_plainly(path):
        path.parent.mkdir(parents=True, exist_ok=True)
        with closing(connect(path)) as connection:
            _check_whose(connection, path)
            _check_whole(connection, path)
            connection.execute("PRAGMA journal_mode = WAL")
            bring_up_to_date(connection, path)
    return StoreFile(path)


def check_file(path: Path, called: Path | None = None) -> None:
    """StoreError unless the path leads to a sound file of ours, which is left exactly as it is.

    The error calls it `called`, where the maker knows it by another name.
    """
    called = called or path
    if not path.is_file():
        raise StoreError(f"there is no file {called}; check its name and folder.")
    with said_plainly(called):
        only_read = sqlite3.connect(f"{path.resolve().as_uri()}?mode=ro", uri=True, timeout=WAIT_SECONDS)
        with closing(only_read) as connection:
            _check_whose(connection, called)
            _check_whole(connection, called)
            check_layout(connection, called)


def connect(path: Path) -> sqlite3.Connection:
    """A connection as every use of the file has it. Close it."""
    connection = sqlite3.connect(path, timeout=WAIT_SECONDS, isolation_level=None)
    connection.execute("PRAGMA synchronous = FULL")
    connection.execute("PRAGMA foreign_keys = ON")
    connection.row_factory = sqlite3.Row
    return connection


def _check_whose(connection: sqlite3.Connection, path: Path) -> None:
    """StoreError for the database of another program."""
    said = connection.execute("PRAGMA application_id").fetchone()[0]
    tables = {row[0] for row in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
    if said == APPLICATION or (said == 0 and (not tables or tables >= OUR_TABLES)):
        return
    raise StoreError(
        f"{path} is the database of another program, not a casewright file; choose another file. "
        "Nothing in it was changed."
    )


def _check_whole(connection: sqlite3.Connection, path: Path) -> None:
    """StoreError for a file that is damaged, as after a failing disk or half a copy."""
    found = connection.execute("PRAGMA quick_check(1)").fetchone()[0]
    if found != "ok":
        raise DamagedFile(path, " ".join(str(found).split()))
