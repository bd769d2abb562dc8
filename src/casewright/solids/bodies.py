"""Every part of a job as a solid body in its place along its wall."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from manifold3d import Manifold

from ..casework.extents import part_extent
from ..casework.parts.part import Part
from ..casework.project import Project
from .part_shape import PartShape, Point, shape_of
from .part_solid import floats, solid


@dataclass(frozen=True, slots=True)
class Body:
    """A part with its shape and its low corner in the frame of its wall, in inches.

    The frame of a wall: x along it from its left end, y from the room towards it (zero at the backs
    of the deepest cases), z up from the floor.
    """

    part: Part
    shape: PartShape
    corner: Point
    wall: str

    @property
    def far_corner(self) -> Point:
        """The corner of its blank opposite `corner`."""
        (x, y, z), (long, deep, high) = self.corner, self.shape.blank
        return x + long, y + deep, z + high

    def placed_solid(self) -> Manifold:
        """Its solid, moved to its place."""
        return solid(self.shape).translate(floats(self.corner))

    def shifted(self, x: Fraction | int = 0, y: Fraction | int = 0, z: Fraction | int = 0) -> Body:
        """The same body moved out of its place by these distances, in inches."""
        return replace(self, corner=(self.corner[0] + x, self.corner[1] + y, self.corner[2] + z))


Bodies = Mapping[str, Body]
"""Bodies by the marks of their parts."""


def assemble(project: Project) -> Bodies:
    """Every part of the job in its place, by mark, in the job's order."""
    bodies: dict[str, Body] = {}
    shapes: dict[PartShape, PartShape] = {}  # equal parts share one, and so one solid
    for drawn in project.runs:
        for case in drawn.cases:
            for part in case.parts:
                corner = part_extent(project, part).low
                shape = shape_of(part, project.sizes)
                bodies[part.mark] = Body(part, shapes.setdefault(shape, shape), corner, drawn.run.wall)
    return bodies
