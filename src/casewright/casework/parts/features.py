"""What is cut into a part: channels, notches, and rows of holes.

A place is always said as a person finds it on the bench: so far in from a named edge. The
mirrored part of a pair carries the same words; only the face they are cut into differs.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from typing import Protocol

from ...sizes.affine import NOTHING, Affine
from ...sizes.ledger import Sizes
from ..directions import Axis, Box, Span, Way, box
from .holes import HoleRow


class Sized(Protocol):
    """A part as a feature sees it."""

    def size(self, axis: Axis) -> Affine: ...


class ChannelKind(Enum):
    DADO = "dado"  # across the grain
    GROOVE = "groove"  # with the grain
    RABBET = "rabbet"  # along an edge, open to it


GROOVE_FOR_BACK = "groove-back"
RABBET_FOR_BACK = "rabbet-back"
BACK_CHANNELS = (GROOVE_FOR_BACK, RABBET_FOR_BACK)


def measured_from(edge: Way, size: Affine, near: Affine, far: Affine) -> Span:
    """The span between two distances in from `edge`, as seen from the part's low corner."""
    if edge.sign < 0:
        return Span(near, far)
    return Span(size - far, size - near)


def place_from(edge: Way, size: Affine, distance: Affine | Fraction) -> Affine:
    """The place `distance` in from `edge`, from the part's low corner."""
    return NOTHING + distance if edge.sign < 0 else size - distance


@dataclass(frozen=True, slots=True)
class Channel:
    """A dado, groove or rabbet: `width` wide and `depth` deep into `face`, through from edge to edge.

    `edge` is the reference edge: the near wall lies `at` in from it (nothing, for a rabbet).
    """

    name: str
    kind: ChannelKind
    face: Way
    edge: Way
    at: Affine
    width: Affine
    depth: Affine

    @property
    def takes_back(self) -> bool:
        """Whether the back of the case goes into it."""
        return self.name in BACK_CHANNELS

    @property
    def runs(self) -> Axis:
        """The axis it runs along."""
        return next(axis for axis in Axis if axis not in (self.face.axis, self.edge.axis))

    def cut(self, part: Sized) -> Box:
        """What the cutter takes away, from the part's low corner."""
        return box(
            {
                self.runs: Span(NOTHING, part.size(self.runs)),
                self.edge.axis: measured_from(
                    self.edge, part.size(self.edge.axis), self.at, self.at + self.width
                ),
                self.face.axis: measured_from(self.face, part.size(self.face.axis), NOTHING, self.depth),
            }
        )

    def floor(self, part: Sized) -> Affine:
        """Where the channel's floor lies along the face's axis."""
        span = self.cut(part).along(self.face.axis)
        return span.low if self.face.sign > 0 else span.high


@dataclass(frozen=True, slots=True)
class Notch:
    """A corner cut out through the whole thickness, so far in from each of two edges."""

    name: str
    first_edge: Way
    first: Affine
    second_edge: Way
    second: Affine

    def cut(self, part: Sized) -> Box:
        """What the saw takes away, from the part's low corner."""
        through = next(axis for axis in Axis if axis not in (self.first_edge.axis, self.second_edge.axis))
        return box(
            {
                through: Span(NOTHING, part.size(through)),
                self.first_edge.axis: measured_from(
                    self.first_edge, part.size(self.first_edge.axis), NOTHING, self.first
                ),
                self.second_edge.axis: measured_from(
                    self.second_edge, part.size(self.second_edge.axis), NOTHING, self.second
                ),
            }
        )


@dataclass(frozen=True, slots=True)
class PinRow:
    """A row of shelf-pin holes: `number` holes `pitch` apart, bored `depth` deep into `face`.

    The row lies `setback` in from `edge`; its first hole's centre lies `first` in from `end`.
    `number` is a count from the ledger. `serves` says whose shelves stand on it: which bay, and which
    clear height of that bay from the bottom, both from 1.
    """

    name: str
    face: Way
    edge: Way
    setback: Affine
    end: Way
    first: Affine
    pitch: Affine
    number: Affine
    diameter: Affine
    depth: Affine
    serves: tuple[int, int] = (1, 1)

    def at(self, sizes: Sizes) -> HoleRow:
        """The row in numbers, at the ledger's values."""
        of = sizes.of
        number = int(of(self.number))
        return HoleRow(
            of(self.first), of(self.pitch), number, of(self.setback), of(self.diameter), of(self.depth)
        )

    def centres(self, part: Sized, sizes: Sizes) -> tuple[Mapping[Axis, Fraction], ...]:
        """Each hole's centre on its face, from the part's low corner, the one nearest the end first."""
        row = self.at(sizes)
        return tuple(
            {
                self.edge.axis: sizes.of(place_from(self.edge, part.size(self.edge.axis), row.setback)),
                self.end.axis: sizes.of(place_from(self.end, part.size(self.end.axis), hole)),
            }
            for hole in row.holes
        )


Feature = Channel | Notch | PinRow
