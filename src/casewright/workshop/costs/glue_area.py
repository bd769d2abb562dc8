"""How much is glued: the faces that meet in the glue-ups, and the edges under edging."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from ...casework.edge_strips import edge_strips
from ...casework.project import Project
from ..assembly.joining import GlueUp


def glued_in_joints(glue_ups: Iterable[GlueUp]) -> Fraction:
    """The square inches that meet in these glue-ups, each face counted once."""
    return sum((one.glue for one in glue_ups), Fraction(0))


def glued_under_edging(project: Project) -> Fraction:
    """The square inches of edge that edging is glued to: its length times the thickness of the panel."""
    return sum(
        (strip.length * project.sizes.of(strip.part.thickness) for strip in edge_strips(project)), Fraction(0)
    )
