"""Holes as numbers: a single bore, and a row of evenly spaced holes."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ..directions import Axis, Way

Corner = tuple[Fraction, Fraction, Fraction]


@dataclass(frozen=True, slots=True)
class Bore:
    """A round hole with a flat bottom, bored from `mouth` in the direction `into`, `depth` deep.

    `mouth` is its centre on the face, from the part's low corner along the axes of its case.
    """

    mouth: tuple[Fraction, Fraction, Fraction]
    into: Way
    radius: Fraction
    depth: Fraction

    @property
    def corners(self) -> tuple[Corner, Corner]:
        """The low and the high corner of the box around it, from the part's low corner."""
        low, high = list(self.mouth), list(self.mouth)
        for axis in Axis:
            along = axis is self.into.axis
            low[axis.value] -= self.radius if not along else self.depth if self.into.sign < 0 else 0
            high[axis.value] += self.radius if not along else self.depth if self.into.sign > 0 else 0
        return (low[0], low[1], low[2]), (high[0], high[1], high[2])


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
