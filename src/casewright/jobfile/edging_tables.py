"""The shape of edging in a job file, and of what is covered with it."""

from __future__ import annotations

from fractions import Fraction

from pydantic import Field

from ..shop.edging import PutOn
from .read.entries import Amount, NotNegative, Positive
from .table import Key, Name, Table, YesNo


class EdgingTable(Table):
    """A strip that covers the raw edges of panels."""

    name: Name = Field(description="What it is called on the lists.")
    thickness: Positive = Field(description="What it adds in front of the edge.")
    stick: Positive = Field(description="How long one stick or roll of it is.")
    width: Positive | None = Field(
        default=None,
        description="How wide the strip is before it is trimmed flush; as the panel is thick if left out.",
    )
    price: Amount = Field(default=Fraction(0), description="Price of one stick or roll, in the job's money.")
    taken_off: YesNo = Field(
        default=True,
        description="Whether panels are cut narrower by its thickness, so that the part keeps its size.",
    )
    put_on: PutOn = Field(
        default=PutOn.BEFORE_JOINTS,
        description="On each part before its joints are cut, or over the front of the case after glue-up.",
    )
    wood: Name | None = Field(
        default=None, description="The wood it is, if it is solid: it then stiffens the shelves it is on."
    )
    drop: NotNegative = Field(
        default=Fraction(0),
        description="How far it hangs below a shelf: the further, the stiffer; flush if left out.",
    )


class EdgedTable(Table):
    """The edging on the front edges of each kind of part; none for bare edges."""

    case: Key | None = Field(
        default=None, description="On sides, bottoms, tops, front stretchers and dividers."
    )
    shelf: Key | None = Field(default=None, description="On fixed and adjustable shelves.")
    front: Key | None = Field(
        default=None, description="On doors and drawer fronts in one piece, on all four edges."
    )


class EdgesTable(Table):
    """The edging of one part, edge by edge; edges that are not named are bare."""

    front: Key | None = Field(default=None, description="On its front edge.")
    back: Key | None = Field(default=None, description="On its rear edge.")
    left: Key | None = Field(default=None, description="On its left edge.")
    right: Key | None = Field(default=None, description="On its right edge.")
    lower: Key | None = Field(default=None, description="On its lower edge.")
    upper: Key | None = Field(default=None, description="On its upper edge.")
