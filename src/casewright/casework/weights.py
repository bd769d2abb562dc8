"""What parts weigh as blanks, from the weight of their sheet goods."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from .parts.part import Part
from .project import Project

SQUARE_INCHES_IN_A_FOOT = 144


def weight_of(project: Project, parts: Iterable[Part]) -> Fraction | None:
    """Pounds; None where the weight of a material is not known. What features take off is not counted."""
    total = Fraction(0)
    for part in parts:
        sheet = project.job.sheets[part.material]
        if not sheet.weight:
            return None
        length, width, _ = project.dimensions(part)
        total += length * width / SQUARE_INCHES_IN_A_FOOT * sheet.weight
    return total
