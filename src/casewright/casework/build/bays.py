"""A bay: the room between two uprights, and the clear heights in it."""

from __future__ import annotations

from dataclasses import dataclass

from ...sizes.affine import Affine
from ..directions import Way
from ..job import Bay
from .case_draft import PartDraft


@dataclass(frozen=True)
class Upright:
    """A side or divider, with how far its lower end lies above the sides' lower ends."""

    part: PartDraft
    foot: Affine


@dataclass(frozen=True)
class Clear:
    """A clear height in a bay: its `floor` above the sides' lower ends, and its `height`."""

    floor: Affine
    height: Affine


@dataclass(frozen=True)
class BayPlace:
    """A bay in its case: `number` counts from the left, `width` is clear between `left` and `right`,
    `depth` clear from the front edges to the back."""

    bay: Bay
    number: int
    left: Upright
    right: Upright
    width: Affine
    depth: Affine

    @property
    def uprights(self) -> tuple[tuple[Upright, Way], tuple[Upright, Way]]:
        """Both uprights, each with the way its face in the bay looks."""
        return (self.left, Way.RIGHT), (self.right, Way.LEFT)
