"""Directions in a case: x to the right along the wall, y from the front to the back, z up.

A part lies square in its case, so everything about it is said along these three axes, and a
handed pair needs no second description: only the face that is worked looks the other way.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from ..sizes.affine import Affine


class Axis(Enum):
    X = 0
    Y = 1
    Z = 2


class Way(Enum):
    """One of the six directions; as a side of a part, the side that looks this way."""

    LEFT = (Axis.X, -1)
    RIGHT = (Axis.X, 1)
    FRONT = (Axis.Y, -1)
    BACK = (Axis.Y, 1)
    DOWN = (Axis.Z, -1)
    UP = (Axis.Z, 1)

    axis: Axis
    sign: int
    opposite: Way

    def __init__(self, axis: Axis, sign: int) -> None:
        self.axis = axis
        self.sign = sign


for _one in Way:
    _one.opposite = next(way for way in Way if way.axis is _one.axis and way.sign == -_one.sign)


@dataclass(frozen=True, slots=True)
class Span:
    """From `low` to `high` along one axis, both measured from the part's low corner."""

    low: Affine
    high: Affine


@dataclass(frozen=True, slots=True)
class Box:
    """A box square to the axes, as three spans."""

    x: Span
    y: Span
    z: Span

    def along(self, axis: Axis) -> Span:
        return (self.x, self.y, self.z)[axis.value]


def box(spans: dict[Axis, Span]) -> Box:
    """The box with the given span along each axis."""
    return Box(spans[Axis.X], spans[Axis.Y], spans[Axis.Z])
