"""A part as a solid of the geometry kernel: its blank less what saw and drill take away."""

from __future__ import annotations

from functools import lru_cache
from math import pi, sin, sqrt

import numpy as np
from manifold3d import Error, Manifold, Mesh64, OpType

from ..casework.directions import Way
from ..casework.parts.holes import Bore
from ..errors import LibraryError, library_call
from .part_shape import Block, PartShape, Point

TASK = "building a part's solid"

SEGMENTS = 16
"""Flats around a hole. The polygon has the area of the circle, so volumes are true."""

_CORNERS = [(x, y, z) for x in (0, 1) for y in (0, 1) for z in (0, 1)]
_FACES = np.array(
    [
        *([0, 1, 3], [0, 3, 2], [4, 6, 7], [4, 7, 5]),  # low and high x
        *([0, 4, 5], [0, 5, 1], [2, 3, 7], [2, 7, 6]),  # low and high y
        *([0, 2, 6], [0, 6, 4], [1, 5, 7], [1, 7, 3]),  # low and high z
    ],
    dtype=np.uint64,
)
_TURN = {
    Way.UP: (0.0, 0.0, 0.0),
    Way.DOWN: (180.0, 0.0, 0.0),
    Way.RIGHT: (0.0, 90.0, 0.0),
    Way.LEFT: (0.0, -90.0, 0.0),
    Way.FRONT: (90.0, 0.0, 0.0),
    Way.BACK: (-90.0, 0.0, 0.0),
}


@lru_cache(maxsize=1024)
def solid(shape: PartShape) -> Manifold:
    """The shape as a solid, in inches from its own low corner; equal shapes share one solid.

    Exact numbers become floats here and not before. Raises LibraryError when the kernel fails.
    """
    with library_call("The geometry kernel", TASK):
        blank = _box(Block((shape.blank[0] * 0,) * 3, shape.blank))
        taken = [*map(_box, filter(_has_room, shape.cuts)), *map(_cylinder, shape.bores)]
        made = Manifold.batch_boolean([blank, *taken], OpType.Subtract) if taken else blank
        # The kernel works lazily and passes a failed solid on as an empty one, and an empty part
        # would fit anywhere. So ask for its status here.
        status = made.status()
    if status != Error.NoError:
        raise LibraryError("The geometry kernel", TASK, f"it ended with {status.name}")
    return made


def difference(one: Manifold, other: Manifold) -> float:
    """Cubic inches that only one of two solids fills: zero for equal solids."""
    return float((one - other).volume() + (other - one).volume())


def floats(point: Point) -> tuple[float, float, float]:
    """A point as floats, as the kernel takes it."""
    return float(point[0]), float(point[1]), float(point[2])


def _has_room(cut: Block) -> bool:
    return all(low < high for low, high in zip(cut.low, cut.high, strict=True))


def _box(block: Block) -> Manifold:
    # From its corners, not from a size and a shift: boxes that touch then share the same floats.
    ends = (floats(block.low), floats(block.high))
    corners = [[ends[pick][axis] for axis, pick in enumerate(corner)] for corner in _CORNERS]
    return Manifold(Mesh64(np.array(corners), _FACES))


def _cylinder(bore: Bore) -> Manifold:
    # A regular polygon of n corners on a circle of radius R holds n/2 R^2 sin(2 pi / n).
    reach = float(bore.radius) * sqrt(2 * pi / (SEGMENTS * sin(2 * pi / SEGMENTS)))
    upright = Manifold.cylinder(float(bore.depth), reach, reach, SEGMENTS)
    return upright.rotate(_TURN[bore.into]).translate(floats(bore.mouth))
