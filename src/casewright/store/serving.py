"""Which processes serve a shop's file now, so that nobody puts another in its place under their hands.

Each holds a lock on an empty file of its own beside the shop's file, named by the process. The lock is
SQLite's, which every system has; it ends with the process, however that ends.
"""

from __future__ import annotations

import os
import re
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from pathlib import Path

from .plain_faults import said_plainly


@contextmanager
def serving(path: Path) -> Iterator[None]:
    """Mark the file as served by this process until the block ends."""
    mark = path.with_name(f"{path.name}-served-by-{os.getpid()}")
    with said_plainly(path):
        connection = _connect(mark)
        connection.execute("BEGIN EXCLUSIVE")
    try:
        yield
    finally:
        connection.close()
        with suppress(OSError):
            mark.unlink()


def served_by(path: Path) -> tuple[int, ...]:
    """The numbers of the processes that serve the file now. Marks of those that were killed are removed."""
    found = []
    with said_plainly(path):
        beside = list(path.parent.iterdir())
    for mark in beside:
        number = re.fullmatch(rf"{re.escape(path.name)}-served-by-(\d+)", mark.name)
        if number and _is_held(mark):
            found.append(int(number[1]))
    return tuple(sorted(found))


def _is_held(mark: Path) -> bool:
    with closing(_connect(mark)) as connection:
        try:
            connection.execute("BEGIN EXCLUSIVE")
        except sqlite3.OperationalError:
            return True
        connection.execute("ROLLBACK")
    with suppress(OSError):
        mark.unlink()
    return False


def _connect(mark: Path) -> sqlite3.Connection:
    return sqlite3.connect(mark, timeout=0, isolation_level=None)
