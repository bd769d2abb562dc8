"""The shape of a material in a job file: sheet goods in their sizes, and solid wood."""

from __future__ import annotations

from fractions import Fraction

from pydantic import Field

from ..shop.materials import PanelKind
from ..shop.woods import Sawn
from .board_tables import BoardsTable
from .read.entries import Amount, NotNegative, Positive, SheetSize, WeightPerArea
from .read.stiffness_entry import PanelModulus
from .table import Name, Table, YesNo


class OtherSizeTable(Table):
    """Another size in which the same sheet good can be bought."""

    name: Name = Field(description="What it is called on the lists.")
    size: SheetSize = Field(description="Its size, length along the grain first.")
    price: Amount = Field(default=Fraction(0), description="Price of one, in the job's money.")
    count: int | None = Field(
        default=None,
        description="How many there are; if left out, as many as needed.",
        ge=1,
        le=1000,
        strict=True,
    )


class SheetTable(Table):
    """A sheet good, from the catalogue by its name or with the entries that differ from it; or solid wood."""

    sheet: Name | None = Field(
        default=None, description="Name of a sheet good in the catalogue to start from."
    )
    name: Name | None = Field(default=None, description="What it is called on the lists.")
    nominal: Positive | None = Field(default=None, description="The thickness it is sold as.")
    usual: Positive | None = Field(default=None, description="The actual thickness it usually has.")
    deviation: NotNegative | None = Field(default=None, description="Standard deviation of that thickness.")
    readings: list[Positive] | None = Field(
        default=None,
        description="Caliper readings of your own sheets; they replace the usual thickness.",
        max_length=200,
    )
    size: SheetSize | None = Field(default=None, description="Sheet size, length along the grain first.")
    trim: NotNegative | None = Field(
        default=None, description="Width to cut off each edge before the sheet is used."
    )
    price: Amount | None = Field(default=None, description="Price of one sheet, in the job's money.")
    weight: WeightPerArea | None = Field(default=None, description="Weight per area.")
    others: list[OtherSizeTable] | None = Field(
        default=None, description="Other sizes in which it can be bought.", max_length=20
    )
    grain: YesNo | None = Field(
        default=None, description="Whether the face has a grain that parts must follow."
    )
    boards: BoardsTable | None = Field(
        default=None, description="Solid wood bought as rough boards, by the board foot, in place of sheets."
    )
    wood: Name | None = Field(
        default=None, description="The wood it is, if it is solid: its width then moves with the moisture."
    )
    kind: PanelKind | None = Field(
        default=None, description="What a panel is made of, which says how stiff its shelves are."
    )
    stiffness: PanelModulus | None = Field(
        default=None, description="The maker's figure for its modulus of elasticity along the grain."
    )
    sawn: Sawn | None = Field(
        default=None, description="How solid wood was sawn from the log; flat, which moves most, if left out."
    )
