"""Widths that no cutter has: several passes of a blade, a buried stack, the two cuts of a notch.

Distances are from the fence's face to the near side of the cutter.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, sqrt

LEAST_OVERLAP = Fraction(1, 64)
"""Two passes side by side overlap by this much, or a sliver is left between them."""

BLADE_PROUD = Fraction(1, 4)
"""How far a hand-held saw's blade comes out of the far face. Common practice, no source."""

LEAST_BURIED = Fraction(1, 16)
"""The least of a stack that a sacrificial fence covers, so that the fence need not just touch it.
Common practice, no source."""


def blade_passes(width: Fraction, kerf: Fraction) -> tuple[Fraction, ...]:
    """Where each pass of a blade begins, from the near wall, for a channel `width` wide.

    The first pass makes the near wall and the last the far wall; the fence moves by equal steps
    between. ValueError for a channel narrower than the kerf.
    """
    if width < kerf:
        raise ValueError(f"a channel {width} in wide is narrower than the {kerf} in kerf")
    if width == kerf:
        return (Fraction(0),)
    steps = ceil((width - kerf) / (kerf - LEAST_OVERLAP)) if kerf > LEAST_OVERLAP else 0
    if steps < 1:
        raise ValueError(f"a {kerf} in kerf is too thin to cut a channel in passes")
    return tuple((width - kerf) * step / steps for step in range(steps + 1))


def buried_width(width: Fraction, stack: Fraction) -> Fraction:
    """How deep a stack stands in the sacrificial fence for a rabbet of `width`.

    What stands out of the fence cuts. ValueError where the stack is narrower than the rabbet.
    """
    if stack < width:
        raise ValueError(f"a stack {stack} in wide cannot cut a rabbet of {width} in in one pass")
    return stack - width


def from_far_edge(across: Fraction, at: Fraction, width: Fraction) -> Fraction:
    """The fence's distance when the piece, `across` wide, is turned end for end.

    A channel (or cut) `width` wide begins `at` in from one edge; with the other edge against the
    fence the cutter's whole width is accounted for on the other side.
    """
    return across - at - width


@dataclass(frozen=True, slots=True)
class Plunge:
    """How a round blade lies in a board: half its cut's length on each face, in inches.

    `top` is on the face towards the saw, `below` on the other face; zero if the blade
    does not come through.
    """

    top: float
    below: float

    @property
    def left_standing(self) -> float:
        """How far short of the line the far face is uncut when the near face is cut to it."""
        return self.top - self.below


def plunge(diameter: Fraction, thickness: Fraction, proud: Fraction) -> Plunge:
    """The cut of a blade that comes `proud` out of the far face of a board.

    On a face that lies `h` from the blade's centre the cut reaches `sqrt(r^2 - h^2)` to each side
    of it: a chord of a circle. ValueError where the blade is too small to reach through.
    """
    radius = diameter / 2
    depth = thickness + proud
    if depth > radius:
        raise ValueError(f"a blade of {diameter} in cannot reach {depth} in below its saw's base")
    top = sqrt(radius**2 - (radius - depth) ** 2)
    below = sqrt(radius**2 - (radius - proud) ** 2)
    return Plunge(top, below)


@dataclass(frozen=True, slots=True)
class NotchCut:
    """One of a notch's two cuts by the hand-held saw.

    `line` is how far in from the edge the cut lies, `length` how far it runs to the corner. The
    straightedge stands `guide` in from that edge, on the kept side. The blade's centre stops
    `stop` short of the corner, so that the near face is cut to the line and no further; on the far
    face `left_standing` is left for a hand saw. Inches; the last two are chords of a circle.
    """

    edge: str
    line: Fraction
    length: Fraction
    guide: Fraction
    stop: float
    left_standing: float


def notch_cut(edge: str, line: Fraction, length: Fraction, base_offset: Fraction, lying: Plunge) -> NotchCut:
    """The cut along a notch's line `line` in from `edge`, which runs `length` to the corner.

    The kerf lies in the waste: the blade's near side is on the line, and the saw's base reaches
    `base_offset` from there to the straightedge on the kept side.
    """
    return NotchCut(edge, line, length, line + base_offset, lying.top, lying.left_standing)
