"""Drawer slides: how wide a drawer box is, how long a slide a case takes, and the room it needs."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction


class SlideKind(Enum):
    """Where a slide is screwed to the drawer box."""

    SIDE = "side mount"
    UNDER = "under mount"
    CENTER = "center mount"  # one, under the middle of the bottom


@dataclass(frozen=True)
class Slide:
    """A pair of drawer slides, or one in the middle, by the figures of its maker's sheet; in inches.

    The drawer box is `narrower` than the opening, both sides together: its inside where `from_inside` is
    True, otherwise its outside. It is at least `lower` than the opening is high, with `below` of that free
    under it. Behind a slide of one of the `lengths` the case needs `behind` more. `recess` is how far the
    drawer's bottom lies above the lower edges of its sides; `thickest` the thickest drawer side the slide
    takes, None where that does not matter.
    """

    key: str
    name: str
    kind: SlideKind
    lengths: tuple[Fraction, ...]
    narrower: Fraction
    lower: Fraction
    from_inside: bool = False
    below: Fraction = Fraction(0)
    behind: Fraction = Fraction(0)
    recess: Fraction = Fraction(0)
    thickest: Fraction | None = None


def box_width(opening: Fraction, slide: Slide, side_thickness: Fraction) -> Fraction:
    """The outside width in inches of a drawer box with sides of that thickness, in that clear opening."""
    return opening - slide.narrower + (2 * side_thickness if slide.from_inside else 0)


def slide_length(depth: Fraction, slide: Slide) -> Fraction | None:
    """The longest of the slide's lengths that a case of that clear depth takes; None if it takes none.

    `depth` is from where the slide begins to whatever stands behind it, in inches.
    """
    return max((length for length in slide.lengths if least_depth(length, slide) <= depth), default=None)


def least_depth(length: Fraction, slide: Slide) -> Fraction:
    """The clear depth in inches that a slide of that length needs."""
    return length + slide.behind
