"""The kinds of values a job file's entries hold: lengths, amounts, weights, shares.

Each validator takes the value as TOML read it and returns an exact one in the model's units, or raises
a `PydanticCustomError` whose context holds the `text` (what is wrong) and the `fix`.
The unit of a bare number comes from the validation context (`{"unit": Unit}`).
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated, Any

from pydantic import PlainValidator, ValidationInfo, WithJsonSchema
from pydantic_core import PydanticCustomError

from ...errors import LengthError
from ...findings import AtField
from ...lengths.fractions_text import quoted
from ...lengths.length import Unit, parse_length
from ...lengths.quantities import AREA_UNITS, KILOGRAMS_IN_A_POUND
from ...shop.lumber import QUARTERS
from ...validation import input_error

_SQUARE_FEET = AREA_UNITS["m2"] / AREA_UNITS["ft2"]  # in a square metre
WEIGHT_UNITS = {"lb": Fraction(1), "kg": 1 / KILOGRAMS_IN_A_POUND}
"""Pounds in one of each."""
WEIGHT_PER_AREA_UNITS = {"lb/ft2": Fraction(1), "kg/m2": WEIGHT_UNITS["kg"] / _SQUARE_FEET}
"""Pounds per square foot in one of each."""
BARE_WEIGHT = {Unit.INCH: "lb", Unit.MM: "kg"}
BARE_WEIGHT_PER_AREA = {Unit.INCH: "lb/ft2", Unit.MM: "kg/m2"}
"""What a number without a unit is in, by the job's unit."""

LENGTH_SCHEMA: dict[str, Any] = {
    "type": ["string", "number"],
    "description": 'A length: a number in the job\'s unit, or text such as "27 3/8", "3\' 5" or "695 mm".',
}
MOST_WIDTHS = 20
"""Places along a board where its width is measured."""

WEIGHT = re.compile(r"([0-9]+(?:\.[0-9]+)?)\s*([a-z]+[a-z0-9/]*)")


def _unit(info: ValidationInfo) -> Unit:
    unit = (info.context or {}).get("unit", Unit.INCH)
    assert isinstance(unit, Unit)
    return unit


def read_length(value: Any, unit: Unit) -> Fraction:
    """The length in inches; raises a PydanticCustomError when the value is not a length."""
    if isinstance(value, list | dict) or value is None:
        raise input_error(
            "length", f"{quoted(value)} is not a length.", 'Write one length, such as 27.375 or "27 3/8".'
        )
    try:
        return parse_length(value, unit)
    except LengthError as error:
        text, cut, fix = str(error).rpartition("; ")
        if not cut:
            text, fix = str(error), 'write one length, such as 27.375, "27 3/8" or "695 mm".'
        fix = fix[0].upper() + fix[1:]
        raise input_error("length", text.rstrip(".") + ".", fix.rstrip(".") + ".") from None


def _length(least: Fraction | None, strict: bool) -> Callable[[Any, ValidationInfo], Fraction]:
    def read(value: Any, info: ValidationInfo) -> Fraction:
        length = read_length(value, _unit(info))
        if least is not None and (length < least or (strict and length == least)):
            limit = "greater than zero" if strict else "of zero or more"
            raise input_error("not-positive", f"{quoted(value)} is too small.", f"Enter a length {limit}.")
        return length

    return read


Length = Annotated[Fraction, PlainValidator(_length(None, False)), WithJsonSchema(LENGTH_SCHEMA)]
Positive = Annotated[Fraction, PlainValidator(_length(Fraction(0), True)), WithJsonSchema(LENGTH_SCHEMA)]
NotNegative = Annotated[Fraction, PlainValidator(_length(Fraction(0), False)), WithJsonSchema(LENGTH_SCHEMA)]


def _number(value: Any, *, positive: bool) -> Fraction:
    if isinstance(value, bool) or not isinstance(value, int | float) or abs(value) > 10**9 or value != value:
        raise input_error(
            "number",
            f"{quoted(value)} is not an amount.",
            "Enter a plain number without quotes.",
            AtField("{typed} is not an amount.", "Enter a plain number, such as 89.50."),
        )
    number = Fraction(repr(value))
    if number < 0 or (positive and number == 0):
        limit = "greater than zero" if positive else "of zero or more"
        text, fix = f"{quoted(value)} is too small.", f"Enter a number {limit}."
        raise input_error("number", text, fix, AtField("{typed} is too small."))
    return number


def _amount(value: Any) -> Fraction:
    return _number(value, positive=False)


Amount = Annotated[Fraction, PlainValidator(_amount), WithJsonSchema({"type": "number", "minimum": 0})]


def _weighed(
    units: dict[str, Fraction],
    bare: dict[Unit, str],
    examples: tuple[str, str],
    *,
    positive: bool = False,
) -> Callable[[Any, ValidationInfo], Fraction]:
    def read(value: Any, info: ValidationInfo) -> Fraction:
        if not isinstance(value, str):
            return _number(value, positive=positive) * units[bare[_unit(info)]]
        found = WEIGHT.fullmatch(value.strip().lower())
        if not found or found[2] not in units or len(found[1]) > 12:
            text = f"{quoted(value)} is not a weight."
            fix = f"Write it as in {' or '.join(json.dumps(one) for one in examples)}."
            raise input_error("weight", text, fix, AtField(fix=f"Enter it as in {' or '.join(examples)}."))
        if positive and not Fraction(found[1]):
            text = f"{quoted(value)} is too small."
            raise input_error("weight", text, "Enter a weight greater than zero.")
        return Fraction(found[1]) * units[found[2]]

    return read


Weight = Annotated[
    Fraction,
    PlainValidator(_weighed(WEIGHT_UNITS, BARE_WEIGHT, ("50 lb", "23 kg"))),
    WithJsonSchema(
        {
            "type": ["string", "number"],
            "description": "lb in an inch job, kg in a mm job, or text with its unit.",
        }
    ),
]
_PER_AREA_SCHEMA = WithJsonSchema(
    {
        "type": ["string", "number"],
        "description": "lb/ft2 in an inch job, kg/m2 in a mm job, or text with its unit.",
    }
)
WeightPerArea = Annotated[
    Fraction,
    PlainValidator(_weighed(WEIGHT_PER_AREA_UNITS, BARE_WEIGHT_PER_AREA, ("2.3 lb/ft2", "11 kg/m2"))),
    _PER_AREA_SCHEMA,
]
PositiveWeightPerArea = Annotated[
    Fraction,
    PlainValidator(
        _weighed(WEIGHT_PER_AREA_UNITS, BARE_WEIGHT_PER_AREA, ("40 lb/ft2", "195 kg/m2"), positive=True)
    ),
    _PER_AREA_SCHEMA,
]


def _two_lengths(
    value: Any, info: ValidationInfo, wrong: Callable[[str], PydanticCustomError], *, positive: bool
) -> tuple[Fraction, Fraction]:
    """A list of two lengths; `wrong` makes the error of another value, which it is given in quotes."""
    if not isinstance(value, list) or len(value) != 2:
        raise wrong(quoted(value))
    read = _length(Fraction(0), positive)
    return read(value[0], info), read(value[1], info)


def _two_lengths_schema(description: str) -> WithJsonSchema:
    two = {"type": "array", "items": LENGTH_SCHEMA, "minItems": 2, "maxItems": 2}
    return WithJsonSchema({**two, "description": description})


def _least_and_most(value: Any, info: ValidationInfo) -> tuple[Fraction, Fraction]:
    fix = "Write two lengths in brackets, the smaller one first: [3, 8]."
    at_field = AtField("{typed} is not two lengths.", "Enter two lengths, the smaller one first: 3; 8.")

    def wrong(typed: str) -> PydanticCustomError:
        return input_error("least-and-most", f"{typed} is not two lengths.", fix, at_field)

    least, most = _two_lengths(value, info, wrong, positive=False)
    if least > most:
        raise input_error("least-and-most", f"the first of {quoted(value)} is the greater.", fix, at_field)
    return least, most


LeastAndMost = Annotated[
    tuple[Fraction, Fraction],
    PlainValidator(_least_and_most),
    _two_lengths_schema("The least and the greatest length."),
]


@dataclass(frozen=True)
class WidthShare:
    """A width that is left to be worked out: a share of the room left over, in proportion to `weight`."""

    weight: Fraction


def _rest_or_length(value: Any, info: ValidationInfo) -> Fraction | WidthShare:
    if isinstance(value, str) and value.strip().lower() == "rest":
        return WidthShare(Fraction(1))
    if isinstance(value, dict):
        raise input_error(
            "share",
            f"{quoted(value)} is not the width of a filler.",
            'Write a length, or "rest" for what the cases leave.',
        )
    return _length(Fraction(0), True)(value, info)


def _width(value: Any, info: ValidationInfo) -> Fraction | WidthShare:
    if isinstance(value, dict):
        if set(value) != {"share"}:
            raise input_error(
                "share", f"{quoted(value)} is not a width.", 'Write a length, "rest" or { share = 2 }.'
            )
        return WidthShare(_number(value["share"], positive=True))
    return _rest_or_length(value, info)


Width = Annotated[
    Fraction | WidthShare,
    PlainValidator(_width),
    WithJsonSchema(
        {
            "anyOf": [
                LENGTH_SCHEMA,
                {"const": "rest"},
                {
                    "type": "object",
                    "properties": {"share": {"type": "number", "exclusiveMinimum": 0}},
                    "required": ["share"],
                    "additionalProperties": False,
                },
            ],
            "description": 'A length, "rest" for what is left over, or { share = 2 } for twice a share.',
        }
    ),
]

FillerWidth = Annotated[
    Fraction | WidthShare,
    PlainValidator(_rest_or_length),
    WithJsonSchema(
        {
            "anyOf": [LENGTH_SCHEMA, {"const": "rest"}],
            "description": 'A length, or "rest" for what the cases leave.',
        }
    ),
]


def _size(value: Any, info: ValidationInfo) -> tuple[Fraction, Fraction]:
    def wrong(typed: str) -> PydanticCustomError:
        return input_error(
            "size",
            f"{typed} is not a sheet size.",
            "Write two lengths in brackets, the one along the grain first: [96, 48].",
            AtField(
                "{typed} is not a sheet size.", "Enter two lengths, the one along the grain first: 96; 48."
            ),
        )

    return _two_lengths(value, info, wrong, positive=True)


SheetSize = Annotated[
    tuple[Fraction, Fraction],
    PlainValidator(_size),
    _two_lengths_schema("Length (along the grain) and width of a sheet."),
]


def _rough(value: Any, info: ValidationInfo) -> Fraction:
    if isinstance(value, str) and (quarters := value.strip().replace(" ", "")) in QUARTERS:
        return QUARTERS[quarters]
    return _length(Fraction(0), True)(value, info)


RoughThickness = Annotated[
    Fraction,
    PlainValidator(_rough),
    WithJsonSchema(
        {"type": ["string", "number"], "description": 'Quarters of an inch such as "4/4", or a length.'}
    ),
]


def _stretch(value: Any, info: ValidationInfo) -> tuple[Fraction, Fraction]:
    def wrong(typed: str) -> PydanticCustomError:
        fix = "Write two lengths in brackets, where it begins and ends: [30, 33]."
        return input_error("stretch", f"{typed} is not a stretch.", fix)

    return _two_lengths(value, info, wrong, positive=False)


Stretch = Annotated[
    tuple[Fraction, Fraction],
    PlainValidator(_stretch),
    _two_lengths_schema("Where it begins and where it ends."),
]


def _board_widths(value: Any, info: ValidationInfo) -> tuple[Fraction, ...]:
    read = _length(Fraction(0), True)
    if not isinstance(value, list):
        return (read(value, info),)
    if not 1 <= len(value) <= MOST_WIDTHS:
        text = f"{len(value)} widths are {'too few' if not value else 'too many'}."
        raise input_error("widths", text, f"Write one width, or a list of at most {MOST_WIDTHS}: [7, 6.5].")
    return tuple(read(one, info) for one in value)


BoardWidths = Annotated[
    tuple[Fraction, ...],
    PlainValidator(_board_widths),
    WithJsonSchema(
        {
            "anyOf": [
                LENGTH_SCHEMA,
                {"type": "array", "items": LENGTH_SCHEMA, "minItems": 1, "maxItems": MOST_WIDTHS},
            ],
            "description": "A width, or a list of widths from the left end to the right.",
        }
    ),
]
