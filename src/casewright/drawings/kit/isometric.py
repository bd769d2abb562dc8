"""Isometric boxes, seen from the front, the right and above, near ones drawn over far ones."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from .scene import Point

Corner = tuple[float, float, float]

_COS30, _SIN30 = 3**0.5 / 2, 0.5


def project(corner: Corner) -> Point:
    """Where a point in space (x right, y to the back, z up) lies on paper.

    The eye looks from the front right above; all three axes are foreshortened equally, so
    they are drawn at full length, x and y at 30 degrees.
    """
    x, y, z = corner
    return (_COS30 * (x + y), _SIN30 * (y - x) + z)


@dataclass(frozen=True)
class SolidBox:
    """A box in space, from its low to its high corner."""

    name: str
    low: Corner
    high: Corner

    def hexagon(self) -> tuple[Point, ...]:
        """Its outline on paper."""
        (a, b, c), (d, e, f) = self.low, self.high
        corners = ((a, b, c), (d, b, c), (d, e, c), (d, e, f), (a, e, f), (a, b, f))
        return tuple(project(corner) for corner in corners)

    def right(self) -> tuple[Point, ...]:
        """Its right side on paper."""
        (_, b, c), (d, e, f) = self.low, self.high
        return tuple(project(corner) for corner in ((d, b, c), (d, e, c), (d, e, f), (d, b, f)))

    def front(self) -> tuple[Point, ...]:
        """Its front on paper."""
        (a, b, c), (d, _, f) = self.low, self.high
        return tuple(project(corner) for corner in ((a, b, c), (d, b, c), (d, b, f), (a, b, f)))

    def top(self) -> tuple[Point, ...]:
        """Its top on paper."""
        (a, b, _), (d, e, f) = self.low, self.high
        return tuple(project(corner) for corner in ((a, b, f), (d, b, f), (d, e, f), (a, e, f)))


def in_front(one: SolidBox, other: SolidBox) -> bool:
    """Whether `one` may hide `other`: it lies wholly on the eye's side of it along some axis.

    Boxes that do not overlap are apart along some axis; the eye is at the right, in front and above.
    """
    return one.low[0] >= other.high[0] or one.high[1] <= other.low[1] or one.low[2] >= other.high[2]


def overlap(one: SolidBox, other: SolidBox) -> bool:
    """Whether two boxes' outlines overlap on paper.

    An isometric outline is a hexagon with sides along three directions, so two of them are apart
    exactly where they are apart along one of the three ways across those sides.
    """
    return all(
        a_low < b_high and b_low < a_high
        for (a_low, a_high), (b_low, b_high) in zip(_shadows(one), _shadows(other), strict=True)
    )


def _shadows(block: SolidBox) -> tuple[tuple[float, float], ...]:
    """The reach of the outline along x+y, z-x and z+y: each stays put when the eye's ray passes."""
    (a, b, c), (d, e, f) = block.low, block.high
    return (a + b, d + e), (c - d, f - a), (c + b, f + e)


def far_to_near(blocks: Sequence[SolidBox]) -> tuple[SolidBox, ...]:
    """The boxes in drawing order: none is drawn before one that it hides.

    Three boxes can hide each other in a ring; the ring is then broken at its farthest box.
    """
    behind: dict[str, set[str]] = {block.name: set() for block in blocks}
    for block in blocks:
        for other in blocks:
            if (
                block is not other
                and overlap(block, other)
                and in_front(block, other)
                and not in_front(other, block)
            ):
                behind[block.name].add(other.name)
    waiting = sorted(blocks, key=_depth)
    drawn: list[SolidBox] = []
    done: set[str] = set()
    while waiting:
        ready = next((block for block in waiting if behind[block.name] <= done), waiting[0])
        waiting.remove(ready)
        drawn.append(ready)
        done.add(ready.name)
    return tuple(drawn)


def _depth(block: SolidBox) -> float:
    """How near the eye the middle of a box is."""
    (a, b, c), (d, e, f) = block.low, block.high
    return (a + d - b - e + c + f) / 2
