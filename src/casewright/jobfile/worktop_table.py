"""The shape of a worktop in a job file."""

from __future__ import annotations

from fractions import Fraction

from pydantic import Field

from .read.entries import NotNegative, Positive, PositiveWeightPerArea
from .table import Table


class WorktopTable(Table):
    """The top that lies on the base cases of a run; it is made or bought by itself."""

    thick: Positive = Field(description="Its thickness: by so much it stands above its cases.")
    overhang: NotNegative = Field(
        default=Fraction(0), description="How far its front edge stands out in front of the cases."
    )
    weight: PositiveWeightPerArea | None = Field(
        default=None,
        description="Weight per area; without it nothing counts on the top to hold the cases down.",
    )
