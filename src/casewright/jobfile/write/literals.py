"""Exact values as a job file writes them. What could not be read back the same is refused."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from decimal import Decimal
from enum import Enum
from fractions import Fraction

from ...errors import LengthError
from ...lengths.fractions_text import mixed
from ...lengths.length import MM, Unit, parse_length
from ..read.entries import POUNDS_PER_KILOGRAM, SQUARE_FEET_PER_SQUARE_METRE

MOST_DIGITS = 10
FINEST_ON_A_RULE = 64

Bare = str  # TOML source text


def text(value: str) -> Bare:
    """A basic string: JSON's escapes are TOML's, but for one control character."""
    return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")


def choice(value: Enum) -> Bare:
    return text(str(value.value))


def yes_no(value: bool) -> Bare:
    return "true" if value else "false"


def array(values: Iterable[Bare]) -> Bare:
    return f"[{', '.join(values)}]"


def inline(entries: Mapping[str, Bare]) -> Bare:
    """An inline table."""
    return f"{{ {', '.join(f'{key} = {value}' for key, value in entries.items())} }}"


def number(value: Fraction) -> Bare:
    """A plain number; LengthError where no short decimal says it exactly."""
    if (said := _decimal(value)) is None:
        raise LengthError(f"{value} is no short decimal number; choose one that is.")
    return said


def length(value: Fraction, unit: Unit) -> Bare:
    """A length as a maker would write it in a job of that unit, exactly."""
    for said, bare in _ways(value, unit):
        try:
            if parse_length(said, unit) == value:
                return said if bare else text(said)
        except LengthError:
            continue
    raise LengthError(f"{value} inches cannot be written exactly; choose a length on the rule.")


def _ways(value: Fraction, unit: Unit) -> Iterable[tuple[str, bool]]:
    """Ways to write a length, the handiest first, each with whether it needs no quotes."""
    inches, millimetres = _decimal(value), _decimal(value / MM)
    on_rule = FINEST_ON_A_RULE % value.denominator == 0
    if unit is Unit.MM:
        if millimetres is not None:
            yield millimetres, True
        yield f"{mixed(value)} in", False
        return
    if on_rule and value.denominator > 1:
        yield mixed(value), False
    if inches is not None:
        yield inches, True
    if millimetres is not None:
        yield f"{millimetres} mm", False
    yield mixed(value), False


def spread(value: float, unit: Unit) -> Bare:
    """A standard deviation the model keeps as a float of inches."""
    in_millimetres = _decimal(Fraction(repr(round(value * 25.4, 6))))
    if unit is Unit.MM and in_millimetres and float(parse_length(in_millimetres, unit)) == value:
        return in_millimetres
    plain = f"{Decimal(repr(value)):f}"
    return plain if unit is Unit.INCH else text(f"{plain} in")


def weight(pounds: Fraction) -> Bare:
    return _weighed(pounds, {"lb": Fraction(1), "kg": POUNDS_PER_KILOGRAM})


def weight_per_area(pounds: Fraction) -> Bare:
    return _weighed(
        pounds, {"lb/ft2": Fraction(1), "kg/m2": POUNDS_PER_KILOGRAM / SQUARE_FEET_PER_SQUARE_METRE}
    )


def _weighed(pounds: Fraction, units: Mapping[str, Fraction]) -> Bare:
    for unit, worth in units.items():
        if (said := _decimal(pounds / worth)) is not None:
            return text(f"{said} {unit}")
    raise LengthError(f"{float(pounds)} {next(iter(units))} is no short decimal number; choose one that is.")


def _decimal(value: Fraction) -> str | None:
    """The number as a decimal, or None where that would be long or endless."""
    scaled = value * 10**MOST_DIGITS
    if scaled.denominator != 1 or abs(value) >= 10**9:
        return None
    digits = f"{Decimal(int(scaled)).scaleb(-MOST_DIGITS):f}"
    return digits.rstrip("0").rstrip(".") or "0"
