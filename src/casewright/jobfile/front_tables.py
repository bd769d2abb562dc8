"""The shape of doors and drawers in a job file, and of what they are hung on."""

from __future__ import annotations

from fractions import Fraction

from pydantic import Field, model_validator

from ..casework.front_choices import FrontKind, Hung
from ..lengths.fractions_text import quoted
from ..validation import input_error
from .read.entries import Positive, Width, WidthShare
from .table import Key, Table


class FrontTable(Table):
    """A door, a pair of doors, a drawer or a fixed front before a bay."""

    kind: FrontKind = Field(description="What it is.")
    height: Width = Field(
        default=WidthShare(Fraction(1)),
        description="Height of the door or drawer front; if left out, an equal share of what is left.",
    )
    hung: Hung | None = Field(default=None, description="The side a single door is hung on, from the front.")
    box_height: Positive | None = Field(
        default=None,
        description="Height of the box behind a drawer front; if left out, as high as its slides allow.",
    )

    @model_validator(mode="after")
    def _has_a_box(self) -> FrontTable:
        if self.box_height is not None and self.kind is not FrontKind.DRAWER:
            text = f"box_height is the height of a drawer box, and this front is {quoted(self.kind.value)}."
            raise input_error("box-of-no-drawer", text, 'Leave it out, or make the front kind = "drawer".')
        return self


class FittedTable(Table):
    """The hinges and drawer slides of a case, each by its key under `[hinges.KEY]` or `[slides.KEY]`."""

    hinge: Key | None = Field(default=None, description="The hinges of its doors.")
    divider_hinge: Key | None = Field(
        default=None, description="The hinges of doors that hang on a divider; the same if left out."
    )
    slide: Key | None = Field(default=None, description="The slides of its drawers.")
