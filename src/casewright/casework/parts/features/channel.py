"""A channel: a dado, groove, rabbet, half lap or the cheek of a tongue, cut by the table saw from edge to
edge."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from ....findings import Finding
from ....sizes.affine import NOTHING, Affine
from ....sizes.ledger import Sizes
from ...directions import Axis, Box, Span, Way, box, third_axis
from .feature import EDGE_WORDS, FeatureDefaults, FeatureSize, Sized, Writer, measured_from

if TYPE_CHECKING:
    from ..part import Part

GROOVE_FOR_BACK = "groove-back"
RABBET_FOR_BACK = "rabbet-back"
BACK_CHANNELS = (GROOVE_FOR_BACK, RABBET_FOR_BACK)


class ChannelKind(Enum):
    DADO = "dado"  # across the grain
    GROOVE = "groove"  # with the grain
    RABBET = "rabbet"  # along an edge, open to it
    LAP = "half lap"  # across a piece of a frame, at an end or between: half its thickness
    TONGUE = "tongue"  # across an end, in both faces of which it leaves a tongue between

    @property
    def on_sled(self) -> bool:
        """Whether it is cut across a narrow piece, which lies on the crosscut sled."""
        return self in (ChannelKind.LAP, ChannelKind.TONGUE)


@dataclass(frozen=True, slots=True)
class Channel(FeatureDefaults):
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
    def channel(self) -> Channel:
        return self

    @property
    def takes_back(self) -> bool:
        return self.name in BACK_CHANNELS

    @property
    def runs(self) -> Axis:
        """The axis it runs along."""
        return third_axis(self.face.axis, self.edge.axis)

    def cuts(self, part: Sized) -> tuple[Box, ...]:
        return (self.cut(part),)

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

    def faults(self, part: Part, sizes: Sizes, write: Writer) -> Iterator[Finding]:
        if self.kind.on_sled:  # no deeper than its piece is thick, and at the end of a rail or between
            return
        depth, thick, kind = sizes.of(self.depth), sizes.of(part.thickness), self.kind.value
        place = part.place_of(self)
        if depth >= thick:
            yield Finding(
                f"{kind}-too-deep",
                place,
                f"the {kind} is {write(depth)} deep, but the {part.role.value} is only {write(thick)} thick.",
                f"Make the {kind} shallower.",
            )
        reach = sizes.of(self.at) + sizes.of(self.width)
        across = sizes.of(part.size(self.edge.axis))
        if reach > across or sizes.of(self.at) < 0:
            yield Finding(
                f"{kind}-off-the-part",
                place,
                f"the far wall of the {kind} would be {write(reach)} "
                f"from the {EDGE_WORDS[self.edge]} edge; "
                f"the {part.role.value} is {write(across)} that way.",
                "Move it, or make the part larger.",
            )

    def called(self, sizes: Sizes, tag: str) -> str:
        """`dado a`."""
        return f"{self.kind.value} {tag}" if tag else self.kind.value

    def callout(self, sizes: Sizes, write: Writer, stock: Writer, tag: str) -> str:
        """`dado a · ~23/32 (.725) wide × 1/4 deep`."""
        width, depth = stock(sizes.of(self.width)), write(sizes.of(self.depth))
        return f"{self.called(sizes, tag)} · {width} wide × {depth} deep"
