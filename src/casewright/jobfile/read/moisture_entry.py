"""An entry that says how moist wood is: in percent, or by the air that it lies in."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Annotated, Any

from pydantic import PlainValidator, WithJsonSchema

from ...findings import AtField
from ...lengths.fractions_text import quoted
from ...shop.moisture import Air, Moisture, celsius_of
from ...validation import input_error

LEAST, MOST = Fraction(3), Fraction(25)
"""Percent. Wood in the driest of heated rooms has some 3 %, and above 25 % it is not dry yet: a slip. Common
practice, no source."""

COLDEST, HOTTEST = Fraction(-10), Fraction(50)
"""Degrees Celsius of a shop or a house; 14 to 122 F. Ours."""

DRIEST, DAMPEST = Fraction(5), Fraction(95)
"""Percent of relative humidity in a shop or a house: Table 4-2 of the Wood Handbook goes from 5 to 95."""

AIR = re.compile(
    r"(-?[0-9]{1,3}(?:\.[0-9])?)\s*\u00b0?\s*([CF])\s*,?\s*([0-9]{1,3}(?:\.[0-9])?)\s*%", re.IGNORECASE
)
PERCENT = re.compile(r"([0-9]{1,3}(?:\.[0-9]{1,2})?)\s*%")
FIX = 'Write the percent of moisture of the wood, such as 8, or temperature and humidity: "70 F, 45 %".'


def _moisture(value: Any) -> Moisture:
    if isinstance(value, str):
        text = value.strip()
        if (air := AIR.fullmatch(text)) is not None:
            return _air(text, air)
        if (percent := PERCENT.fullmatch(text)) is not None:
            return _percent(Fraction(percent[1]), value)
    elif isinstance(value, int | float) and not isinstance(value, bool) and abs(value) < 1000:
        return _percent(Fraction(repr(value)), value)
    at_field = AtField(
        fix="Enter the percent of moisture, such as 8, or temperature and humidity: 70 F, 45 %."
    )
    raise input_error("moisture", f"{quoted(value)} does not say how moist wood is.", FIX, at_field)


def _percent(percent: Fraction, said: Any) -> Fraction:
    if LEAST <= percent <= MOST:
        return percent
    fix = f"Enter {LEAST} to {MOST}, or the temperature and humidity of the air, such as “70 F, 45 %”."
    raise input_error("moisture", f"{quoted(said)} is not the moisture of dry wood, in percent.", fix)


def _air(text: str, found: re.Match[str]) -> Air:
    degrees, humidity = Fraction(found[1]), Fraction(found[3])
    celsius = celsius_of(degrees) if found[2].upper() == "F" else degrees
    if not COLDEST <= celsius <= HOTTEST:
        fix = "Enter 14 to 122 F, or -10 to 50 C."
        raise input_error("moisture", f"{quoted(text)} is no temperature of a shop or a house.", fix)
    if not DRIEST <= humidity <= DAMPEST:
        fix = f"Enter a relative humidity of {DRIEST} to {DAMPEST} %."
        raise input_error("moisture", f"{quoted(text)} is no humidity of a shop or a house.", fix)
    return Air(celsius, humidity, text)


WoodMoisture = Annotated[
    Moisture,
    PlainValidator(_moisture),
    WithJsonSchema(
        {
            "anyOf": [{"type": "number"}, {"type": "string"}],
            "description": 'Percent of moisture, or the temperature and humidity of the air: "70 F, 45 %".',
        }
    ),
]
