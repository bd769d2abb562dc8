"""Holes as numbers: a single bore, and a row of evenly spaced holes."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ..directions import Way


@dataclass(frozen=True, slots=True)
class Bore:
    """A round hole with a flat bottom, bored from `mouth` in the direction `into`, `depth` deep.

    `mouth` is its centre on the face, from the part's low corner along the axes of its case.
    """

    mouth: tuple[Fraction, Fraction, Fraction]
    into: Way
    radius: Fraction
    depth: Fraction


@dataclass(frozen=True, slots=True)
class HoleRow:
    """Holes in a line, `setback` in from the edge: the first is `first` in from the end, the others `pitch`
    apart. Inches."""

    first: Fraction
    pitch: Fraction
    number: int
    setback: Fraction
    diameter: Fraction
    depth: Fraction

    @property
    def holes(self) -> tuple[Fraction, ...]:
        """The distances of the hole centres from the end."""
        return tuple(self.first + self.pitch * place for place in range(self.number))

    @property
    def length(self) -> Fraction:
        """The distance between the centres of the first and last holes."""
        return self.pitch * (self.number - 1)

    @property
    def last(self) -> Fraction:
        """The distance of the last hole's centre from the end."""
        return self.first + self.length
