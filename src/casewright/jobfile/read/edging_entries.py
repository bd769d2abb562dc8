"""The edging of a job file: the strips it knows, and what is covered with which of them."""

from __future__ import annotations

from collections.abc import Iterable

from ...casework.job import Edged, EdgesOf
from ...shop.edging import Edging
from ..edging_tables import EdgedTable, EdgesTable, EdgingTable
from .overlay import given_entries

BARE = "none"
"""What stands for no edging where a kind or a case has less than the job."""


def edging_from(key: str, table: EdgingTable) -> Edging:
    """The edging that a table describes, under the job's own key."""
    return Edging(key, **given_entries(table))


def edged_from(tables: Iterable[EdgedTable]) -> Edged:
    """What is edged in a case; each table goes before those in front of it."""
    chosen = {name: key for table in tables for name, key in given_entries(table).items()}
    return Edged(**{name: None if key == BARE else key for name, key in chosen.items()})


def edges_from(table: EdgesTable) -> EdgesOf:
    """The edges of one part."""
    return EdgesOf(**{name: None if key == BARE else key for name, key in given_entries(table).items()})
