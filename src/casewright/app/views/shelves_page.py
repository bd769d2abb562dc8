"""The list of shelves as the ways in show it."""

from __future__ import annotations

from ...bearing.shelf_sheet import ShelfSheet, ShelfTold
from ..jobs.worked_job import WorkedJob

__all__ = ["ShelfSheet", "ShelfTold", "shelves_of"]


def shelves_of(worked: WorkedJob) -> ShelfSheet:
    """What there is to say of what the job's shelves bear."""
    return worked.borne.shelf_sheet
