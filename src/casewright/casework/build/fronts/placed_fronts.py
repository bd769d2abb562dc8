"""The fronts of a case as they were drawn up: what stands where, for all who ask of them later."""

from __future__ import annotations

from dataclasses import dataclass

from ....sizes.affine import Affine
from ...front_choices import FrontKind
from .door_hinges import DoorHinges


@dataclass(frozen=True)
class PlacedFront:
    """One front: its kind, how far its lower edge is above the lower ends of the case's sides, its height,
    the marks of its leaves from the left, and the hinges of each that is a door."""

    kind: FrontKind
    low: Affine
    height: Affine
    leaves: tuple[str, ...]
    hinges: tuple[DoorHinges, ...] = ()


@dataclass(frozen=True)
class BayFronts:
    """The fronts of the bay of that `number`, from the bottom up; `height` is what they come to together,
    gaps included, and `between` what is from one to the next."""

    number: int
    height: Affine
    between: Affine
    fronts: tuple[PlacedFront, ...]
