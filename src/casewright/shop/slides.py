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
    takes and `least_side` the lowest one it can be screwed to, None where that does not matter.

    Where its screws in the case are told too (all five figures), their line is `screw_height` above the lower
    edge of the box; the first is `screw_setback` behind the front edge of the case, or behind an inset front,
    the others whole `screw_step`s behind that. Their pilots are `screw_pilot` across and `screw_depth` deep.
    Where it is not `bored`, they are bored through the slide itself, and nothing is told of them.
    `price` is for what one drawer takes, whatever its length; None where it is not told.
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
    least_side: Fraction | None = None
    screw_height: Fraction | None = None
    screw_setback: Fraction | None = None
    screw_step: Fraction | None = None
    screw_pilot: Fraction | None = None
    screw_depth: Fraction | None = None
    bored: bool = True
    price: Fraction | None = None


SCREW_FIGURES = ("screw_height", "screw_setback", "screw_step", "screw_pilot", "screw_depth")
"""What must be told of the screws of slides together, or not at all."""


@dataclass(frozen=True)
class ScrewHoles:
    """The holes of one slide in the case: `number` of them, `pitch` apart, the first `setback` from where the
    slide begins, on a line `up` above the lower edge of the box; all in inches."""

    up: Fraction
    setback: Fraction
    pitch: Fraction
    number: int
    pilot: Fraction
    depth: Fraction


def slide_length(depth: Fraction, slide: Slide) -> Fraction | None:
    """The longest of the slide's lengths that a case of that clear depth takes; None if it takes none.

    `depth` is from where the slide begins to whatever stands behind it, in inches.
    """
    return max((length for length in slide.lengths if least_depth(length, slide) <= depth), default=None)


def least_depth(length: Fraction, slide: Slide) -> Fraction:
    """The clear depth in inches that a slide of that length needs."""
    return length + slide.behind


def screw_holes(slide: Slide, length: Fraction) -> ScrewHoles | None:
    """The holes in the case for a slide of that length: the first, one near its other end and one in the
    middle, all on its steps; None where the slide says nothing of them, or none are to be bored.

    The last is as far from the end as the first is from the front, or farther.
    """
    up, setback, step = slide.screw_height, slide.screw_setback, slide.screw_step
    pilot, depth = slide.screw_pilot, slide.screw_depth
    if not slide.bored:
        return None
    if up is None or setback is None or step is None or pilot is None or depth is None:
        return None
    halves = int((length - 2 * setback) / step) // 2
    number = 3 if halves > 0 else 1
    return ScrewHoles(up, setback, step * max(halves, 1), number, pilot, depth)
