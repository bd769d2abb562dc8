"""What a feature of a part says of itself, and how its places are measured.

Every layer reads `Feature` and asks no feature of what kind it is. A new kind is one file: a class with these
attributes, which takes from `FeatureDefaults` what it has no more to say of. How it is made follows from
what it is made of: a channel that the saw cuts, a corner that is sawn out, rows of holes that are bored, or a
joint of a frame that is laid out by itself.

Positions are given as they are laid out on the bench: a distance in from a named edge. Both parts of a
pair have the same description; only the face that is cut differs.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Protocol

from ....findings import Finding
from ....sizes.affine import NOTHING, Affine
from ....sizes.ledger import Sizes
from ...directions import Axis, Box, Span, Way
from ..holes import Bore, HoleRow

if TYPE_CHECKING:
    from ..part import Part
    from .channel import Channel
    from .notch import Notch

EDGE_WORDS = {
    Way.UP: "upper",
    Way.DOWN: "lower",
    Way.FRONT: "front",
    Way.BACK: "rear",
    Way.LEFT: "left",
    Way.RIGHT: "right",
}
ONE_OF_IT = Affine(1)

Writer = Callable[[Fraction], str]
"""Writes a length as the job prints it."""


class Sized(Protocol):
    """Anything with a size along each axis, as a feature needs of its part."""

    def size(self, axis: Axis) -> Affine: ...


@dataclass(frozen=True, slots=True)
class FeatureSize:
    """A size of a feature as it is laid out; `words` describe it.

    For a distance in from an edge, `edge` is that edge and `label` names what is there; where it is
    `by_stock`, a gauge is set for it with the wood that is joined there, not by the rule.
    """

    form: Affine
    words: str
    edge: Way | None = None
    label: str = ""
    by_stock: bool = False


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

    @property
    def channel(self) -> Channel | None:
        """The channel that it is, for what the table saw cuts in passes; None for all else."""

    @property
    def corner(self) -> Notch | None:
        """The corner that it takes away, for what is sawn out by hand; None for all else."""

    @property
    def bench_joint(self) -> bool:
        """Whether it is a joint that is laid out by itself, or cut with a jig: of a face frame, or the
        dovetails of a drawer."""

    @property
    def stands_out(self) -> bool:
        """Whether it is what is left standing at an end where the wood beside it is cut away: a tenon, tails
        or pins."""

    @property
    def takes_back(self) -> bool:
        """Whether it holds the back of the case."""

    @property
    def serves(self) -> tuple[int, int] | None:
        """The bay and the clear height in it (from the bottom) whose shelves rest on it; None if none do."""

    @property
    def set_by_screws(self) -> Fraction:
        """How far out of its place it may be, in inches, because what it holds is set by screws; zero for
        most."""

    @property
    def covered_within(self) -> Fraction:
        """How far out of its place its holes are covered all the same by what is screwed there, in inches;
        zero for most."""

    def rows(self, sizes: Sizes) -> tuple[HoleRow, ...]:
        """Its holes as they are bored, set back from the first of its edges and laid out from the second."""

    def cuts(self, part: Sized) -> tuple[Box, ...]:
        """The boxes that are cut away, from the part's low corner."""

    def drawn(self, part: Sized) -> tuple[Box, ...]:
        """The boxes that a drawing shows of it: what is cut away, where it is not left to the bench."""

    def bores(self, part: Sized, sizes: Sizes) -> tuple[Bore, ...]:
        """The holes that are bored, from the part's low corner."""

    def faults(self, part: Part, sizes: Sizes, write: Writer) -> Iterator[Finding]:
        """Why it cannot be made in this part."""

    def called(self, sizes: Sizes, tag: str) -> str:
        """What stands at it on a drawing whose sizes stand beside: its kind and letter, or how many holes."""

    def callout(self, sizes: Sizes, write: Writer, stock: Writer, tag: str) -> str:
        """Its sizes in words for a drawing, after its letter in the packet; empty where none are needed.

        `stock` writes what must take a sheet's thickness: the rule that `write` prints by is too coarse.
        """


class FeatureDefaults:
    """What a feature says where there is nothing to say. Its holes follow from its rows."""

    __slots__ = ()

    @property
    def channel(self) -> Channel | None:
        return None

    @property
    def corner(self) -> Notch | None:
        return None

    @property
    def count(self) -> Affine:
        return ONE_OF_IT

    @property
    def bench_joint(self) -> bool:
        return False

    @property
    def stands_out(self) -> bool:
        return False

    @property
    def takes_back(self) -> bool:
        return False

    @property
    def serves(self) -> tuple[int, int] | None:
        return None

    @property
    def set_by_screws(self) -> Fraction:
        return Fraction(0)

    @property
    def covered_within(self) -> Fraction:
        return Fraction(0)

    def rows(self, sizes: Sizes) -> tuple[HoleRow, ...]:
        return ()

    def cuts(self, part: Sized) -> tuple[Box, ...]:
        return ()

    def drawn(self: Feature, part: Sized) -> tuple[Box, ...]:
        return self.cuts(part)

    def bores(self: Feature, part: Sized, sizes: Sizes) -> tuple[Bore, ...]:
        rows = self.rows(sizes)
        if not rows:
            return ()
        face, edges = self.face, self.edges
        assert face is not None and len(edges) == 2, f"the holes of {self.name} need a face and two edges"
        return tuple(bore for row in rows for bore in row_bores(face, (edges[0], edges[1]), row, part, sizes))

    def faults(self, part: Part, sizes: Sizes, write: Writer) -> Iterator[Finding]:
        return iter(())

    def called(self, sizes: Sizes, tag: str) -> str:
        return ""

    def callout(self, sizes: Sizes, write: Writer, stock: Writer, tag: str) -> str:
        return ""


def row_bores(face: Way, edges: tuple[Way, Way], row: HoleRow, part: Sized, sizes: Sizes) -> Iterator[Bore]:
    """The holes of one row in `face`, set back from the first of two edges and laid out from the second,
    starting there."""
    edge, end = edges

    def mouth(way: Way, distance: Affine | Fraction) -> Fraction:
        return sizes.of(place_from(way, part.size(way.axis), distance))

    fixed = {face.axis: mouth(face, NOTHING), edge.axis: mouth(edge, row.setback)}
    for hole in row.holes:
        at = {**fixed, end.axis: mouth(end, hole)}
        yield Bore((at[Axis.X], at[Axis.Y], at[Axis.Z]), face.opposite, row.diameter / 2, row.depth)


def measured_from(edge: Way, size: Affine, near: Affine, far: Affine) -> Span:
    """The span between two distances in from `edge`, measured from the part's low corner."""
    if edge.sign < 0:
        return Span(near, far)
    return Span(size - far, size - near)


def place_from(edge: Way, size: Affine, distance: Affine | Fraction) -> Affine:
    """The position `distance` in from `edge`, measured from the part's low corner."""
    return NOTHING + distance if edge.sign < 0 else size - distance
