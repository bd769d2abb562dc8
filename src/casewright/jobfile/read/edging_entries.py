"""The edging of a job file: the strips it knows, and what is covered with which of them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from ...casework.job import Edged, EdgesOf
from ...shop.edging import Edging
from ...shop.woods import wood_called
from ..edging_tables import EdgedTable, EdgesTable, EdgingTable
from .fault import Fault
from .overlay import given_entries
from .wood_entries import unknown_wood

BARE = "none"
"""What stands for no edging where a kind or a case has less than the job."""


def edging_from(key: str, table: EdgingTable) -> Edging:
    """The edging that a table describes, under the job's own key."""
    wood = None if table.wood is None else wood_called(table.wood)
    return Edging(key, **{**given_entries(table), "wood": wood})


def edging_faults(key: str, table: EdgingTable) -> Iterator[Fault]:
    """A fault where an edging names a wood that is none."""
    if table.wood is not None:
        yield from unknown_wood(table.wood, ("edging", key))


def edged_from(tables: Iterable[EdgedTable]) -> Edged:
    """What is edged in a case; each table goes before those in front of it."""
    chosen = {name: key for table in tables for name, key in given_entries(table).items()}
    return Edged(**{name: None if key == BARE else key for name, key in chosen.items()})


def edges_from(table: EdgesTable) -> EdgesOf:
    """The edges of one part."""
    return EdgesOf(**{name: None if key == BARE else key for name, key in given_entries(table).items()})
