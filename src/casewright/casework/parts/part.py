"""A part: a blank with features, each located from a named reference edge."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum

from ...sizes.affine import NOTHING, Affine
from ..directions import Axis, Box, Span, Way, box
from ..size_names import FeatureSizes
from .covered_edge import CoveredEdge
from .features.channel import Channel
from .features.feature import Feature


class Role(Enum):
    """What a part is in its case, in trade terms."""

    LEFT_SIDE = "left side"
    RIGHT_SIDE = "right side"
    BOTTOM = "bottom"
    TOP = "top"
    FRONT_STRETCHER = "front stretcher"
    BACK_STRETCHER = "back stretcher"
    BACK = "back"
    DIVIDER = "divider"
    FIXED_SHELF = "fixed shelf"
    ADJUSTABLE_SHELF = "adjustable shelf"
    MOUNTING_STRIP = "mounting strip"
    TOE_KICK = "toe kick"
    PLINTH_FRONT = "plinth front"
    PLINTH_BACK = "plinth back"
    PLINTH_END = "plinth end"
    FILLER = "filler"
    STILE = "stile"
    RAIL = "rail"
    MULLION = "mullion"
    CROSS_RAIL = "cross rail"
    DOOR = "door"
    DOOR_STILE = "door stile"
    DOOR_RAIL = "door rail"
    DOOR_PANEL = "door panel"
    DRAWER_FRONT = "drawer front"
    FIXED_FRONT = "fixed front"
    DRAWER_SIDE = "drawer side"
    INNER_FRONT = "inner drawer front"
    DRAWER_BACK = "drawer back"
    DRAWER_BOTTOM = "drawer bottom"


FACE_FRAME = frozenset({Role.STILE, Role.RAIL, Role.MULLION, Role.CROSS_RAIL})
"""The parts of a face frame: it is glued over the front of the finished box."""


FRAMED_DOOR = frozenset({Role.DOOR_STILE, Role.DOOR_RAIL, Role.DOOR_PANEL})
"""The parts of a door that is put together of several."""

SLABS = frozenset({Role.DOOR, Role.DRAWER_FRONT, Role.FIXED_FRONT})
"""Doors and drawer fronts in one piece."""

FRONTS = FRAMED_DOOR | SLABS
"""Doors, drawer fronts and their parts: they are hung on the finished box."""

DRAWER_BOX = frozenset({Role.DRAWER_SIDE, Role.INNER_FRONT, Role.DRAWER_BACK, Role.DRAWER_BOTTOM})
"""The parts of a drawer box, which runs on its slides behind a drawer front."""

MADE_TO_THE_BOX = FACE_FRAME | FRONTS | DRAWER_BOX
"""Parts that are made to a box as it stands and put on it when it is glued up."""


class PartName:
    """The short names pencilled on parts, after the mark of the case."""

    LEFT = "L"
    RIGHT = "R"
    BOTTOM = "B"
    TOP = "T"
    FRONT_STRETCHER = "SF"
    BACK_STRETCHER = "SB"
    BACK = "K"
    DIVIDER = "D"
    FIXED_SHELF = "F"
    ADJUSTABLE_SHELF = "A"
    STRIP = "M"
    TOE_KICK = "TK"
    PLINTH_FRONT = "PF"
    PLINTH_BACK = "PB"
    PLINTH_LEFT = "PL"
    PLINTH_RIGHT = "PR"
    FILLER_LEFT = "FL"
    FILLER_RIGHT = "FR"
    STILE = "ST"
    RAIL = "RA"
    MULLION = "MU"
    CROSS_RAIL = "RC"
    DOOR = "DO"
    DRAWER_FRONT = "DF"
    FIXED_FRONT = "FF"
    DRAWER_LEFT = "DL"
    DRAWER_RIGHT = "DR"
    INNER_FRONT = "DI"
    DRAWER_BACK = "DK"
    DRAWER_BOTTOM = "DB"


END_STILES = (f"{PartName.STILE}1", f"{PartName.STILE}2")
"""The short names of a face frame's stiles, left and right."""


class Hand(Enum):
    """Which of a mirrored pair a part is; NONE if it is not handed."""

    LEFT = "left"
    RIGHT = "right"
    NONE = ""


@dataclass(frozen=True, slots=True)
class Lie:
    """How a part is oriented in its case: the axes of its length (the grain) and width, and its worked face.

    `worked` is the side that is face up when features are cut; its axis is that of the thickness.
    """

    length: Axis
    width: Axis
    worked: Way

    @property
    def thickness(self) -> Axis:
        """The axis of its thickness."""
        return self.worked.axis


@dataclass(frozen=True, slots=True)
class Part:
    """One piece of wood in the finished job.

    `mark` is short enough to pencil on (`B1-L`). `length` is along the grain; the three sizes are forms over
    the job's ledger, in inches: those of the panel as it is cut, before edging is put on its `edges`.
    `match` names a set of parts that must come out the same size and so are cut on one setting. `optional`
    parts are those that the maker marked so: they can be given up if material runs short.
    """

    mark: str
    role: Role
    case: str
    material: str
    length: Affine
    width: Affine
    thickness: Affine
    lie: Lie
    features: tuple[Feature, ...] = ()
    hand: Hand = Hand.NONE
    match: str | None = None
    optional: bool = False
    edges: tuple[CoveredEdge, ...] = ()

    @property
    def leaf(self) -> str:
        """The mark of the door that it is a piece of, which is its own without the letter after it; its own
        where it is in one piece."""
        return self.mark[:-1] if self.role in FRAMED_DOOR else self.mark

    def size(self, axis: Axis) -> Affine:
        """The size of the part along an axis of the case, as it is worked: with the edging that goes on
        first."""
        if axis is self.lie.length:
            return with_edging(self.length, self.edges, axis)
        if axis is self.lie.width:
            return with_edging(self.width, self.edges, axis)
        return self.thickness

    def edge(self, way: Way) -> CoveredEdge | None:
        """The edging on the side that faces `way`; None for a bare edge."""
        return next((edge for edge in self.edges if edge.way is way), None)

    def blank(self) -> Box:
        """The part before any feature is cut, from its own low corner."""
        return box({axis: Span(NOTHING, self.size(axis)) for axis in Axis})

    @property
    def channels(self) -> tuple[Channel, ...]:
        """Its features that are channels."""
        return tuple(channel for feature in self.features if (channel := feature.channel))

    def feature(self, name: str) -> Feature:
        """The feature called `name`; KeyError if the part has no such feature."""
        for feature in self.features:
            if feature.name == name:
                return feature
        raise KeyError(f"{self.mark} has no feature {name}")

    def place_of(self, feature: Feature) -> str:
        """The place named in findings about one of its features: `B1-L.dado-bottom`."""
        return FeatureSizes(self.mark, feature.name).owner

    def end(self, axis: Axis, way: Way) -> Affine:
        """The position of the side that faces `way` along its axis, from the part's low corner."""
        return self.size(axis) if way.sign > 0 else NOTHING


def with_edging(cut: Affine, edges: Iterable[CoveredEdge], axis: Axis) -> Affine:
    """A size along an axis once the edging that goes on first is on: `cut` itself where there is none."""
    for edge in edges:
        if edge.first and edge.way.axis is axis:
            cut = cut + edge.taken_off
    return cut
