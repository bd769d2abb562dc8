"""The cut line of a filler or scribe, from the wall as measured along a string.

A string is stretched along the wall, parallel to the edge of the case the part closes against. At places
along it the gap from string to wall is measured. The part's width there is that gap and what lies between
case and string.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise


@dataclass(frozen=True)
class WallOffset:
    """A reading: so far `along` the string, so wide a `gap` from the string to the wall, inches."""

    along: Fraction
    gap: Fraction


@dataclass(frozen=True)
class ScribePoint:
    """A point of the cut line: so far `along` the part from its lower or left end, so wide there, inches."""

    along: Fraction
    width: Fraction


@dataclass(frozen=True)
class ScribeLine:
    """The line to cut a part to, straight from point to point, inches; the first point is at one end of the
    part, the last at the other."""

    points: tuple[ScribePoint, ...]

    @property
    def widest(self) -> ScribePoint:
        """Where the part stays widest, the first such place."""
        return max(self.points, key=lambda point: point.width)

    @property
    def narrowest(self) -> ScribePoint:
        """Where least is left, the first such place."""
        return min(self.points, key=lambda point: point.width)

    def width_at(self, along: Fraction) -> Fraction:
        """The width at a place of the part. Raises ValueError off its ends."""
        for one, following in pairwise(self.points):
            if one.along <= along <= following.along:
                share = (along - one.along) / (following.along - one.along)
                return one.width + share * (following.width - one.width)
        raise ValueError(f"{float(along):g} in lies off the ends of the part")


def scribe_line(
    offsets: Sequence[WallOffset], start: Fraction, length: Fraction, beside: Fraction
) -> ScribeLine:
    """The cut line of a part so long that begins at `start` along the string.

    `beside` is the distance from the edge of the case to the string, less than zero where the string hangs
    over the case. Readings may be given in any order. Raises ValueError, in one sentence, where there are
    fewer than two, where two stand at one place, where they do not reach both ends of the part, or where
    nothing of the part would be left.
    """
    readings = sorted(offsets, key=lambda offset: offset.along)
    if length <= 0:
        raise ValueError(f"the length of a scribed part must be more than zero, not {float(length):g} in")
    if len(readings) < 2:
        raise ValueError("a cut line needs readings at two places along the string or more")
    for one, following in pairwise(readings):
        if one.along == following.along:
            raise ValueError(f"there are two readings at {float(one.along):g} in along the string")
    end = start + length
    if readings[0].along > start or readings[-1].along < end:
        raise ValueError(
            f"the readings run from {float(readings[0].along):g} to {float(readings[-1].along):g} in along "
            f"the string; the part from {float(start):g} to {float(end):g}: measure at both its ends"
        )
    wall = ScribeLine(tuple(ScribePoint(one.along, one.gap + beside) for one in readings))
    places = [start, *(one.along for one in readings if start < one.along < end), end]
    line = ScribeLine(tuple(ScribePoint(place - start, wall.width_at(place)) for place in places))
    if line.narrowest.width <= 0:
        raise ValueError(
            f"at {float(line.narrowest.along):g} in along the part the wall comes to the case; "
            "nothing is left of it"
        )
    return line
