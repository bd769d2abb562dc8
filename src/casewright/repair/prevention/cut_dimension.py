"""The dimension of a part that is about to be cut."""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ...casework.parts.part import Part
    from ...sizes.affine import Affine


class CutDimension(Enum):
    """The dimension of a part that a fence or stop is set for."""

    LENGTH = "length"
    WIDTH = "width"

    def of(self, part: Part) -> Affine:
        """This size of a part."""
        return part.length if self is CutDimension.LENGTH else part.width
