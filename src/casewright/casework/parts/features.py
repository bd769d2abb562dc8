"""Features cut into a part: channels, notches and rows of holes, all of them a `Feature`.

Other layers use the attributes of `Feature`, or one function for each kind they treat differently
(`functools.singledispatch`): how it is made, drawn or set up. A new kind of feature is therefore a class
with these attributes, and a function in each layer that treats it specially.

Positions are given as they are laid out on the bench: a distance in from a named edge. Both parts of a
pair have the same description; only the face that is cut differs.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from typing import Protocol

from ...sizes.affine import NOTHING, Affine
from ...sizes.ledger import Sizes
from ..directions import Axis, Box, Span, Way, box, third_axis
from .holes import Bore, HoleRow


class Sized(Protocol):
    """Anything with a size along each axis, as a feature needs of its part."""

    def size(self, axis: Axis) -> Affine: ...


@dataclass(frozen=True, slots=True)
class FeatureSize:
    """A size of a feature as it is laid out; `words` describe it.

    For a distance in from an edge, `edge` is that edge and `label` names what is there.
    """

    form: Affine
    words: str
    edge: Way | None = None
    label: str = ""


class Feature(Protocol):
    """What every feature of a part provides."""

    @property
    def name(self) -> str:
        """Its name on the part: `dado-bottom`."""

    @property
    def kind_words(self) -> str:
        """The kind of feature, in a word or two: `dado`, `pin hole`."""

    @property
    def face(self) -> Way | None:
        """The face it is cut into; None if it goes right through."""

    @property
    def edges(self) -> tuple[Way, ...]:
        """The edges it is measured from, the main one first."""

    @property
    def sizes(self) -> tuple[FeatureSize, ...]:
        """Its sizes, in the order in which they are laid out."""

    @property
    def count(self) -> Affine:
        """How many there are: a count, not a length."""

    def cuts(self, part: Sized) -> tuple[Box, ...]:
        """The boxes that are cut away, from the part's low corner."""

    def bores(self, part: Sized, sizes: Sizes) -> tuple[Bore, ...]:
        """The holes that are bored, from the part's low corner."""


class ChannelKind(Enum):
    DADO = "dado"  # across the grain
    GROOVE = "groove"  # with the grain
    RABBET = "rabbet"  # along an edge, open to it


EDGE_WORDS = {
    Way.UP: "upper",
    Way.DOWN: "lower",
    Way.FRONT: "front",
    Way.BACK: "rear",
    Way.LEFT: "left",
    Way.RIGHT: "right",
}
ONE_OF_IT = Affine(1)
GROOVE_FOR_BACK = "groove-back"
RABBET_FOR_BACK = "rabbet-back"
BACK_CHANNELS = (GROOVE_FOR_BACK, RABBET_FOR_BACK)


def measured_from(edge: Way, size: Affine, near: Affine, far: Affine) -> Span:
    """The span between two distances in from `edge`, measured from the part's low corner."""
    if edge.sign < 0:
        return Span(near, far)
    return Span(size - far, size - near)


def place_from(edge: Way, size: Affine, distance: Affine | Fraction) -> Affine:
    """The position `distance` in from `edge`, measured from the part's low corner."""
    return NOTHING + distance if edge.sign < 0 else size - distance


@dataclass(frozen=True, slots=True)
class Channel:
    """A dado, groove or rabbet: `width` wide and `depth` deep into `face`, through from edge to edge.

    `edge` is the reference edge: the near wall is `at` in from it (zero for a rabbet).
    """

    name: str
    kind: ChannelKind
    face: Way
    edge: Way
    at: Affine
    width: Affine
    depth: Affine

    @property
    def kind_words(self) -> str:
        return self.kind.value

    @property
    def edges(self) -> tuple[Way, ...]:
        return (self.edge,)

    @property
    def sizes(self) -> tuple[FeatureSize, ...]:
        return (
            FeatureSize(self.at, "in from the edge", self.edge, self.kind.value),
            FeatureSize(self.width, "wide"),
            FeatureSize(self.depth, "deep"),
        )

    @property
    def count(self) -> Affine:
        return ONE_OF_IT

    def cuts(self, part: Sized) -> tuple[Box, ...]:
        return (self.cut(part),)

    def bores(self, part: Sized, sizes: Sizes) -> tuple[Bore, ...]:
        return ()

    @property
    def takes_back(self) -> bool:
        """Whether it holds the back of the case."""
        return self.name in BACK_CHANNELS

    @property
    def runs(self) -> Axis:
        """The axis it runs along."""
        return third_axis(self.face.axis, self.edge.axis)

    def cut(self, part: Sized) -> Box:
        """The box that the cutter removes, from the part's low corner."""
        return box(
            {
                self.runs: Span(NOTHING, part.size(self.runs)),
                self.edge.axis: self.walls(part),
                self.face.axis: self._inward(part),
            }
        )

    def walls(self, part: Sized) -> Span:
        """The span from wall to wall, along the axis of its edge."""
        return measured_from(self.edge, part.size(self.edge.axis), self.at, self.at + self.width)

    def floor(self, part: Sized) -> Affine:
        """The position of the channel's floor along the axis of its face."""
        span = self._inward(part)
        return span.low if self.face.sign > 0 else span.high

    def _inward(self, part: Sized) -> Span:
        return measured_from(self.face, part.size(self.face.axis), NOTHING, self.depth)


@dataclass(frozen=True, slots=True)
class Notch:
    """A corner cut out through the whole thickness, by a distance in from each of two edges."""

    name: str
    first_edge: Way
    first: Affine
    second_edge: Way
    second: Affine

    @property
    def kind_words(self) -> str:
        return "notch"

    @property
    def face(self) -> None:
        return None

    @property
    def edges(self) -> tuple[Way, ...]:
        return (self.first_edge, self.second_edge)

    @property
    def sizes(self) -> tuple[FeatureSize, ...]:
        return tuple(
            FeatureSize(form, f"in from the {EDGE_WORDS[edge]} edge", edge, "notch")
            for form, edge in ((self.first, self.first_edge), (self.second, self.second_edge))
        )

    @property
    def count(self) -> Affine:
        return ONE_OF_IT

    def cuts(self, part: Sized) -> tuple[Box, ...]:
        return (self.cut(part),)

    def bores(self, part: Sized, sizes: Sizes) -> tuple[Bore, ...]:
        return ()

    def cut(self, part: Sized) -> Box:
        """The box that the saw removes, from the part's low corner."""
        through = third_axis(self.first_edge.axis, self.second_edge.axis)
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

    The row is `setback` in from `edge`; the centre of its first hole is `first` in from `end`. `number` is a
    count from the ledger. `serves` is the bay and the clear height in it (from the bottom) whose shelves
    rest on the row, both counted from 1.
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

    @property
    def kind_words(self) -> str:
        return "pin hole"

    @property
    def edges(self) -> tuple[Way, ...]:
        return (self.edge, self.end)

    @property
    def sizes(self) -> tuple[FeatureSize, ...]:
        return (
            FeatureSize(self.setback, "in from the edge", self.edge, "pins"),
            FeatureSize(self.first, f"first from the {EDGE_WORDS[self.end]} end", self.end, "first pin"),
            FeatureSize(self.pitch, "apart"),
            FeatureSize(self.diameter, "across"),
            FeatureSize(self.depth, "deep"),
        )

    @property
    def count(self) -> Affine:
        return self.number

    def cuts(self, part: Sized) -> tuple[Box, ...]:
        return ()

    def bores(self, part: Sized, sizes: Sizes) -> tuple[Bore, ...]:
        axis, radius, depth = self.face.axis, sizes.of(self.diameter) / 2, sizes.of(self.depth)
        face = sizes.of(place_from(self.face, part.size(axis), NOTHING))
        mouths = ({axis: face, **centre} for centre in self.centres(part, sizes))
        return tuple(
            Bore((mouth[Axis.X], mouth[Axis.Y], mouth[Axis.Z]), self.face.opposite, radius, depth)
            for mouth in mouths
        )

    def at(self, sizes: Sizes) -> HoleRow:
        """The row as numbers, with the ledger's values."""
        of = sizes.of
        number = int(of(self.number))
        return HoleRow(
            of(self.first), of(self.pitch), number, of(self.setback), of(self.diameter), of(self.depth)
        )

    def centres(self, part: Sized, sizes: Sizes) -> tuple[Mapping[Axis, Fraction], ...]:
        """The centre of each hole on its face, from the part's low corner, starting at the end."""
        row = self.at(sizes)
        return tuple(
            {
                self.edge.axis: sizes.of(place_from(self.edge, part.size(self.edge.axis), row.setback)),
                self.end.axis: sizes.of(place_from(self.end, part.size(self.end.axis), hole)),
            }
            for hole in row.holes
        )
