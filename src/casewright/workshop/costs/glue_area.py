"""How much is glued: the faces that meet in the glue-ups, and the edges under edging."""

from __future__ import annotations

from fractions import Fraction

from ...casework.edge_strips import edge_strips
from ...casework.project import Project
from ..assembly.joining import Joinings


def glued_in_joints(joinings: Joinings) -> Fraction:
    """The square inches that meet in all glue-ups, each face counted once."""
    return sum((one.glue for case in joinings.values() for one in case), Fraction(0))


def glued_under_edging(project: Project) -> Fraction:
    """The square inches of edge that edging is glued to: its length times the thickness of the panel."""
    return sum(
        (strip.length * project.sizes.of(strip.part.thickness) for strip in edge_strips(project)), Fraction(0)
    )
