"""Holes in numbers: one as it is bored, and a row by how many, how far apart, and where each lies."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ..directions import Way


@dataclass(frozen=True, slots=True)
class Bore:
    """A round hole with a flat bottom: from `mouth` the way `into` says, `depth` deep.

    `mouth` is its centre on the face, from the part's low corner along the axes of its case.
    """

    mouth: tuple[Fraction, Fraction, Fraction]
    into: Way
    radius: Fraction
    depth: Fraction


@dataclass(frozen=True, slots=True)
class HoleRow:
    """Holes in a line: the first `first` in from the end, then `pitch` apart; `setback` in from the
    edge. Inches."""

    first: Fraction
    pitch: Fraction
    number: int
    setback: Fraction
    diameter: Fraction
    depth: Fraction

    @property
    def holes(self) -> tuple[Fraction, ...]:
        """Where the holes' centres lie, from the end."""
        return tuple(self.first + self.pitch * place for place in range(self.number))

    @property
    def length(self) -> Fraction:
        """From the first hole's centre to the last one's."""
        return self.pitch * (self.number - 1)

    @property
    def last(self) -> Fraction:
        """Where the last hole's centre lies, from the end."""
        return self.first + self.length
