"""Values that only costs have: an area and a length of cut with their units, and a percentage."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from typing import Annotated, Any

from pydantic import PlainValidator, WithJsonSchema

from ...findings import AtField
from ...lengths.fractions_text import quoted
from ...lengths.quantities import AREA_UNITS, LONG_UNITS
from ...validation import input_error

FIGURE = re.compile(r"([0-9]{1,7}(?:\.[0-9]{1,4})?)\s*(\w+)")
MOST_PERCENT = 100


def _area(value: Any) -> Fraction:
    return _with_unit("area", value, "an area", AREA_UNITS, ("125 ft2", "11.6 m2"))


def _cut_length(value: Any) -> Fraction:
    return _with_unit("cut-length", value, "a length of cut", LONG_UNITS, ("1500 ft", "450 m"))


def _with_unit(
    code: str, value: Any, what: str, units: Mapping[str, Fraction], examples: tuple[str, str]
) -> Fraction:
    found = FIGURE.fullmatch(value.strip().lower()) if isinstance(value, str) else None
    if found is None or found[2] not in units:
        inches, metric = examples
        fix = f'Write it with its unit: "{inches}" or "{metric}".'
        at_field = AtField(f"{{typed}} is not {what}.", f"Enter it with its unit: {inches} or {metric}.")
        raise input_error(code, f"{quoted(value)} is not {what}.", fix, at_field)
    if not Fraction(found[1]):
        fix = f"Enter {what} greater than zero."
        raise input_error(code, f"{quoted(value)} is too small.", fix, AtField("{typed} is too small."))
    return Fraction(found[1]) * units[found[2]]


def _percent(value: Any) -> Fraction:
    number = isinstance(value, int | float) and not isinstance(value, bool)
    if not number or not 0 <= value <= MOST_PERCENT:
        text = f"{quoted(value)} is not a percentage from 0 to {MOST_PERCENT}."
        fix = f"Enter a plain number from 0 to {MOST_PERCENT}, such as 20 for 20 %."
        raise input_error("percent", text, fix, AtField("{typed} is not a percentage.", fix))
    return Fraction(repr(value))


CoveredArea = Annotated[
    Fraction,
    PlainValidator(_area),
    WithJsonSchema({"type": "string", "description": 'An area with its unit: "125 ft2" or "11.6 m2".'}),
]
CutLength = Annotated[
    Fraction,
    PlainValidator(_cut_length),
    WithJsonSchema({"type": "string", "description": 'A length of cut with its unit: "1500 ft" or "450 m".'}),
]
Percent = Annotated[
    Fraction,
    PlainValidator(_percent),
    WithJsonSchema({"type": "number", "minimum": 0, "maximum": MOST_PERCENT}),
]
