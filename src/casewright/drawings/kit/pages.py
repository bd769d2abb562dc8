"""Paper sizes, and the scale at which a scene fills the space it is given."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum

from ...lengths.length import Unit
from .draughting import strokes
from .scene import Point, Scene
from .strokes import Extent, Stroke, extent, shift_stroke

POINTS_PER_INCH = 72.0

SMALLEST = 0.2
"""Points per model inch at which a drawing is little more than its lettering."""

TRIALS = 8
NEAR = 1e-6
MOST = 0.7
"""The share of a room that words beside a drawing may take before it is left to overrun its space."""

FULL = 0.985
"""The share of its space a drawing must fill before no further scale is tried."""


class Paper(Enum):
    """Paper the packet is printed on: width and height in points."""

    LETTER = (612.0, 792.0)
    A4 = (595.28, 841.89)

    @classmethod
    def for_unit(cls, unit: Unit) -> Paper:
        """Letter where the shop works in inches, A4 where it works in millimetres."""
        return cls.LETTER if unit is Unit.INCH else cls.A4


def scale_bar(unit: Unit) -> tuple[str, float]:
    """The bar that proves a print's scale: what is written on it, and its length in points."""
    text, inches = ("6 inches", 6.0) if unit is Unit.INCH else ("150 mm", 150.0 * float(unit.length))
    return text, inches * POINTS_PER_INCH


@dataclass(frozen=True)
class PlacedScene:
    """A scene at a scale: its strokes, the space they take, and how many model inches a point covers."""

    strokes: tuple[Stroke, ...]
    extent: Extent
    point: float
    title: str = ""

    @property
    def wide(self) -> float:
        """Width on paper, in points."""
        return self.extent.wide / self.point

    @property
    def tall(self) -> float:
        """Height on paper, in points."""
        return self.extent.tall / self.point


def at_scale(scene: Scene, point: float, *more: Scene, gap: float = 6.0) -> PlacedScene:
    """The scene at a scale where a point on paper covers `point` model inches, with `more` below it.

    The scenes below are moved straight down, so that equal x stay in line.
    """
    drawn = strokes(scene, point)
    room = extent(drawn, point)
    for other in more:
        below = strokes(other, point)
        down = room.low - gap * point - extent(below, point).high
        drawn += tuple(shift_stroke(stroke, 0.0, down) for stroke in below)
        room = extent(drawn, point)
    return PlacedScene(drawn, room, point, scene.title)


def full_size(scene: Scene) -> PlacedScene:
    """The scene at 1:1."""
    return at_scale(scene, 1.0 / POINTS_PER_INCH)


def fit_to_room(scene: Scene, wide: float, tall: float, *more: Scene, largest: float = 36.0) -> PlacedScene:
    """The scene as large as `wide` by `tall` points allow, at most `largest` points per model inch.

    Lettering keeps its size on paper, so the space taken grows almost linearly with the scale: two trials
    give a straight line, and a few more correct for lettering that shrinks to fit. A scene overruns
    its space only where its lettering is too large at any scale. `more` scenes stand below the first.
    """
    best = at_scale(scene, 1.0 / largest, *more)
    if _fits(best, wide, tall):
        return best
    small = at_scale(scene, 1.0 / SMALLEST, *more)
    low, high = (SMALLEST, small), (largest, best)
    best = small
    for _ in range(TRIALS):
        scale = min(
            _where(low, high, wide, lambda placed: placed.wide),
            _where(low, high, tall, lambda placed: placed.tall),
        )
        trial = at_scale(scene, 1.0 / scale, *more)
        if _fits(trial, wide, tall):
            best, low = trial, (scale, trial)
            if max(trial.wide / wide, trial.tall / tall) > FULL:
                break
        else:
            high = (scale, trial)
    return best


def fit_set(draw: Callable[[float], Scene], size: Point, room: Point, beside: Point) -> PlacedScene:
    """What `draw` makes for a scale, given as the model inches that a point covers, in a room in points.

    So words can be set to fit what they stand in. `size` is that of what is drawn, in model inches, and
    `beside` the points that its words take beside it at least; where they take more, it is drawn smaller.
    """
    (placed,) = fit_row(lambda point: (at_scale(draw(point), point),), size, room, beside)
    return placed


def fit_row(
    draw: Callable[[float], tuple[PlacedScene, ...]],
    size: Point,
    room: Point,
    beside: Point,
    gap: float = 0.0,
) -> tuple[PlacedScene, ...]:
    """The same for several drawings at one scale beside each other, `gap` points apart; `size` and `beside`
    are of all together."""
    row: tuple[PlacedScene, ...] = ()
    aside = beside
    for _ in range(TRIALS):
        point = max(long / (space - taken) for long, space, taken in zip(size, room, aside, strict=True))
        row = draw(point)
        wide, tall = sum(one.wide for one in row) + gap * (len(row) - 1), max(one.tall for one in row)
        # What fills its room to the point is over it by a rounding error.
        if wide <= room[0] + NEAR and tall <= room[1] + NEAR:
            break
        more = (wide - size[0] / point, tall - size[1] / point)
        aside = (max(aside[0], min(more[0], MOST * room[0])), max(aside[1], min(more[1], MOST * room[1])))
    return row


def _where(
    low: tuple[float, PlacedScene],
    high: tuple[float, PlacedScene],
    room: float,
    size: Callable[[PlacedScene], float],
) -> float:
    """The scale between two trials at which a straight line through them just fills `room`."""
    below, above = size(low[1]), size(high[1])
    share = (0.995 * room - below) / (above - below) if above > below else 1.0
    return low[0] + min(0.98, max(0.02, share)) * (high[0] - low[0])


def _fits(placed: PlacedScene, wide: float, tall: float) -> bool:
    return placed.wide <= wide and placed.tall <= tall
