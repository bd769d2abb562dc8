"""A row of shelf-pin holes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from .hole_line import HoleLine


@dataclass(frozen=True, slots=True)
class PinRow(HoleLine):
    """A row of shelf-pin holes. `serves` is the bay and the clear height in it (from the bottom) whose
    shelves rest on the row, both counted from 1."""

    called_so: ClassVar[str] = "pin hole"
    code: ClassVar[str] = "pins"

    serves: tuple[int, int] = (1, 1)
