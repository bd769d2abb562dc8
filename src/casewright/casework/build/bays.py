"""A bay: the space between two uprights, and the clear heights in it."""

from __future__ import annotations

from dataclasses import dataclass

from ...sizes.affine import Affine
from ..directions import Way
from ..job import Bay
from .case_draft import PartDraft


@dataclass(frozen=True)
class Upright:
    """A side or divider; `foot` is the height of its lower end above the lower ends of the sides."""

    part: PartDraft
    foot: Affine


@dataclass(frozen=True)
class Clear:
    """A clear height in a bay: its `floor` above the lower ends of the sides, and its `height`."""

    floor: Affine
    height: Affine


@dataclass(frozen=True)
class BayPlace:
    """A bay in its case: `number` counts from the left, `width` is the clear width between `left` and
    `right`, `depth` the clear depth from the front edges to the back."""

    bay: Bay
    number: int
    left: Upright
    right: Upright
    width: Affine
    depth: Affine

    @property
    def uprights(self) -> tuple[tuple[Upright, Way], tuple[Upright, Way]]:
        """Both uprights, each with the direction that its face in the bay looks."""
        return (self.left, Way.RIGHT), (self.right, Way.LEFT)
