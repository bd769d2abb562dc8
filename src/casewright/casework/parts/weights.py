"""The weights of parts and cases, as blanks, from the weight of their sheet goods."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from ...shop.materials import per_square_inch
from ..project import Project
from .part import Part


def sheet_weight(length: Fraction, width: Fraction, weight_per_foot: Fraction) -> Fraction:
    """The weight of a piece of a sheet good in pounds; `length` and `width` in inches."""
    return length * width * per_square_inch(weight_per_foot)


def weight_of(project: Project, parts: Iterable[Part]) -> Fraction | None:
    """The weight of parts in pounds, as blanks; None if the weight of a material is not known."""
    total = Fraction(0)
    for part in parts:
        sheet = project.job.sheets[part.material]
        if not sheet.weight:
            return None
        length, width, _ = project.dimensions(part)
        total += sheet_weight(length, width, sheet.weight)
    return total
