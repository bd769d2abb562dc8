"""Caliper readings, weights and areas as text in the shop's unit."""

from __future__ import annotations

from fractions import Fraction

from .length import MM, Unit

KILOGRAMS_IN_A_POUND = Fraction(45_359_237, 100_000_000)
"""Exactly, by the international yard and pound agreement of 1959."""

_SQUARE_CENTIMETRE = (10 * MM) ** 2


def caliper(length: Fraction | float, unit: Unit, *, finer: bool = False, gap: str = " ") -> str:
    """A length as a caliper shows it: `0.719 in`, `18.26 mm`.

    `finer` adds one decimal place in inches, for values that are calculated, not read. `gap` is the space
    before the unit.
    """
    places = 2 if unit is Unit.MM else 4 if finer else 3
    figure = f"{float(length) / float(unit.length):.{places}f}"
    return f"{figure if float(figure) else figure.removeprefix('-')}{gap}{unit.value}"


def weighed(pounds: Fraction | float, unit: Unit) -> str:
    """A weight in whole pounds, or in whole kilograms if the shop works in millimetres."""
    if unit is Unit.INCH:
        return f"{round(pounds)} lb"
    return f"{round(float(pounds) * float(KILOGRAMS_IN_A_POUND))} kg"


def area(square_inches: Fraction, unit: Unit) -> str:
    """An area in whole square inches, or in whole square centimetres if the shop works in millimetres."""
    if unit is Unit.INCH:
        return f"{round(square_inches)} sq in"
    return f"{round(square_inches / _SQUARE_CENTIMETRE)} cm²"
