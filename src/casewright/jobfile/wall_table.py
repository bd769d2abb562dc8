"""The shape of what is known of a wall in a job file."""

from __future__ import annotations

from pydantic import Field

from ..shop.walls import Framing, StudWood
from .read.entries import NotNegative, Positive
from .table import Table


class FramingTable(Table):
    """What carries the wall behind a run; one run of several along it may say it."""

    kind: Framing | None = Field(
        default=None, description="What is behind the wall's face, where the cases are screwed to it."
    )
    first: NotNegative | None = Field(
        default=None, description="The center of the first stud, from the left end of the wall."
    )
    every: Positive | None = Field(default=None, description="Stud spacing, center to center.")
    studs: list[NotNegative] | None = Field(
        default=None,
        description="The center of each stud from the left end of the wall, where they do not stand evenly.",
        max_length=200,
    )
    stud_width: Positive | None = Field(
        default=None, description="Width of the studs at the wall's face; 1 1/2 in if left out."
    )
    wood: StudWood | None = Field(
        default=None, description="The wood of the studs; the lightest of these if left out."
    )
    lining: NotNegative | None = Field(
        default=None, description="Thickness of the wallboard over the studs; 1/2 in if left out."
    )
