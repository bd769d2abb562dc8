"""What shelves are to bear, as a job file has it: for the job, a kind of case, a case or one shelf."""

from __future__ import annotations

from collections.abc import Iterable

from ...shop.shelf_use import USUAL_USE, OwnUse, ShelfUse
from ..loads_table import LoadsTable


def shelves_from(tables: Iterable[LoadsTable]) -> ShelfUse:
    """What the shelves of a case are for; each table goes before those in front of it."""
    use = USUAL_USE
    for table in tables:
        use = own_use(table).over(use)
    return use


def own_use(table: LoadsTable) -> OwnUse:
    """What one table says."""
    return OwnUse(table.holds, table.load, table.sag)
