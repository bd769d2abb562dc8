"""A notch: a corner sawn out of a part."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ....findings import Finding
from ....sizes.affine import NOTHING, Affine
from ....sizes.ledger import Sizes
from ...directions import Box, Span, Way, box, third_axis
from .feature import EDGE_WORDS, FeatureDefaults, FeatureSize, Sized, Writer, measured_from

if TYPE_CHECKING:
    from ..part import Part


@dataclass(frozen=True, slots=True)
class Notch(FeatureDefaults):
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
            for edge, form in self.reaches
        )

    @property
    def reaches(self) -> tuple[tuple[Way, Affine], tuple[Way, Affine]]:
        """How far it goes in from each of its edges."""
        return (self.first_edge, self.first), (self.second_edge, self.second)

    @property
    def corner(self) -> Notch:
        return self

    def cuts(self, part: Sized) -> tuple[Box, ...]:
        through = third_axis(self.first_edge.axis, self.second_edge.axis)
        spans = {
            edge.axis: measured_from(edge, part.size(edge.axis), NOTHING, reach)
            for edge, reach in self.reaches
        }
        return (box({through: Span(NOTHING, part.size(through)), **spans}),)

    def faults(self, part: Part, sizes: Sizes, write: Writer) -> Iterator[Finding]:
        for edge, form in self.reaches:
            reach, across = sizes.of(form), sizes.of(part.size(edge.axis))
            if reach >= across:
                yield Finding(
                    "notch-too-large",
                    part.place_of(self),
                    f"the notch for the toe kick takes {write(reach)} of {write(across)}.",
                    "Make the toe kick smaller.",
                )
