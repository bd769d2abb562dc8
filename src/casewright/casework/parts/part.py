"""A part is what the saw sees: a blank with features, each located from a named reference edge."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from ...sizes.affine import NOTHING, Affine
from ..directions import Axis, Box, Span, Way, box
from ..size_names import FeatureSizes
from .features import Feature


class Role(Enum):
    """What a part is in its case, in the trade's words."""

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


class PartName:
    """The short names that, after a case's mark, a pencil writes on a part."""

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


class Hand(Enum):
    """Which of a mirrored pair a part is; NONE where turning it over changes nothing."""

    LEFT = "left"
    RIGHT = "right"
    NONE = ""


@dataclass(frozen=True, slots=True)
class Lie:
    """How a part lies in its case: where its length (the grain) and width run, which face is worked.

    `worked` is the side that is face up when features are cut; it also names the thickness axis.
    """

    length: Axis
    width: Axis
    worked: Way


@dataclass(frozen=True, slots=True)
class Part:
    """One piece of wood in the finished job.

    `mark` is short enough for a pencil (`B1-L`). `length` runs along the grain; the three sizes
    are forms over the job's ledger, in inches. `match` names the set of parts that must come out
    equal and so are cut on one setting. `optional` parts may be given up when material runs out.
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

    def size(self, axis: Axis) -> Affine:
        """How far the part reaches along an axis of the case."""
        if axis is self.lie.length:
            return self.length
        if axis is self.lie.width:
            return self.width
        return self.thickness

    def blank(self) -> Box:
        """The part before any feature is cut, from its own low corner."""
        return box({axis: Span(NOTHING, self.size(axis)) for axis in Axis})

    def feature(self, name: str) -> Feature:
        """The feature called `name`; KeyError when the part has none."""
        for feature in self.features:
            if feature.name == name:
                return feature
        raise KeyError(f"{self.mark} has no feature {name}")

    def place_of(self, feature: Feature) -> str:
        """The place that a finding about one of its features names: `B1-L.dado-bottom`."""
        return FeatureSizes(self.mark, feature.name).owner

    def end(self, axis: Axis, way: Way) -> Affine:
        """Where the side looking `way` lies along its axis, from the part's low corner."""
        return self.size(axis) if way.sign > 0 else NOTHING
