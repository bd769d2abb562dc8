"""How far the thickness of sheets strays: the lot, sheet from sheet, and place from place in a sheet."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from .deviations import Deviations
from .materials import SheetGood


@dataclass(frozen=True, slots=True)
class ThicknessLevels:
    """How far thickness strays, in inches: the lot's mean, sheet from sheet, and place from place."""

    lot: float
    sheets: float
    places: float


PRIOR_READINGS = 4
"""The usual spread of a material counts as so many readings of the shop's own (our judgement, no source)."""


def thickness_levels(sheet: SheetGood, deviations: Deviations) -> ThicknessLevels:
    """How a sheet good's thickness strays at three levels.

    The usual spread is shared out evenly among the three, as ANSI A208.2 allows the same for the average of
    a panel as for the variation within it. Readings replace the lot's share by the error of their mean, and
    the other two, as far as there are readings, by their own spread (a pooled variance).
    """
    usual = sheet.usual.deviation / sqrt(3)
    number = len(sheet.readings)
    if not number:
        return ThicknessLevels(usual, usual, usual)
    own = sheet.deviation**2 if number > 1 else 0.0
    weight = number - 1 + PRIOR_READINGS
    variance = ((number - 1) * own + PRIOR_READINGS * 2 * usual**2) / weight
    each = sqrt(variance / 2)
    return ThicknessLevels(sqrt((variance + deviations.caliper**2) / number), each, each)
