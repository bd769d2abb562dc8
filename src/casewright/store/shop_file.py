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
from .migrate import bring_up_to_date

WAIT_SECONDS = 30.0

GREATEST = 2**63 - 1
"""The greatest whole number SQLite holds."""


@dataclass(frozen=True)
class StoreFile:
    """The file's path, known to hold the present layout. Make one with `open_file`."""

    path: Path

    @contextmanager
    def reading(self) -> Iterator[sqlite3.Connection]:
        """A connection that sees one unchanging state of the file."""
        with _said_plainly(self.path), closing(_connect(self.path)) as connection:
            connection.execute("BEGIN")
            yield connection
            connection.execute("ROLLBACK")

    @contextmanager
    def writing(self) -> Iterator[sqlite3.Connection]:
        """A connection that alone may write until the block ends; an exception leaves no trace."""
        with _said_plainly(self.path), closing(_connect(self.path)) as connection:
            connection.execute("BEGIN IMMEDIATE")
            try:
                yield connection
            except BaseException:
                connection.execute("ROLLBACK")
                raise
            connection.execute("COMMIT")


def open_file(path: Path) -> StoreFile:
    """Open the file, making it when it is not there and bringing an older one up to date.

    Raises StoreError when it cannot be read or written, is not one of ours, or was written by
    a newer casewright.
    """
    with _said_plainly(path):
        path.parent.mkdir(parents=True, exist_ok=True)
        with closing(_connect(path)) as connection:
            connection.execute("PRAGMA journal_mode = WAL")
            bring_up_to_date(connection, path)
    return StoreFile(path)


def _connect(path: Path) -> sqlite3.Connection:
    connection = sqlite3.connect(path, timeout=WAIT_SECONDS, isolation_level=None)
    connection.execute("PRAGMA synchronous = FULL")
    connection.execute("PRAGMA foreign_keys = ON")
    connection.row_factory = sqlite3.Row
    return connection


@contextmanager
def _said_plainly(path: Path) -> Iterator[None]:
    """Turn errors of SQLite and the system into one sentence with the fix."""
    try:
        yield
    except sqlite3.OperationalError as fault:
        if "locked" in str(fault) or "busy" in str(fault):
            raise StoreError(
                f"{path} has been locked by another program for {WAIT_SECONDS:.0f} s; "
                "close that program and save again. Nothing was changed."
            ) from fault
        raise StoreError(
            f"{path} cannot be used ({fault}); check that the folder exists, is writable and has free space, "
            "then save again. The last saved revision is unchanged."
        ) from fault
    except sqlite3.DatabaseError as fault:
        if "never" in str(fault):
            raise StoreError(f"{path}: {fault}; add a new one instead.") from fault
        raise StoreError(
            f"{path} is damaged or is not a casewright file ({fault}); keep it as it is, and open "
            "another file or a copy from a backup."
        ) from fault
    except OSError as fault:
        raise StoreError(
            f"{path} cannot be created ({fault.strerror}); choose another place for it."
        ) from fault
