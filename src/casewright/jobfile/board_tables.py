"""The tables of a job file for solid wood that is bought as boards."""

from __future__ import annotations

from fractions import Fraction

from pydantic import Field

from ..shop.lumber import GradeName
from .read.entries import Amount, BoardWidths, NotNegative, Positive, RoughThickness, SheetSize, Stretch
from .table import Name, Table


class BoardDefectTable(Table):
    """A stretch of a board that no part may touch: a knot, a split, a check, sapwood."""

    along: Stretch = Field(description="From where to where along the board, from its left end.")
    across: Stretch | None = Field(
        default=None,
        description="From where to where across it, from its near edge; its whole width if left out.",
    )


class BoardTable(Table):
    """One board at hand."""

    name: Name = Field(description="What is chalked on it; each board has its own.")
    length: Positive = Field(description="Its length, with checked ends.")
    width: BoardWidths = Field(
        description="Its width; for a board that tapers a list of widths, at even distances from its left "
        "end to its right."
    )
    defects: list[BoardDefectTable] = Field(
        default=[], description="What no part may have in it.", max_length=40
    )


class BoardsTable(Table):
    """How a material is bought as rough boards."""

    rough: RoughThickness = Field(description="How thick the rough boards are.")
    grade: GradeName = Field(default=GradeName.FAS, description="The grade they are bought in.")
    price: Amount = Field(default=Fraction(0), description="Price of a board foot, in the job's money.")
    size: SheetSize | None = Field(
        default=None,
        description="Length and width of a usual board of the yard; if left out, that of the grade.",
    )
    end_trim: NotNegative | None = Field(
        default=None, description="What is cut off each end of a board; 1 in if left out."
    )
    over_length: NotNegative | None = Field(
        default=None, description="How much longer a part is cut until it is planed; 1 in if left out."
    )
    over_width: NotNegative | None = Field(
        default=None, description="How much wider a part is ripped until it is planed; 1/4 in if left out."
    )
    first_edge: NotNegative | None = Field(
        default=None, description="What jointing the first edge of a length takes; 1/8 in if left out."
    )
    glue_edge: NotNegative | None = Field(
        default=None,
        description="What jointing takes off each edge of a strip that is glued up; 1/16 in if left out.",
    )
    widest_piece: Positive | None = Field(
        default=None,
        description="The widest part that is made in one piece where a board gives it; 8 in if left out.",
    )
    widest_strip: Positive | None = Field(
        default=None,
        description="The widest strip that a wider part is glued up from; 5 in if left out.",
    )
    longest_length: Positive | None = Field(
        default=None,
        description="The longest length that you joint with parts end to end; if left out, the board's.",
    )
    at_hand: list[BoardTable] = Field(
        default=[], description="The boards there are; they are used before any is bought.", max_length=200
    )
