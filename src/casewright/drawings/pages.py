"""Where a drawing goes: paper sizes, and the scale at which a scene fills the room it is given."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from ..measure.lengths import Unit
from .draughting import strokes
from .scene import Scene
from .strokes import Extent, Stroke, extent, moved

POINTS_PER_INCH = 72.0


class Paper(Enum):
    """Paper the packet is printed on: width and height in points."""

    LETTER = (612.0, 792.0)
    A4 = (595.28, 841.89)

    @classmethod
    def for_unit(cls, unit: Unit) -> Paper:
        """Letter where the shop works in inches, A4 where it works in millimetres."""
        return cls.LETTER if unit is Unit.INCH else cls.A4


@dataclass(frozen=True)
class Placed:
    """A scene at a scale: its strokes, the room they take, and how many model inches a point covers."""

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


def at_scale(scene: Scene, point: float, *more: Scene, gap: float = 6.0) -> Placed:
    """The scene where a point on paper covers `point` model inches; `more` scenes stand below it.

    Scenes below are moved down only, so that what lies at one x stays in one line.
    """
    drawn = strokes(scene, point)
    room = extent(drawn, point)
    for other in more:
        below = strokes(other, point)
        down = room.low - gap * point - extent(below, point).high
        drawn += tuple(moved(stroke, 0.0, down) for stroke in below)
        room = extent(drawn, point)
    return Placed(drawn, room, point, scene.title)


def full_size(scene: Scene) -> Placed:
    """The scene as large as the thing itself."""
    return at_scale(scene, 1.0 / POINTS_PER_INCH)


def fitted(scene: Scene, wide: float, tall: float, *more: Scene, largest: float = 36.0) -> Placed:
    """The scene as large as `wide` by `tall` points allow, at most `largest` points a model inch.

    Lettering keeps its size, so the scale is found by trying; only lettering too large for the
    room at any scale overruns it. `more` scenes stand below the first.
    """
    low, high = 0.02, largest
    best = at_scale(scene, 1.0 / high, *more)
    if _fits(best, wide, tall):
        return best
    best = at_scale(scene, 1.0 / low, *more)
    for _ in range(14):
        middle = (low * high) ** 0.5
        trial = at_scale(scene, 1.0 / middle, *more)
        if _fits(trial, wide, tall):
            low, best = middle, trial
        else:
            high = middle
    return best


def _fits(placed: Placed, wide: float, tall: float) -> bool:
    return placed.wide <= wide and placed.tall <= tall
