"""Caliper readings, weights, areas, prices and plain decimals as text, and numbers for JSON."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from .fractions_text import mixed
from .length import MM, Rule, Unit, show
from .rounding import nearest

KILOGRAMS_IN_A_POUND = Fraction(45_359_237, 100_000_000)
"""Exactly, by the international yard and pound agreement of 1959."""

_POUND_FORCE = KILOGRAMS_IN_A_POUND * Fraction("9.80665")
"""Newtons in a pound, exactly."""

NEWTON_PER_SQUARE_MM = Fraction("25.4") ** 2 / _POUND_FORCE
"""Pounds per square inch in a newton per square millimetre, exactly."""

MODULUS_UNITS = {"psi": Fraction(1), "N/mm2": NEWTON_PER_SQUARE_MM}
"""Pounds per square inch in one of each."""

_SQUARE_CENTIMETRE = (10 * MM) ** 2

AREA_UNITS = {"ft2": Fraction(144), "m2": (1000 * MM) ** 2}
"""Square inches in one of each."""

LONG_UNITS = {"ft": Fraction(12), "m": 1000 * MM}
"""Inches in one of each."""


def caliper(length: Fraction | float, unit: Unit, *, finer: bool = False, gap: str = " ") -> str:
    """A length as a caliper shows it: `0.719 in`, `18.26 mm`.

    `finer` adds one decimal place in inches, for values that are calculated, not read. `gap` is the space
    before the unit.
    """
    places = 2 if unit is Unit.MM else 4 if finer else 3
    figure = f"{float(length) / float(unit.length):.{places}f}"
    return f"{figure if float(figure) else figure.removeprefix('-')}{gap}{unit.value}"


def exact_figure(length: Fraction, mark: Rule, *, gap: str = " ") -> str:
    """What a caliper shows of a length that the rule shows rounded; empty for one that is printed exactly."""
    return caliper(length, mark.unit, gap=gap) if show(length, mark).rounded else ""


def stock_size(length: Fraction, unit: Unit, *, gap: str = " ") -> str:
    """A thickness, or the width of a channel that takes it, finer than the shop's rule: to 1/64 in with the
    decimal beside it, `~23/32 (.725)`, or to 0.05 mm, `18.25`, with the hundredths where that rounds them.

    `gap` is the space between a whole number and its fraction.
    """
    step = MM / 20 if unit is Unit.MM else Fraction(1, 64)
    nearest_step = nearest(length, step)
    about = "" if nearest_step == length else "~"
    if unit is Unit.MM:
        beside = f" ({float(length / MM):.2f})" if about else ""
        return f"{about}{exact_decimal(nearest_step, unit)}{beside}"
    return f"{about}{mixed(nearest_step, gap)} ({float(length):.3f})".replace("(0.", "(.")


def exact_decimal(length: Fraction, unit: Unit) -> str:
    """A length as a decimal in the unit, to six places at most: `0.71875`."""
    return f"{float(length / unit.length):.6f}".rstrip("0").rstrip(".")


def short_number(amount: Fraction) -> str:
    """An amount to six significant digits, as a form shows it: `45.5`."""
    return f"{float(amount):g}"


def price_text(amount: Fraction, money: str) -> str:
    """For example `$94`, `$94.50`, `EUR 1,034`: two decimals unless the amount is whole."""
    return exact_price(amount, money) if amount.denominator > 1 else _signed(f"{int(amount):,}", money)


def exact_price(amount: Fraction, money: str) -> str:
    """The same always with two decimals, as in a column of sums: `$94.00`."""
    return _signed(f"{float(amount):,.2f}", money)


def _signed(figure: str, money: str) -> str:
    return f"{money} {figure}" if len(money) > 1 else f"{money}{figure}"


def tenth(amount: Fraction) -> str:
    """An amount to a tenth, as hours are told: `9.9`."""
    return f"{float(amount):.1f}"


def with_cents(amount: Fraction) -> str:
    """An amount of money always with two decimals: `94.00`."""
    return f"{float(amount):.2f}"


def json_number(exact: Fraction) -> float:
    """An exact number as JSON takes it. It goes out as it is; no sum is made of it."""
    return float(exact)


def weighed(pounds: Fraction | float, unit: Unit) -> str:
    """A weight in whole pounds, or in whole kilograms if the shop works in millimetres."""
    if unit is Unit.INCH:
        return f"{round(pounds)} lb"
    return f"{round(float(pounds) * float(KILOGRAMS_IN_A_POUND))} kg"


def running_length(length: Fraction, unit: Unit) -> str:
    """A length to buy, rounded up: `32 ft` or `9.8 m`."""
    if unit is Unit.INCH:
        return f"{ceil(length / 12)} ft"
    return f"{ceil(length / MM / 100) / 10:.1f} m"


def large_area(square_inches: Fraction, unit: Unit) -> str:
    """An area in square feet, or in square metres if the shop works in millimetres: to a tenth below ten."""
    one, sign = (AREA_UNITS["ft2"], "sq ft") if unit is Unit.INCH else (AREA_UNITS["m2"], "m²")
    amount = square_inches / one
    return f"{round(amount) if amount >= 10 else tenth(amount)} {sign}"


def area(square_inches: Fraction, unit: Unit) -> str:
    """An area in whole square inches, or in whole square centimetres if the shop works in millimetres."""
    if unit is Unit.INCH:
        return f"{round(square_inches)} sq in"
    return f"{round(square_inches / _SQUARE_CENTIMETRE)} cm²"
