"""The shape of what things cost in a job file, besides the sheets, boards, edging, hinges and slides that
have their prices with them."""

from __future__ import annotations

from pydantic import Field

from ..shop.prices import Surfaces
from .read.cost_values import CoveredArea, CutLength, Percent
from .read.entries import Amount
from .table import Key, Name, Table


class GlueTable(Table):
    """A bottle of glue."""

    price: Amount | None = Field(default=None, description="Price of a bottle, in the job's money.")
    covers: CoveredArea | None = Field(
        default=None, description="Area of joints that a bottle covers, spread on one side."
    )


class FinishTable(Table):
    """A can of finish."""

    name: Name | None = Field(default=None, description="What it is called on the lists.")
    price: Amount | None = Field(default=None, description="Price of a can, in the job's money.")
    covers: CoveredArea | None = Field(
        default=None, description="Area that a can covers with one coat, as its label says."
    )
    coats: int | None = Field(
        default=None, description="How many coats; 2 if left out.", ge=1, le=20, strict=True
    )
    surfaces: Surfaces | None = Field(
        default=None, description="Which faces are finished; inside and out if left out."
    )
    per_hour: CoveredArea | None = Field(
        default=None, description="Area that you coat once in an hour, with the rubbing down between coats."
    )
    not_on: list[Key] | None = Field(
        default=None,
        description="Keys of materials that get none: bought finished, or left bare.",
        max_length=100,
    )


class SharpeningTable(Table):
    """What keeps a blade sharp."""

    price: Amount | None = Field(
        default=None, description="Price of one sharpening, or of a new blade, in the job's money."
    )
    lasts: CutLength | None = Field(
        default=None, description='Length of cut from one to the next, such as "1500 ft".'
    )


class CostsTable(Table):
    """What the job costs besides its materials. What has no price is listed so, not taken as free."""

    markup: Percent | None = Field(
        default=None, description="Percentage put on materials and hardware in a quote; none if left out."
    )
    other_hours: Amount | None = Field(
        default=None,
        description="Hours besides those at the bench: drawing, fetching, delivering, hanging.",
    )
    pin: Amount | None = Field(default=None, description="Price of one shelf pin, in the job's money.")
    screw: Amount | None = Field(default=None, description="Price of one screw.")
    dowel: Amount | None = Field(default=None, description="Price of one dowel.")
    glue: GlueTable | None = Field(default=None, description="The glue.")
    finish: FinishTable | None = Field(
        default=None, description="The finish, if you put one on; left out, there is none."
    )
    blade: SharpeningTable | None = Field(default=None, description="The blades of the saws.")
    dado_stack: SharpeningTable | None = Field(default=None, description="The dado stack's cutters.")
