"""Exact values as they are written in a job file. A value that would not read back the same is refused."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal
from fractions import Fraction
from typing import Any

import tomlkit
from tomlkit.items import InlineTable

from ...errors import LengthError
from ...lengths.fractions_text import mixed
from ...lengths.length import MM, Unit, parse_length
from ...lengths.quantities import AREA_UNITS, LONG_UNITS, MODULUS_UNITS
from ...shop.dry_fits import DryFitTally
from ..read.entries import WEIGHT_PER_AREA_UNITS, WEIGHT_UNITS

MOST_DIGITS = 10
FINEST_ON_A_RULE = 64

Literal = str | int | float


def inline_table(said: Mapping[str, Any]) -> InlineTable:
    """A TOML table in braces, on one line with its key."""
    table = tomlkit.inline_table()
    table.update(said)
    return table


def number_literal(value: Fraction) -> Literal:
    """The value as a plain number; LengthError if it has no short exact decimal."""
    if (said := _decimal(value)) is None:
        raise LengthError(f"{value} has no short exact decimal; choose a number that has.")
    return _plain(said)


def length_literal(value: Fraction, unit: Unit) -> Literal:
    """A length as a maker would write it in a job of that unit, exactly."""
    for said in _ways(value, unit):
        try:
            if parse_length(said, unit) == value:
                return said
        except LengthError:
            continue
    raise LengthError(f"{value} inches cannot be written exactly; choose a length on the rule.")


def _ways(value: Fraction, unit: Unit) -> Iterator[Literal]:
    """Ways to write a length, the most usual first."""
    inches, millimetres = _decimal(value), _decimal(value / MM)
    if unit is Unit.MM:
        if millimetres is not None:
            yield _plain(millimetres)
        yield f"{mixed(value)} in"
        return
    if FINEST_ON_A_RULE % value.denominator == 0 and value.denominator > 1:
        yield mixed(value)
    if inches is not None:
        yield _plain(inches)
    if millimetres is not None:
        yield f"{millimetres:f} mm"
    yield mixed(value)


def deviation_literal(value: float, unit: Unit) -> Literal:
    """A standard deviation, which the model keeps as a float in inches."""
    in_millimetres = _decimal(Fraction(repr(round(value * 25.4, 6))))
    if unit is Unit.MM and in_millimetres and float(parse_length(f"{in_millimetres:f}", unit)) == value:
        return _plain(in_millimetres)
    said = Decimal(repr(value))
    return _plain(said) if unit is Unit.INCH else f"{said:f} in"


def tally_entries(tally: DryFitTally) -> dict[str, Any]:
    """A tally of dry fits, as its table has it."""
    predicted = [number_literal(Fraction(repr(share))) for share in tally.predicted]
    worth = number_literal(Fraction(repr(tally.worth)))
    return {"predicted": predicted, "happened": list(tally.happened), "worth": worth}


def weight_literal(pounds: Fraction) -> Literal:
    """A weight as text with its unit: pounds, or kilograms where only those are short."""
    return _with_unit(pounds, WEIGHT_UNITS)


def weight_per_area_literal(pounds: Fraction) -> Literal:
    """A weight per square foot as text with its unit: lb/ft2, or kg/m2 where only that is short."""
    return _with_unit(pounds, WEIGHT_PER_AREA_UNITS)


def area_literal(square_inches: Fraction) -> Literal:
    """An area as text with its unit: ft2, or m2 where only that is short."""
    return _with_unit(square_inches, AREA_UNITS)


def cut_length_literal(inches: Fraction) -> Literal:
    """A length of cut as text with its unit: ft, or m where only that is short."""
    return _with_unit(inches, LONG_UNITS)


def modulus_literal(modulus: Fraction) -> Literal:
    """A modulus of elasticity as text with its unit."""
    return _with_unit(modulus, MODULUS_UNITS)


def _with_unit(amount: Fraction, units: Mapping[str, Fraction]) -> Literal:
    """The amount in the first of `units` that gives a short decimal; they say what one of each is worth."""
    for unit, worth in units.items():
        if (said := _decimal(amount / worth)) is not None:
            return f"{said:f} {unit}"
    first, worth = next(iter(units.items()))
    raise LengthError(
        f"{float(amount / worth)} {first} has no short exact decimal; choose a figure that has."
    )


def _decimal(value: Fraction) -> Decimal | None:
    """The number as a decimal, or None if that is too long or does not end."""
    scaled = value * 10**MOST_DIGITS
    if scaled.denominator != 1 or abs(value) >= 10**9:
        return None
    return Decimal(int(scaled)).scaleb(-MOST_DIGITS).normalize()


def _plain(value: Decimal) -> int | float:
    return int(value) if value == int(value) else float(value)
