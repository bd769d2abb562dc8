"""The joints of a face frame that are laid out one by one, or cut with a jig: dowels, mortises and tenons.

Each is measured from the front face of the frame, so that faces come flush although stock differs.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ....sizes.affine import NOTHING, Affine
from ....sizes.ledger import Sizes
from ...directions import Box, Span, Way, box, third_axis
from ..holes import Bore, HoleRow
from .feature import Feature, FeatureDefaults, FeatureSize, Sized, Writer, measured_from, row_bores


@dataclass(frozen=True, slots=True)
class _FrameJoint(FeatureDefaults):
    """A joint in `face`, an end or an edge of its part. `front` is the side of the frame that is seen. A kind
    of it says what it is called."""

    called_so: ClassVar[str]

    name: str
    face: Way
    front: Way

    @property
    def kind_words(self) -> str:
        return self.called_so

    @property
    def bench_joint(self) -> bool:
        return True

    def called(self: Feature, sizes: Sizes, tag: str) -> str:
        """`mortise`."""
        return self.sizes[0].label


@dataclass(frozen=True, slots=True)
class _FromAnEnd(_FrameJoint):
    """A joint that is laid out from one `end` of its face."""

    end: Way

    @property
    def edges(self) -> tuple[Way, ...]:
        return (self.end,)


@dataclass(frozen=True, slots=True)
class DowelPair(_FromAnEnd):
    """Two holes for dowels: `first` and `second` in from `end`, their centres `setback` behind the front."""

    called_so: ClassVar[str] = "pair of dowels"

    first: Affine
    second: Affine
    setback: Affine
    diameter: Affine
    depth: Affine

    @property
    def sizes(self) -> tuple[FeatureSize, ...]:
        return (
            FeatureSize(self.first, "to the first hole", self.end, "dowel"),
            FeatureSize(self.second, "to the second", self.end, "dowel"),
            FeatureSize(self.setback, "behind the front face"),
            FeatureSize(self.diameter, "across"),
            FeatureSize(self.depth, "deep"),
        )

    def bores(self, part: Sized, sizes: Sizes) -> tuple[Bore, ...]:
        first, second, setback, across, deep = (sizes.of(size.form) for size in self.sizes)
        row = HoleRow(first, second - first, 2, setback, across, deep)
        return tuple(row_bores(self.face, (self.front, self.end), row, part, sizes))

    def callout(self, sizes: Sizes, write: Writer, stock: Writer, tag: str) -> str:
        """`2 dowel holes Ø 3/8 × 1 1/16 deep, centres 3/8 and 1 1/8 in`."""
        across, deep, first, second = (
            write(sizes.of(form)) for form in (self.diameter, self.depth, self.first, self.second)
        )
        return f"2 dowel holes Ø {across} × {deep} deep, centres {first} and {second} in"


@dataclass(frozen=True, slots=True)
class Mortise(_FromAnEnd):
    """A slot for a tenon: `at` in from `end`, `long` from there, its near wall `cheek` behind the front."""

    called_so: ClassVar[str] = "mortise"

    at: Affine
    long: Affine
    cheek: Affine
    width: Affine
    depth: Affine

    @property
    def sizes(self) -> tuple[FeatureSize, ...]:
        return (
            FeatureSize(self.at, "in from the end", self.end, "mortise"),
            FeatureSize(self.long, "long"),
            FeatureSize(self.cheek, "behind the front face"),
            FeatureSize(self.width, "wide"),
            FeatureSize(self.depth, "deep"),
        )

    def cuts(self, part: Sized) -> tuple[Box, ...]:
        spans = {
            self.face.axis: measured_from(self.face, part.size(self.face.axis), NOTHING, self.depth),
            self.end.axis: measured_from(self.end, part.size(self.end.axis), self.at, self.at + self.long),
            self.front.axis: measured_from(
                self.front, part.size(self.front.axis), self.cheek, self.cheek + self.width
            ),
        }
        return (box(spans),)

    def callout(self, sizes: Sizes, write: Writer, stock: Writer, tag: str) -> str:
        """`mortise 1/4 wide × 1 long × 1 1/16 deep`."""
        wide, long, deep = (write(sizes.of(form)) for form in (self.width, self.long, self.depth))
        return f"mortise {wide} wide × {long} long × {deep} deep"


@dataclass(frozen=True, slots=True)
class Tenon(_FrameJoint):
    """What is left of an end between two cheeks and two shoulders: `long` and `width` thick, its near cheek
    `cheek` behind the front, `shoulder` in from both edges."""

    called_so: ClassVar[str] = "tenon"

    long: Affine
    cheek: Affine
    width: Affine
    shoulder: Affine

    @property
    def stands_out(self) -> bool:
        return True

    @property
    def edges(self) -> tuple[Way, ...]:
        return (self.face,)

    @property
    def sizes(self) -> tuple[FeatureSize, ...]:
        return (
            FeatureSize(self.long, "long", self.face, "tenon"),
            FeatureSize(self.cheek, "behind the front face"),
            FeatureSize(self.width, "thick"),
            FeatureSize(self.shoulder, "in from both edges"),
        )

    def cuts(self, part: Sized) -> tuple[Box, ...]:
        across = third_axis(self.face.axis, self.front.axis)
        whole, thick = part.size(across), part.size(self.front.axis)
        end = measured_from(self.face, part.size(self.face.axis), NOTHING, self.long)
        deep, wide = Span(NOTHING, thick), Span(NOTHING, whole)
        cheeks = (
            measured_from(self.front, thick, NOTHING, self.cheek),
            measured_from(self.front, thick, self.cheek + self.width, thick),
        )
        shoulders = (Span(NOTHING, self.shoulder), Span(whole - self.shoulder, whole))
        return (
            *(box({self.face.axis: end, self.front.axis: one, across: wide}) for one in cheeks),
            *(box({self.face.axis: end, self.front.axis: deep, across: one}) for one in shoulders),
        )

    def callout(self, sizes: Sizes, write: Writer, stock: Writer, tag: str) -> str:
        """`tenon 1/4 thick × 1 long, shoulders 1/4`."""
        thick, long, shoulder = (write(sizes.of(form)) for form in (self.width, self.long, self.shoulder))
        return f"tenon {thick} thick × {long} long, {shoulder} off each edge"
