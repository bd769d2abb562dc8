"""A board problem: the parts to mill, the boards there are and can be bought, and how this shop mills."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from math import ceil

from ..shop.rough_boards import Milling, RoughBoard


@dataclass(frozen=True)
class BoardPart:
    """A part in its finished size. Parts with the same `together` should come from one board, so that grain
    and colour match; it is a wish, and money comes first. A strip of a part that is glued up is as wide as
    it is glued, and names that part as its `panel`."""

    name: str
    length: Fraction
    width: Fraction
    together: str = ""
    panel: str = ""

    @property
    def of_part(self) -> str:
        """The part that this is, or is a strip of."""
        return self.panel or self.name


@dataclass(frozen=True)
class BoardProblem:
    """`at_hand` are boards there are, free to use; `bought` is the board that any further one is taken to be,
    None where nothing is bought. `kerf` is what each saw cut takes. Rough
    lengths and widths are rounded up to `rough_mark`, where it is not zero: nobody cuts them by a finer
    one. No length is cut that is shorter than `shortest`: jointer and planer cannot hold it.
    """

    parts: tuple[BoardPart, ...]
    at_hand: tuple[RoughBoard, ...]
    bought: RoughBoard | None
    kerf: Fraction
    milling: Milling = field(default_factory=Milling)
    rough_mark: Fraction = Fraction(0)
    shortest: Fraction = Fraction(0)

    @property
    def boards(self) -> tuple[RoughBoard, ...]:
        """Every kind of board a part may come from."""
        return (*self.at_hand, *((self.bought,) if self.bought is not None else ()))

    def rough_length(self, part: BoardPart) -> Fraction:
        return self.up_to_mark(part.length + self.milling.over_length)

    def rough_width(self, part: BoardPart) -> Fraction:
        milling = self.milling
        return self.up_to_mark(part.width + (2 * milling.glue_edge if part.panel else milling.over_width))

    def up_to_mark(self, length: Fraction) -> Fraction:
        """The next mark up that a rough board is cut by."""
        return ceil(length / self.rough_mark) * self.rough_mark if self.rough_mark else length
