"""What a maker calls the sides of a part."""

from __future__ import annotations

from ..casework.directions import Axis, Way
from ..casework.parts.part import Part, Role

_SIDES = {
    Way.LEFT: "left",
    Way.RIGHT: "right",
    Way.FRONT: "front",
    Way.BACK: "rear",
    Way.DOWN: "lower",
    Way.UP: "upper",
}
_CASE_SIDES = (Role.LEFT_SIDE, Role.RIGHT_SIDE)


def side_words(part: Part, way: Way) -> str:
    """`front edge`, `lower end`, `inside face`: the side of a part that looks `way` in its case."""
    if way.axis is part.lie.length:
        return f"{_SIDES[way]} end"
    if way.axis is part.lie.width:
        return f"{_SIDES[way]} edge"
    if part.role in _CASE_SIDES:
        return "inside face" if way is part.lie.worked else "outside face"
    return f"{_SIDES[way]} face"


def leading(against: Way, down: Way) -> Way:
    """The side that goes first when `against` runs along a fence to the right of the blade.

    Seen from the maker the fence is to the right, the feed away, up is up: a right-handed
    frame, as x, y, z of the case are. So the feed is up (the opposite of `down`) cross right.
    """
    up, right = _vector(down.opposite), _vector(against)
    feed = (
        up[1] * right[2] - up[2] * right[1],
        up[2] * right[0] - up[0] * right[2],
        up[0] * right[1] - up[1] * right[0],
    )
    return next(way for way in Way if _vector(way) == feed)


def _vector(way: Way) -> tuple[int, int, int]:
    x, y, z = (way.sign if way.axis is axis else 0 for axis in Axis)
    return x, y, z
