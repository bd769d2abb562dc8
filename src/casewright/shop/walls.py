"""The walls that cases are screwed to: what stands behind their face, and where it can be reached."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction


class Framing(Enum):
    """What carries a wall."""

    WOOD_STUDS = "wood studs"
    METAL_STUDS = "metal studs"
    MASONRY = "masonry"


class StudWood(Enum):
    """The wood of studs, by the groups that lumber is stamped with."""

    SPRUCE_PINE_FIR = "spruce-pine-fir"
    HEM_FIR = "hem-fir"
    DOUGLAS_FIR = "Douglas fir-larch"
    SOUTHERN_PINE = "southern pine"


USUAL_STUD = Fraction(3, 2)
"""Inches that a stud is wide at the face of a wall: a 2 by 4 as it is sold, by the American Softwood Lumber
Standard, PS 20."""

USUAL_LINING = Fraction(1, 2)
"""Inches of board over the studs. Common practice, no source."""


@dataclass(frozen=True)
class KnownWall:
    """What is known of a wall. `kind` is None where nobody has looked; lengths in inches.

    `studs` are the middles of its studs from its left end, one by one; or the `first` is there and the rest
    stand `every` so far. `lining` is what is over them, which a screw must pass. `wood` is None where it
    was not looked at: the lightest of the groups is then taken.
    """

    kind: Framing | None = None
    studs: tuple[Fraction, ...] = ()
    first: Fraction | None = None
    every: Fraction | None = None
    stud_width: Fraction = USUAL_STUD
    wood: StudWood | None = None
    lining: Fraction = USUAL_LINING

    @property
    def studs_known(self) -> bool:
        """Whether it is known where its studs are."""
        return bool(self.studs) or (self.first is not None and self.every is not None)

    def studs_between(self, left: Fraction, right: Fraction) -> tuple[Fraction, ...]:
        """The middles of the studs from `left` to `right`, inches from the wall's left end, both included."""
        return tuple(at for at in self._middles(right) if left <= at <= right)

    def _middles(self, up_to: Fraction) -> Iterator[Fraction]:
        if self.studs:
            yield from sorted(self.studs)
        elif self.first is not None and self.every is not None:
            at = self.first
            while at <= up_to:
                yield at
                at += self.every


UNKNOWN_WALL = KnownWall()
