"""Holes in a line, evenly spaced: what rows of shelf pins, hinge cups and hinge plates have in common."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from ....findings import Finding
from ....sizes.affine import Affine
from ....sizes.ledger import Sizes
from ...directions import Way
from ..holes import HoleRow
from .feature import EDGE_WORDS, FeatureDefaults, FeatureSize, Writer

if TYPE_CHECKING:
    from ..part import Part


@dataclass(frozen=True, slots=True)
class HoleLine(FeatureDefaults):
    """`number` holes `pitch` apart, bored `depth` deep into `face`.

    The line is `setback` in from `edge`; the centre of its first hole is `first` in from `end`. `number` is a
    count from the ledger. A kind of it says what its holes are called, how its findings' codes begin, and,
    where its line runs across the part, what it is `beside` and where it goes `onward` from.
    """

    called_so: ClassVar[str]
    code: ClassVar[str]
    beside: ClassVar[tuple[str, str]] = ("edge", "wide")
    onward: ClassVar[tuple[str, str]] = ("end", "long")

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

    @property
    def kind_words(self) -> str:
        return self.called_so

    @property
    def edges(self) -> tuple[Way, ...]:
        return (self.edge, self.end)

    @property
    def sizes(self) -> tuple[FeatureSize, ...]:
        return (
            FeatureSize(self.setback, "in from the edge", self.edge, self.code),
            FeatureSize(
                self.first, f"first from the {EDGE_WORDS[self.end]} end", self.end, f"first {self.code[:-1]}"
            ),
            FeatureSize(self.pitch, "apart"),
            FeatureSize(self.diameter, "across"),
            FeatureSize(self.depth, "deep"),
        )

    @property
    def count(self) -> Affine:
        return self.number

    def rows(self, sizes: Sizes) -> tuple[HoleRow, ...]:
        return (self.row(sizes),)

    def row(self, sizes: Sizes) -> HoleRow:
        """The row as numbers, with the ledger's values."""
        of = sizes.of
        return HoleRow(
            of(self.first),
            of(self.pitch),
            int(of(self.number)),
            of(self.setback),
            of(self.diameter),
            of(self.depth),
        )

    def faults(self, part: Part, sizes: Sizes, write: Writer) -> Iterator[Finding]:
        place, role = part.place_of(self), part.role.value
        thick, row = sizes.of(part.thickness), self.row(sizes)
        if row.depth >= thick:
            text = f"{self.kind_words}s are {write(row.depth)} deep; the {role} is {write(thick)} thick."
            yield Finding(f"{self.code}-too-deep", place, text, "Bore less deep.")
        across = sizes.of(part.size(self.edge.axis))
        if row.setback + row.diameter / 2 >= across:
            edge, wide = self.beside
            text = (
                f"the {self.kind_words}s would be {write(row.setback)} in from the {edge} of a {role} "
                f"{write(across)} {wide}."
            )
            fix = f"Set the {self.code} back less from the {edge}."
            yield Finding(f"{self.code}-off-the-part", place, text, fix)
        length = sizes.of(part.size(self.end.axis))
        if row.last >= length:
            end, long = self.onward
            text = (
                f"the last {self.kind_words} would be {write(row.last)} from the {end} of a {role} "
                f"{write(length)} {long}."
            )
            yield Finding(f"{self.code}-off-the-part", place, text, f"Start the first hole nearer the {end}.")

    def called(self, sizes: Sizes, tag: str) -> str:
        """`14 holes`."""
        number = self.row(sizes).number
        return f"{number} {'hole' if number == 1 else 'holes'}"

    def callout(self, sizes: Sizes, write: Writer, stock: Writer, tag: str) -> str:
        """`14 holes Ø 1/4 × 3/8 deep, every 2`."""
        row = self.row(sizes)
        words = f"{self.called(sizes, tag)} Ø {write(row.diameter)} × {write(row.depth)} deep"
        return words + (f", every {write(row.pitch)}" if row.number > 1 else "")
