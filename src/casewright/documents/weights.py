"""What parts and cases weigh as blanks, from the weight of their sheet goods."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from ..casework.parts import Part
from ..casework.project import Project
from ..measure.lengths import Unit

# One pound is 0.45359237 kg exactly (international yard and pound agreement, 1959).
KILOGRAMS_IN_A_POUND = Fraction(45359237, 100_000_000)
SQUARE_INCHES_IN_A_FOOT = 144


def weight(project: Project, parts: Iterable[Part]) -> Fraction | None:
    """Pounds; None where the weight of a material is not known. What features take off is not counted."""
    total = Fraction(0)
    for part in parts:
        sheet = project.job.sheets[part.material]
        if not sheet.weight:
            return None
        length, width, _ = project.dimensions(part)
        total += length * width / SQUARE_INCHES_IN_A_FOOT * sheet.weight
    return total


def weighed(pounds: Fraction | None, unit: Unit) -> str:
    """A weight as printed: whole pounds, or whole kilograms where the shop works in millimetres."""
    if pounds is None:
        return "not known"
    if unit is Unit.INCH:
        return f"{round(pounds)} lb"
    return f"{round(pounds * KILOGRAMS_IN_A_POUND)} kg"
