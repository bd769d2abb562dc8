"""Edging: the strip that covers the raw edge of a panel, as it is bought and put on."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from .woods import Wood


class PutOn(Enum):
    """When edging goes on the edges that are glued into a case. A loose shelf is edged once it is cut."""

    BEFORE_JOINTS = "before joints"  # on each part, before its channels and holes
    AFTER_GLUE_UP = "after glue-up"  # over the bare front of the case


@dataclass(frozen=True)
class Edging:
    """One kind of edging, bought in sticks or rolls `stick` inches long at `price` each.

    `thickness` is what it adds in front of the edge, `width` how wide the strip is before it is trimmed
    flush (None: exactly as wide as the panel is thick). `taken_off` tells whether panels are cut narrower by
    its thickness, so that the finished part keeps its size; nobody takes off a thin veneer. Of solid `wood`
    it stiffens a shelf, the more the further it hangs below the panel (its `drop`).
    """

    key: str
    name: str
    thickness: Fraction
    stick: Fraction
    width: Fraction | None = None
    price: Fraction = Fraction(0)
    taken_off: bool = True
    put_on: PutOn = PutOn.BEFORE_JOINTS
    wood: Wood | None = None
    drop: Fraction = Fraction(0)

    def height(self, panel: Fraction) -> Fraction:
        """How high the finished strip is on a panel of that thickness."""
        return panel + self.drop

    def proud(self, panel: Fraction) -> Fraction:
        """How much the strip stands past where each of its edges is trimmed, on a panel of that thickness."""
        return Fraction(0) if self.width is None else (self.width - self.height(panel)) / 2
