"""A piece of wood with what is cut into it, as numbers, and whether it serves turned some way.

Everything is measured from the middle of the piece along its length, width and thickness, in an order that
makes a right-handed frame. A turn that keeps the grain where it is then changes two signs, and a mirror
image one.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from ..casework.directions import Axis, Way, third_axis
from ..casework.parts.features.feature import Feature
from ..casework.parts.part import FRONTS, Part
from ..casework.project import Project
from .facts import made_as
from .harm import CUT_AMISS, MISPLACED, TURNED_ROUND, Harm, HarmKind

Signs = tuple[int, int, int]

TURNS: Mapping[str, Signs] = {
    "": (1, 1, 1),
    "end for end": (-1, -1, 1),
    "over, edge for edge": (1, -1, -1),
    "over, end for end": (-1, 1, -1),
}
"""How a piece may be turned with its grain in the same direction."""

MIRROR: Signs = (1, 1, -1)
MIRRORED_FRONT: Signs = (1, -1, 1)
"""How the other of a pair is made: a case's side from the other face, a door along the other edge, since the
face that is seen is chosen before anything is bored behind it."""

Cut = tuple[Fraction, ...]
"""The middle of what is cut away (three figures), then what does not depend on the frame's direction."""


@dataclass(frozen=True)
class PieceShape:
    """What is cut into a piece: `ways` are the directions that its length, width and thickness run in."""

    cuts: tuple[Cut, ...]
    ways: tuple[Way, Way, Way]

    def turned(self, signs: Signs) -> PieceShape:
        """The same piece turned, or its mirror image."""
        return PieceShape(tuple(_signed(cut, signs) for cut in self.cuts), self.ways)

    def alike(self, other: PieceShape, within: Fraction) -> bool:
        """Whether the two are cut alike, to so many inches."""
        return len(self.cuts) == len(other.cuts) and self.cut_towards(other, within)

    def cut_towards(self, other: PieceShape, within: Fraction) -> bool:
        """Whether all that is cut into this one is cut into the other too, to so many inches."""
        left = list(other.cuts)
        for cut in self.cuts:
            match = next((one for one in left if _near(cut, one, within)), None)
            if match is None:
                return False
            left.remove(match)
        return True


def piece_shape(
    project: Project, part: Part, harms: Collection[Harm] = (), only: Collection[str] | None = None
) -> PieceShape | None:
    """The part with its features, as they are with these harms; None where that is not known.

    With `only`, no features but those of these names are cut yet.
    """
    if other := made_as(project, harms):
        return piece_shape(project, other, (), only)
    moved = {harm.feature: harm.by for harm in harms if harm.fault is HarmKind.PLACE}
    if not all(moved.values()) or any(harm.fault in CUT_AMISS - MISPLACED for harm in harms):
        return None
    wrong = {harm.feature: harm.fault for harm in harms if harm.fault in TURNED_ROUND}
    ways = frame(part)
    cuts: list[Cut] = []
    for feature in part.features:
        if only is not None and feature.name not in only:
            continue
        signs = _flip(part, feature, wrong[feature.name], ways) if feature.name in wrong else (1, 1, 1)
        by = _away(feature, ways, moved.get(feature.name, Fraction(0)))
        cuts += (_signed(_shifted(cut, by), signs) for cut in _cuts(project, part, feature, ways))
    shape = PieceShape(tuple(cuts), ways)
    if any(harm.fault is HarmKind.MIRRORED for harm in harms):
        return shape.turned(MIRRORED_FRONT if part.role in FRONTS else MIRROR)
    return shape


def turn_that_serves(have: PieceShape, need: PieceShape, within: Fraction) -> str | None:
    """How a piece must be turned so that all its cuts are among those needed; None if no turn does it."""
    return next((name for name, signs in TURNS.items() if have.turned(signs).cut_towards(need, within)), None)


def turned_side(part: Part, side: Way, turn: str) -> Way:
    """Where a side of the part looks once the part is turned."""
    for way, sign in zip(frame(part), TURNS[turn], strict=True):
        if way.axis is side.axis:
            return side if sign > 0 else side.opposite
    raise AssertionError("a part has three directions")


def frame(part: Part) -> tuple[Way, Way, Way]:
    """The directions of its length, width and thickness: a right-handed frame."""
    length, width = part.lie.length, part.lie.width
    across = third_axis(length, width)
    even = (width.value - length.value) % 3 == 1
    return _along(length), _along(width), _along(across) if even else _along(across).opposite


def _along(axis: Axis) -> Way:
    return next(way for way in Way if way.axis is axis and way.sign > 0)


def _flip(part: Part, feature: Feature, fault: HarmKind, ways: Iterable[Way]) -> Signs:
    """The signs that carry a feature to where it was made by mistake."""
    axis = third_axis(part.lie.length, part.lie.width)
    if fault is HarmKind.END:
        axis = part.lie.length
    elif fault is HarmKind.EDGE:
        axis = part.lie.width
    one, two, three = (-1 if way.axis is axis else 1 for way in ways)
    return one, two, three


def _away(feature: Feature, ways: Iterable[Way], by: Fraction) -> tuple[Fraction, ...]:
    """A move away from the edge that the feature is measured from, along the piece's own directions."""
    edge = feature.edges[-1] if by else None
    return tuple(
        -by * edge.sign * way.sign if edge is not None and way.axis is edge.axis else Fraction(0)
        for way in ways
    )


def _shifted(cut: Cut, by: tuple[Fraction, ...]) -> Cut:
    return (*(at + one for at, one in zip(cut[:3], by, strict=True)), *cut[3:])


def _cuts(project: Project, part: Part, feature: Feature, ways: tuple[Way, Way, Way]) -> Iterable[Cut]:
    of = project.sizes.of
    sizes = {axis: of(part.size(axis)) for axis in Axis}

    def middle(axis: Axis, at: Fraction, way: Way) -> Fraction:
        return (at - sizes[axis] / 2) * way.sign

    for box in feature.cuts(part):
        spans = [(way, of(box.along(way.axis).low), of(box.along(way.axis).high)) for way in ways]
        place = tuple(middle(way.axis, (low + high) / 2, way) for way, low, high in spans)
        yield (*place, *(high - low for _, low, high in spans))
    for bore in feature.bores(part, project.sizes):
        place = tuple(middle(way.axis, bore.mouth[way.axis.value], way) for way in ways)
        yield (*place, bore.radius, bore.depth)


def _signed(cut: Cut, signs: Signs) -> Cut:
    return (*(at * sign for at, sign in zip(cut[:3], signs, strict=True)), *cut[3:])


def _near(one: Cut, other: Cut, within: Fraction) -> bool:
    return len(one) == len(other) and all(abs(a - b) <= within for a, b in zip(one, other, strict=True))
