"""The shape of what shelves are to bear in a job file."""

from __future__ import annotations

from pydantic import Field

from ..shop.shelf_use import Holds, SagFigure
from .read.entries import PositiveWeightPerArea
from .table import Table


class LoadsTable(Table):
    """What shelves hold, and how far they may sag."""

    holds: Holds | None = Field(
        default=None, description="What lies on the shelves, full from side to side; anything if left out."
    )
    load: PositiveWeightPerArea | None = Field(
        default=None, description="Your own figure for the load: weight on each square foot or metre."
    )
    sag: SagFigure | None = Field(
        default=None,
        description="Whose limit the shelves' sag is judged by; that of architectural woodwork if left out.",
    )
