"""What a maker decides about doors and drawers. Values only; nothing is worked out."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction


class FrontLie(Enum):
    """How doors and drawer fronts lie to the case."""

    FULL_OVERLAY = "full overlay"  # over the edges of the case, which they hide
    PARTIAL_OVERLAY = "partial overlay"  # over a part of each edge
    INSET = "inset"  # between them, flush with the front


class FrontGrain(Enum):
    """Whether the grain runs on from each front of a bay to the next, as in a bank of drawers."""

    RUNS_ON = "runs on"  # they are cut from one piece, in the order in which they hang
    EACH_BY_ITSELF = "each by itself"


class DrawerGrain(Enum):
    """Which way the grain of drawer fronts and fixed fronts runs; that of doors is upright."""

    LEVEL = "level"
    UPRIGHT = "upright"


class DoorKind(Enum):
    """What a door is made of."""

    SLAB = "slab"
    FRAME_AND_PANEL = "frame and panel"


class FrontKind(Enum):
    """What closes a stretch of a bay."""

    DOOR = "door"
    TWO_DOORS = "two doors"
    DRAWER = "drawer"
    FIXED = "fixed front"

    @property
    def is_door(self) -> bool:
        """Whether it turns on hinges."""
        return self in (FrontKind.DOOR, FrontKind.TWO_DOORS)


class Hung(Enum):
    """The side of a door that its hinges are on, seen from the front."""

    LEFT = "left"
    RIGHT = "right"


class DrawerJoint(Enum):
    """How the front and back of a drawer box meet its sides."""

    LOCKED_RABBET = "locked rabbet"  # a tongue on front and back, in a dado of each side
    RABBET = "rabbet"  # their ends in rabbets of the sides
    THROUGH_DOVETAILS = "through dovetails"
    HALF_BLIND_DOVETAILS = "half-blind dovetails"  # at all corners, as the usual jig cuts them
    HALF_BLIND_IN_FRONT = "half-blind dovetails in front"  # and through ones behind
    BUTT = "butt"  # between the sides, glued and screwed

    @property
    def is_dovetailed(self) -> bool:
        """Whether the sides have tails, front and back pins."""
        return self is DrawerJoint.THROUGH_DOVETAILS or self.has_laps

    @property
    def has_laps(self) -> bool:
        """Whether the tails are half blind, in front at least."""
        return self in (DrawerJoint.HALF_BLIND_DOVETAILS, DrawerJoint.HALF_BLIND_IN_FRONT)


class DrawerBottom(Enum):
    """How the bottom of a drawer box is held."""

    ALL_ROUND = "groove all round"
    SLID_IN = "slid in from behind"  # under a lower back, to which it is screwed


@dataclass(frozen=True)
class Front:
    """What closes a stretch of a bay. With `height` None it takes a share of what the others leave, in
    proportion to `weight`; the height is that of the door or drawer front itself. `hung` counts for a single
    door. `box_height` is how high the sides of the box behind a drawer front are; None for as high as its
    slides allow."""

    kind: FrontKind
    height: Fraction | None = None
    weight: Fraction = Fraction(1)
    hung: Hung = Hung.LEFT
    box_height: Fraction | None = None
