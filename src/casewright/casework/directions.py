"""Directions in a case: x to the right along the wall, y from the front to the back, z up.

Parts are square to their case, so three axes describe them, and a left and right pair needs only one
description: just the worked face points the other way.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from itertools import permutations

from ..sizes.affine import Affine


class Axis(Enum):
    X = 0
    Y = 1
    Z = 2

    # The key of many tables. A member is one object, so its identity will do: Enum hashes its name.
    __hash__ = object.__hash__


class Way(Enum):
    """One of six directions; for a part, the side that faces that way."""

    LEFT = (Axis.X, -1)
    RIGHT = (Axis.X, 1)
    FRONT = (Axis.Y, -1)
    BACK = (Axis.Y, 1)
    DOWN = (Axis.Z, -1)
    UP = (Axis.Z, 1)

    axis: Axis
    sign: int
    opposite: Way
    word: str

    def __init__(self, axis: Axis, sign: int) -> None:
        self.axis = axis
        self.sign = sign
        self.word = self.name.lower()


for _one in Way:
    _one.opposite = next(way for way in Way if way.axis is _one.axis and way.sign == -_one.sign)


_THIRD = {(one, other): third for one, other, third in permutations(Axis)}


def third_axis(one: Axis, other: Axis) -> Axis:
    """The axis square to two different others."""
    return _THIRD[one, other]


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch from `low` to `high` along one axis, both measured from the part's low corner."""

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
