"""The shape of a worktop in a job file."""

from __future__ import annotations

from fractions import Fraction

from pydantic import Field

from .read.entries import NotNegative, Positive, PositiveWeightPerArea
from .table import Table


class WorktopTable(Table):
    """The top that lies on the base cases of a run; it is made or bought by itself."""

    thick: Positive = Field(description="Thickness of the worktop.")
    overhang: NotNegative = Field(
        default=Fraction(0), description="How far its front edge stands out in front of the cases."
    )
    weight: PositiveWeightPerArea | None = Field(
        default=None,
        description="Weight per area; if left out, the top counts for nothing against the cases tipping.",
    )
