"""The fronts of a case as they were drawn up: what stands where, for all who ask of them later."""

from __future__ import annotations

from dataclasses import dataclass

from ....sizes.affine import Affine
from ...front_choices import FrontKind


@dataclass(frozen=True)
class PlacedFront:
    """One front: its kind, the form of its height, and the marks of its leaves from the left."""

    kind: FrontKind
    height: Affine
    leaves: tuple[str, ...]


@dataclass(frozen=True)
class BayFronts:
    """The fronts of the bay of that `number`, from the bottom up; `height` is what they come to together,
    gaps included."""

    number: int
    height: Affine
    fronts: tuple[PlacedFront, ...]
