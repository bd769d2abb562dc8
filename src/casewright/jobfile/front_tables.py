"""The shape of doors and drawers in a job file, and of what they are hung on."""

from __future__ import annotations

from fractions import Fraction

from pydantic import Field

from ..casework.front_choices import FrontKind, Hung
from .read.entries import Width, WidthShare
from .table import Key, Table


class FrontTable(Table):
    """A door, a pair of doors, a drawer or a fixed front before a bay."""

    kind: FrontKind = Field(description="What it is.")
    height: Width = Field(
        default=WidthShare(Fraction(1)),
        description="Height of the door or drawer front; if left out, an equal share of what is left.",
    )
    hung: Hung | None = Field(default=None, description="The side a single door is hung on, from the front.")


class FittedTable(Table):
    """The hinges and drawer slides of a case, each by its key under `[hinges.KEY]` or `[slides.KEY]`."""

    hinge: Key | None = Field(default=None, description="The hinges of its doors.")
    divider_hinge: Key | None = Field(
        default=None, description="The hinges of doors that hang on a divider; the same if left out."
    )
    slide: Key | None = Field(default=None, description="The slides of its drawers.")
