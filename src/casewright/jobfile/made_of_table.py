"""The shape of what a job is made of: the material of each kind of part."""

from __future__ import annotations

from pydantic import Field

from .table import Key, Table


class MadeOf(Table):
    """The material of each kind of part; `case` is used for any that is not named."""

    case: Key | None = Field(default=None, description="Sides, bottoms, tops, stretchers, dividers.")
    back: Key | None = Field(default=None, description="Backs.")
    shelf: Key | None = Field(default=None, description="Fixed and adjustable shelves.")
    strip: Key | None = Field(default=None, description="Mounting strips.")
    toe: Key | None = Field(default=None, description="Toe kicks and plinths.")
    frame: Key | None = Field(default=None, description="Face frames; boards that are sold by size.")
    front: Key | None = Field(default=None, description="Doors and drawer fronts, or the frames of doors.")
    panel: Key | None = Field(
        default=None, description="The panels of framed doors; the backs' material if left out."
    )
    drawer: Key | None = Field(default=None, description="Sides, fronts and backs of drawer boxes.")
    drawer_bottom: Key | None = Field(
        default=None, description="Bottoms of drawer boxes; the backs' material if left out."
    )
