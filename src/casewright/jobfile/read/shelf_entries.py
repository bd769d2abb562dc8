"""What a case's shelves are to bear, as a job file has it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from ...shop.shelf_use import ShelfUse
from ..loads_table import LoadsTable
from .overlay import given_entries


def shelves_from(tables: Iterable[LoadsTable]) -> ShelfUse:
    """What the shelves of a case are for; each table goes before those in front of it. A table that says what
    they hold also goes before a load of one in front."""
    said: dict[str, Any] = {}
    for table in tables:
        given = given_entries(table)
        if "holds" in given:
            said.pop("load", None)
        said |= given
    return ShelfUse(**said)
