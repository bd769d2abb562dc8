"""A part as it lies on the bench: the worked face up, its length (and grain) from left to right.

The view is from outside the face, so the two parts of a left and right pair come out as true mirror
images without any mirroring.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ...casework.directions import Axis, Box, Way
from ...casework.parts.features.feature import Feature
from ...casework.parts.holes import Bore
from ...casework.parts.part import Part
from ...sizes.ledger import Sizes
from ..kit.scene import Point


def looks_up(part: Part, face: Way) -> int:
    """Whether the part's width runs up (1) or down (-1) the paper when `face` is in view.

    With the length r to the right and the face's outward way n towards the eye, up is n x r.
    """
    n, r = _unit(face.axis, face.sign), _unit(part.lie.length, 1)
    up = (
        n[1] * r[2] - n[2] * r[1],
        n[2] * r[0] - n[0] * r[2],
        n[0] * r[1] - n[1] * r[0],
    )
    return up[part.lie.width.value]


def _unit(axis: Axis, sign: int) -> tuple[int, int, int]:
    x, y, z = (sign if place == axis.value else 0 for place in range(3))
    return x, y, z


@dataclass(frozen=True)
class FaceView:
    """One face of a part, flat: x along its length from its low end, y up the paper."""

    part: Part
    face: Way
    sizes: Sizes

    @property
    def long(self) -> Fraction:
        return self.sizes.of(self.part.size(self.part.lie.length))

    @property
    def wide(self) -> Fraction:
        return self.sizes.of(self.part.size(self.part.lie.width))

    @property
    def upright(self) -> bool:
        """Whether the low edge of the width lies at the foot of the drawing."""
        return looks_up(self.part, self.face) > 0

    def point(self, along: Fraction, across: Fraction) -> Point:
        """Where the place `along` the length and `across` the width, from the low corner, is drawn."""
        return float(along), float(across) if self.upright else float(self.wide) - float(across)

    def strips(self) -> tuple[tuple[Way, tuple[Point, Point]], ...]:
        """Edging that is on before anything is cut: its edge, and its lower left and upper right corners."""
        low, high = (0.0, 0.0), (float(self.long), float(self.wide))
        found = []
        for edge in self.part.edges:
            thick, at = float(self.sizes.of(edge.taken_off)), float(self.at_edge(edge.way))
            across = 0 if edge.way.axis is self.part.lie.length else 1
            near, far = list(low), list(high)
            if at == 0.0:
                far[across] = thick
            else:
                near[across] = at - thick
            if edge.first and thick:
                found.append((edge.way, ((near[0], near[1]), (far[0], far[1]))))
        return tuple(found)

    def features(self) -> tuple[Feature, ...]:
        """The features cut into this face; notches belong to every face, and so does what is cut into ends
        and edges."""
        return tuple(
            feature
            for feature in self.part.features
            if feature.face is None or feature.face is self.face or in_end_or_edge(self.part, feature)
        )

    def bored(self, feature: Feature) -> tuple[tuple[Point, Point], ...]:
        """The lower left and upper right corners of each hole of a feature as seen from beside it."""
        return tuple(self._beside(bore) for bore in feature.bores(self.part, self.sizes))

    def _beside(self, bore: Bore) -> tuple[Point, Point]:
        low, high = bore.corners
        a, b = self.seen(low), self.seen(high)
        return (min(a[0], b[0]), min(a[1], b[1])), (max(a[0], b[0]), max(a[1], b[1]))

    def seen(self, place: tuple[Fraction, Fraction, Fraction]) -> Point:
        """Where a place of the part, from its low corner along the axes of its case, is drawn."""
        lie = self.part.lie
        return self.point(place[lie.length.value], place[lie.width.value])

    def cuts(self, feature: Feature) -> tuple[tuple[Point, Point], ...]:
        """The lower left and upper right corners of each rectangle that is drawn as cut away."""
        return tuple(self._corners(box) for box in feature.drawn(self.part))

    def _corners(self, box: Box) -> tuple[Point, Point]:
        along, across = box.along(self.part.lie.length), box.along(self.part.lie.width)
        a = self.point(self.sizes.of(along.low), self.sizes.of(across.low))
        b = self.point(self.sizes.of(along.high), self.sizes.of(across.high))
        return (min(a[0], b[0]), min(a[1], b[1])), (max(a[0], b[0]), max(a[1], b[1]))

    def holes(self, feature: Feature) -> tuple[Point, ...]:
        """The centres of a feature's holes, the first one first."""
        return tuple(self.seen(bore.mouth) for bore in feature.bores(self.part, self.sizes))

    def at_edge(self, edge: Way) -> Fraction:
        """Where an end (its x) or an edge (its y) is drawn."""
        if edge.axis is self.part.lie.length:
            return self.long if edge.sign > 0 else Fraction(0)
        return self.wide if (edge.sign > 0) == self.upright else Fraction(0)

    def ends(self) -> tuple[Way, Way]:
        """The ends at the left and at the right of the drawing."""
        return _ways(self.part.lie.length)

    def edges(self) -> tuple[Way, Way]:
        """The edges at the foot and at the head of the drawing."""
        low, high = _ways(self.part.lie.width)
        return (low, high) if self.upright else (high, low)


def _ways(axis: Axis) -> tuple[Way, Way]:
    low = next(way for way in Way if way.axis is axis and way.sign < 0)
    return low, low.opposite


def in_end_or_edge(part: Part, feature: Feature) -> bool:
    """Whether it is cut into an end or an edge of its part: a face shows it as a broken line."""
    return feature.face is not None and feature.face.axis is not part.lie.thickness


def crosses(view: FaceView, feature: Feature) -> bool:
    """Whether what is cut into the face lies across the part, and so is located from an end."""
    return feature.face is not None and feature.edges[0].axis is view.part.lie.length


def lap_at_end(view: FaceView, feature: Feature) -> Fraction | None:
    """How far the shoulder of a half lap or tongue stands in from the end it begins at; None for all else."""
    channel = feature.channel
    if channel is None or not channel.kind.on_sled or view.sizes.of(channel.at):
        return None
    return view.sizes.of(channel.width)


def faces(part: Part) -> tuple[Way, ...]:
    """The faces to draw: the worked one, and the other if it is cut as well."""
    other = part.lie.worked.opposite
    both = any(feature.face is other for feature in part.features)
    return (part.lie.worked, other) if both else (part.lie.worked,)


def reference_edges(part: Part) -> tuple[Way, ...]:
    """The ends and edges from which something on the part is measured."""
    return tuple(dict.fromkeys(edge for feature in part.features for edge in feature.edges))
