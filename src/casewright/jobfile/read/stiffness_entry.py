"""An entry that says how stiff a panel is: its modulus of elasticity, with its unit."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Annotated, Any

from pydantic import PlainValidator, WithJsonSchema

from ...findings import AtField
from ...lengths.fractions_text import quoted
from ...lengths.quantities import MODULUS_UNITS
from ...validation import input_error

LEAST, MOST = Fraction(50_000), Fraction(5_000_000)
"""Pounds per square inch: foam boards lie below, no wood above. A slip of the unit is caught. Ours."""

MODULUS = re.compile(r"([0-9][0-9 ,]{0,12})\s*([a-z]+(?:/mm2)?)")
_UNITS = {name.lower(): name for name in MODULUS_UNITS}


def _modulus(value: Any) -> Fraction:
    found = MODULUS.fullmatch(value.strip().lower()) if isinstance(value, str) else None
    unit = _UNITS.get(found[2]) if found else None
    if found is None or unit is None:
        text = f"{quoted(value)} is not a modulus of elasticity."
        at_field = AtField(fix="Enter it with its unit: 950000 psi or 2500 N/mm2.")
        raise input_error(
            "stiffness", text, 'Write it with its unit: "950000 psi" or "2500 N/mm2".', at_field
        )
    modulus = Fraction(re.sub("[ ,]", "", found[1])) * MODULUS_UNITS[unit]
    if not LEAST <= modulus <= MOST:
        few, many = (f"{round(one / MODULUS_UNITS[unit]):,}" for one in (LEAST, MOST))
        fix = f"Enter {few} to {many} {unit}, as the maker of the panel gives it."
        raise input_error("stiffness", f"no panel has a modulus of {quoted(value)}.", fix)
    return modulus


PanelModulus = Annotated[
    Fraction,
    PlainValidator(_modulus),
    WithJsonSchema(
        {
            "type": "string",
            "description": 'A modulus of elasticity with its unit: "950000 psi" or "2500 N/mm2".',
        }
    ),
]
