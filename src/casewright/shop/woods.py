"""Woods: what they weigh and bear, and how much a board's width changes with its moisture."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from functools import cache
from importlib.resources import files
from typing import Any

COEFFICIENTS_FROM, COEFFICIENTS_TO = Fraction(6), Fraction(14)
"""Percent of moisture between which the coefficients of change hold: Wood Handbook, Table 13-5."""

FIBER_SATURATION = Fraction(30)
"""Percent of moisture above which wood does not swell: Wood Handbook, chapter 4."""

_WATER = Fraction("62.4")  # pounds in a cubic foot of it
_GRAVITY_AT = Fraction(12)  # percent of moisture at which specific gravity is given


class Sawn(Enum):
    """How the boards were sawn from the log, which decides how much their width moves."""

    FLAT = "flat"
    QUARTER = "quarter"
    MIXED = "mixed"


@dataclass(frozen=True)
class Wood:
    """A wood by the name it is bought under; `also` are other names for it.

    `gravity` is its specific gravity at 12 % moisture, `stiffness` its modulus of elasticity in a million
    pounds per square inch, `strength` its modulus of rupture in pounds per square inch.
    `radial_shrinkage` and `tangential_shrinkage` are percents from green to ovendry, `radial` and
    `tangential` the share by which those sizes change for each percent of moisture from 6 to 14 %.
    `from_memory` names the figures that were not read in a copy of their `source`.
    """

    name: str
    also: tuple[str, ...]
    gravity: Fraction
    stiffness: Fraction
    strength: Fraction
    radial_shrinkage: Fraction
    tangential_shrinkage: Fraction
    radial: Fraction
    tangential: Fraction
    from_memory: tuple[str, ...]
    source: str

    def coefficient(self, sawn: Sawn) -> Fraction:
        """The share of its width that a board swells with each percent of moisture, from 6 to 14 %."""
        return _across(sawn, self.radial, self.tangential)

    def shrinkage(self, sawn: Sawn) -> Fraction:
        """Percent of its green width that a board shrinks until it is ovendry."""
        return _across(sawn, self.radial_shrinkage, self.tangential_shrinkage)

    def weight(self, thickness: Fraction) -> Fraction:
        """Pounds per square foot of a board that thick, in inches, at 12 % moisture, to a hundredth."""
        heavy = self.gravity * _WATER * (1 + _GRAVITY_AT / 100) * thickness / 12
        return Fraction(round(heavy * 100), 100)


def _across(sawn: Sawn, radial: Fraction, tangential: Fraction) -> Fraction:
    """The figure for the width: tangential in flatsawn boards, radial in quartersawn, else their mean."""
    return {
        Sawn.FLAT: tangential,
        Sawn.QUARTER: radial,
        Sawn.MIXED: (radial + tangential) / 2,
    }[sawn]


@dataclass(frozen=True)
class WidthChange:
    """How much a width grows, in inches; less than zero where it shrinks.

    `by_shrinkage` tells that it was worked out from the total shrinkage, as outside 6 to 14 %.
    """

    amount: Fraction
    by_shrinkage: bool


def change_of_width(
    width: Fraction, wood: Wood, sawn: Sawn, before: Fraction, after: Fraction
) -> WidthChange:
    """How much a board `width` inches wide changes from `before` to `after` percent of moisture.

    Wood Handbook, chapter 13: width x coefficient x change within 6 to 14 % (Equation 13-2), else by the
    total shrinkage (Equation 13-3), where moisture above fiber saturation counts as that.
    """
    if all(COEFFICIENTS_FROM <= moisture <= COEFFICIENTS_TO for moisture in (before, after)):
        return WidthChange(width * wood.coefficient(sawn) * (after - before), False)
    start, end = (min(moisture, FIBER_SATURATION) for moisture in (before, after))
    divisor = FIBER_SATURATION * 100 / wood.shrinkage(sawn) - FIBER_SATURATION + start
    return WidthChange(width * (end - start) / divisor, True)


@cache
def known_woods() -> Mapping[str, Wood]:
    """The woods that come with the program, by name."""
    text = files("casewright.shop").joinpath("data", "woods.toml").read_text(encoding="utf-8")
    return {name: _wood(name, given) for name, given in tomllib.loads(text, parse_float=Fraction).items()}


def _wood(name: str, given: Mapping[str, Any]) -> Wood:
    lists = {key: tuple(given[key]) for key in ("also", "from_memory")}
    return Wood(name, **{**given, **lists, "strength": Fraction(given["strength"])})


def wood_called(name: str) -> Wood | None:
    """The wood of that name or other name, small and capital letters alike; None if there is none."""
    return _by_any_name().get(" ".join(name.split()).casefold())


def wood_names() -> tuple[str, ...]:
    """Every name a wood can be called by."""
    return tuple(name for wood in known_woods().values() for name in (wood.name, *wood.also))


@cache
def _by_any_name() -> Mapping[str, Wood]:
    woods = known_woods().values()
    return {name.casefold(): wood for wood in woods for name in (wood.name, *wood.also)}
