"""What SQLite and the system say of a file, as one sentence with the fix."""

from __future__ import annotations

import errno
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from ..errors import StoreError

WAIT_SECONDS = 30.0

UNCHANGED = "Nothing was changed."


class DamagedFile(StoreError):
    """SQLite finds the file in disorder, or finds no database in it."""

    def __init__(self, path: Path, how: str) -> None:
        self.path = path
        self.how = how
        super().__init__(
            f"{path} is damaged or is not a casewright file ({how}); keep it as it is, and put a backup in "
            f"its place: casewright restore BACKUP {path}"
        )


@contextmanager
def said_plainly(path: Path) -> Iterator[None]:
    """Turn errors of SQLite and the system about this file into StoreError."""
    try:
        yield
    except sqlite3.DatabaseError as fault:
        raise _said(path, fault) from fault
    except OSError as fault:
        if fault.errno == errno.ENOSPC:
            raise StoreError(_full(path)) from fault
        raise StoreError(
            f"{path} cannot be created or read ({fault.strerror}); choose another place for it."
        ) from fault


def _said(path: Path, fault: sqlite3.DatabaseError) -> StoreError:
    # The low byte is the kind of fault, the others tell kinds of it apart (SQLite's "Result Codes").
    code = getattr(fault, "sqlite_errorcode", 0) & 0xFF
    if code in (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB):
        return DamagedFile(path, str(fault))
    return StoreError(_sentence(path, fault, code))


def _sentence(path: Path, fault: sqlite3.DatabaseError, code: int) -> str:
    match code:
        case sqlite3.SQLITE_BUSY | sqlite3.SQLITE_LOCKED:
            return (
                f"{path} has been locked by another program for {WAIT_SECONDS:.0f} s; "
                f"close that program and save again. {UNCHANGED}"
            )
        case sqlite3.SQLITE_FULL:
            return _full(path)
        case sqlite3.SQLITE_READONLY | sqlite3.SQLITE_PERM | sqlite3.SQLITE_AUTH:
            return (
                f"{path} can be read but not written; allow writing to the file and its folder, or work on a "
                f"copy of it elsewhere. {UNCHANGED}"
            )
        case sqlite3.SQLITE_IOERR:
            return (
                f"the disk failed to read or write {path}; look after the disk, and copy the file to another "
                "one. The last saved revision is unchanged."
            )
        case sqlite3.SQLITE_CONSTRAINT if "never" in str(fault):
            return f"{path}: {fault}; add a new one instead."
    if path.is_dir():
        return f"{path} is a folder; name a file in it, as in {path / 'shop.casewright'}."
    return (
        f"{path} cannot be used ({fault}); check that the folder exists and is writable, then try again. "
        f"{UNCHANGED}"
    )


def _full(path: Path) -> str:
    return f"the disk that holds {path} is full; make room on it, then save again. {UNCHANGED}"
