"""The basic marks of a drawing: outlines, rings and lettering in model inches, y upwards.

Backends turn strokes into a file; tests look at the strokes themselves.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from math import cos, radians, sin

from .lettering import CAP_HEIGHT, width_of
from .pens import INK, Layer, Pen, Tint
from .scene import Anchor, Point


@dataclass(frozen=True, slots=True)
class Outline:
    """A polygon or an open line."""

    points: tuple[Point, ...]
    closed: bool
    pen: Pen | None
    tint: Tint
    layer: Layer
    name: str = ""


@dataclass(frozen=True, slots=True)
class Ring:
    """A circle."""

    centre: Point
    radius: float
    pen: Pen | None
    tint: Tint
    layer: Layer
    name: str = ""


@dataclass(frozen=True, slots=True)
class Lettering:
    """One line of text. `at` lies on its baseline; `size` is its em in model inches."""

    at: Point
    text: str
    size: float
    anchor: Anchor = Anchor.MIDDLE
    turn: float = 0.0
    bold: bool = False
    colour: str = INK
    layer: Layer = Layer.TEXT
    name: str = ""

    def corners(self) -> tuple[Point, ...]:
        """The corners of the space it takes, from the lower left one."""
        wide = width_of(self.text, self.size, bold=self.bold)
        left = {Anchor.START: 0.0, Anchor.MIDDLE: -wide / 2, Anchor.END: -wide}[self.anchor]
        low, high = -0.2 * self.size, (CAP_HEIGHT + 0.08) * self.size
        c, s = cos(radians(self.turn)), sin(radians(self.turn))
        x, y = self.at
        return tuple(
            (x + c * u - s * v, y + s * u + c * v)
            for u, v in ((left, low), (left + wide, low), (left + wide, high), (left, high))
        )


Stroke = Outline | Ring | Lettering


def shift_stroke(stroke: Stroke, right: float, up: float) -> Stroke:
    """The stroke moved right and up, in model inches."""
    if isinstance(stroke, Outline):
        return replace(stroke, points=tuple((x + right, y + up) for x, y in stroke.points))
    if isinstance(stroke, Ring):
        return replace(stroke, centre=(stroke.centre[0] + right, stroke.centre[1] + up))
    return replace(stroke, at=(stroke.at[0] + right, stroke.at[1] + up))


@dataclass(frozen=True, slots=True)
class Extent:
    """The space a drawing takes, in model inches."""

    left: float
    low: float
    right: float
    high: float

    @property
    def wide(self) -> float:
        return self.right - self.left

    @property
    def tall(self) -> float:
        return self.high - self.low


def extent(strokes: Iterable[Stroke], point: float) -> Extent:
    """The space the strokes take, pens included; `point` is how many model inches a point covers."""
    xs: list[float] = []
    ys: list[float] = []
    for stroke in strokes:
        if isinstance(stroke, Lettering):
            corners, half = stroke.corners(), 0.0
        elif isinstance(stroke, Ring):
            (x, y), r = stroke.centre, stroke.radius
            corners, half = ((x - r, y - r), (x + r, y + r)), _half(stroke.pen, point)
        else:
            corners, half = stroke.points, _half(stroke.pen, point)
        for x, y in corners:
            xs += (x - half, x + half)
            ys += (y - half, y + half)
    if not xs:
        return Extent(0.0, 0.0, 0.0, 0.0)
    return Extent(min(xs), min(ys), max(xs), max(ys))


def _half(pen: Pen | None, point: float) -> float:
    return pen.weight * point / 2 if pen else 0.0
