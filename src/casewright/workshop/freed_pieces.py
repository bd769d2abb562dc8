"""What the cuts of a sheet leave: pieces for the table saw with their letters, parts at size, offcuts.

A maker chalks the sheet's number and a letter on each piece that the hand-held saw leaves for the table saw
(3A is the first of sheet 3), so that it waits in a stack and its map is found again. The number is the
sheet's own, so a sheet laid out as before keeps its letters whatever becomes of the others.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
"""Without I and O, which read as 1 and 0 beside a number. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class StackedPiece:
    """A piece that goes to the table saw, as its first cut there finds it; inches on its sheet.

    `letter` is empty for a sheet that goes there whole. `freed_by` is the key of the cut by hand that leaves
    it, empty for such a sheet, and `side` the side of that cut on which it lies. `trips` counts how often its
    wood has been at the table saw before: what comes back from there to the trestles is lettered anew.
    """

    material: str
    number: int
    x: Fraction
    y: Fraction
    length: Fraction
    width: Fraction
    freed_by: str
    side: str
    trips: int
    letter: str = ""

    @property
    def chalk(self) -> str:
        """What is chalked on it."""
        return f"{self.number}{self.letter}"

    @property
    def name(self) -> str:
        """What steps call it: the material's key, and what is chalked on it."""
        return f"{self.material} {self.chalk}"


class Freed(Enum):
    """What a piece is that needs no more cuts where it was freed."""

    CARRIED = "carried"
    PART = "part"
    OFFCUT = "offcut"


@dataclass(frozen=True, slots=True)
class FreedPiece:
    """A piece that a cut leaves for good: a carried one as chalked, a part by its mark, an offcut to keep.

    `side` is the side of the cut on which it lies, as the sheet is drawn; sizes in inches.
    """

    what: Freed
    name: str
    side: str
    length: Fraction
    width: Fraction


def letter_of(count: int) -> str:
    """The letter of the piece so many places after the first: A to Z, then AA, AB and so on."""
    letter = ""
    count += 1
    while count:
        count, last = divmod(count - 1, len(LETTERS))
        letter = LETTERS[last] + letter
    return letter
