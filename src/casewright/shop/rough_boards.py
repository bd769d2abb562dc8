"""Boards of solid wood as they lie in the rack, and what a material that is bought as boards says of them.

A board lies with its length along x from its left end and its jointed edge at the front, y = 0. All in
inches.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import pairwise

from .lumber import LumberGrade, board_feet

ZERO = Fraction(0)

LOTS_DRAWN = 40
"""How many lots of boards are drawn where nothing else is asked. A job with 75 parts of boards takes 6 s."""

NARROWEST_STRIP = Fraction(1)
"""Inches of the narrowest strip that is glued up to a panel. Common practice, no source."""


@dataclass(frozen=True)
class BoardDefect:
    """A stretch of a board that no part may touch: a knot, a split, a check at an end, sapwood.

    It runs from `start` to `end` along the board and from `low` to `high` across, from the near edge.
    """

    start: Fraction
    end: Fraction
    low: Fraction
    high: Fraction


@dataclass(frozen=True)
class RoughBoard:
    """One board. `widths` are measured at even distances from its left end to its right; a single one is its
    width throughout. Between two of them the far edge runs straight."""

    name: str
    length: Fraction
    widths: tuple[Fraction, ...]
    thickness: Fraction
    defects: tuple[BoardDefect, ...] = ()

    @property
    def stations(self) -> tuple[Fraction, ...]:
        """Where along the board its widths were measured."""
        gaps = max(len(self.widths) - 1, 1)
        return tuple(self.length * at / gaps for at in range(len(self.widths)))

    @property
    def widest(self) -> Fraction:
        return max(self.widths)

    @property
    def area(self) -> Fraction:
        """Its face, taper taken into account."""
        if len(self.widths) == 1:
            return self.length * self.widths[0]
        gap = self.length / (len(self.widths) - 1)
        return sum((gap * (one + after) / 2 for one, after in pairwise(self.widths)), ZERO)

    @property
    def feet(self) -> Fraction:
        """Its board feet, exactly, by its mean width."""
        return board_feet(self.length, self.area / self.length, self.thickness)

    def width_at(self, x: Fraction) -> Fraction:
        """How wide it is so far from its left end."""
        if len(self.widths) == 1:
            return self.widths[0]
        gap = self.length / (len(self.widths) - 1)
        at = min(int(x / gap), len(self.widths) - 2)
        low, high = self.widths[at], self.widths[at + 1]
        return low + (high - low) * (x / gap - at)

    def least_width(self, start: Fraction, end: Fraction) -> Fraction:
        """Its least width between two places: at one of them, or where it was measured between them."""
        if len(self.widths) == 1:
            return self.widths[0]
        between = (width for at, width in zip(self.stations, self.widths, strict=True) if start < at < end)
        return min(self.width_at(start), self.width_at(end), *between)


@dataclass(frozen=True)
class Milling:
    """What a part is left larger by on its way from the rough board, and what each cut takes.

    - `end_trim` off each end of a board, where it is checked and dirty;
    - `over_length` and `over_width` on each part, until it is cut to size once planed;
    - `first_edge` off the near edge of every length, to joint it straight;
    - `glue_edge` off each edge of a strip that a wide part is glued up from.

    A part wider than `widest_piece` is glued up, from strips no wider than `widest_strip` as they are glued.
    In a length longer than `longest_length` no parts lie end to end: the board is crosscut between them
    before it is jointed. None where a length may be as long as the board.
    """

    end_trim: Fraction = Fraction(1)
    over_length: Fraction = Fraction(1)
    over_width: Fraction = Fraction(1, 4)
    first_edge: Fraction = Fraction(1, 8)
    glue_edge: Fraction = Fraction(1, 16)
    widest_piece: Fraction = Fraction(8)
    widest_strip: Fraction = Fraction(5)
    longest_length: Fraction | None = None


@dataclass(frozen=True)
class BoughtAsBoards:
    """How a material is bought as boards: their rough thickness, grade and price by the board foot, the size
    of a usual one, those at hand already, and how they are milled."""

    rough: Fraction
    grade: LumberGrade
    foot_price: Fraction
    usual_length: Fraction
    usual_width: Fraction
    at_hand: tuple[RoughBoard, ...] = ()
    milling: Milling = field(default_factory=Milling)

    def price_of(self, feet: Fraction | int) -> Fraction:
        """What so many board feet cost."""
        return self.foot_price * feet

    @property
    def usual_board(self) -> RoughBoard:
        """A clear board of the usual size."""
        return RoughBoard("", self.usual_length, (self.usual_width,), self.rough)


def feet_of(boards: Iterable[RoughBoard]) -> Fraction:
    """The board feet of several boards."""
    return sum((board.feet for board in boards), ZERO)
