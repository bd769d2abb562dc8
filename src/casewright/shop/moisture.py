"""The moisture of wood: what it comes to in air, and what it is taken to be in the shop and in the house."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from functools import cache
from importlib.resources import files

_TENTHS = 10


@dataclass(frozen=True)
class Air:
    """Air that wood lies in: its temperature in degrees Celsius, its relative humidity in percent.

    `written` is how the maker says it.
    """

    celsius: Fraction
    humidity: Fraction
    written: str

    @property
    def moisture(self) -> Fraction:
        """Percent of moisture that wood comes to in it, to a tenth, as the Handbook's table gives it."""
        return Fraction(round(equilibrium_moisture(self.celsius, self.humidity) * _TENTHS), _TENTHS)


def celsius_of(fahrenheit: Fraction) -> Fraction:
    """Degrees Celsius from degrees Fahrenheit."""
    return (fahrenheit - 32) * 5 / 9


def equilibrium_moisture(celsius: Fraction, humidity: Fraction) -> Fraction:
    """Percent of moisture that wood comes to in air of that temperature and relative humidity in percent.

    The Hailwood-Horrobin equation of the Wood Handbook (Equation 4-5, which its Table 4-2 is made of), with
    the constants for degrees Celsius given by Simpson, FPL-RN-0268 (1998).
    """
    t, h = celsius, humidity / 100
    w = 349 + Fraction("1.29") * t + Fraction("0.0135") * t**2
    k = Fraction("0.805") + Fraction("0.000736") * t - Fraction("0.00000273") * t**2
    k1 = Fraction("6.27") - Fraction("0.00938") * t - Fraction("0.000303") * t**2
    k2 = Fraction("1.91") + Fraction("0.0407") * t - Fraction("0.000293") * t**2
    once, twice = k1 * k * h, k1 * k2 * (k * h) ** 2
    return 1800 / w * (k * h / (1 - k * h) + (once + 2 * twice) / (1 + once + twice))


class Region(Enum):
    """Where the house stands, as the Wood Handbook divides the United States."""

    MOST = "most"
    DRY_SOUTHWEST = "dry southwest"
    DAMP_COAST = "damp coast"


@dataclass(frozen=True)
class HouseMoisture:
    """What wood has in the houses of a region: percent on the average, at the driest and at the dampest."""

    average: Fraction
    dry: Fraction
    damp: Fraction
    words: str
    source: str


@cache
def house_moistures() -> Mapping[Region, HouseMoisture]:
    """The moisture of wood in the houses of each region."""
    text = files("casewright.shop").joinpath("data", "climate.toml").read_text(encoding="utf-8")
    return {
        Region(name): HouseMoisture(
            Fraction(given["average"]),
            Fraction(given["dry"]),
            Fraction(given["damp"]),
            given["words"],
            given["source"],
        )
        for name, given in tomllib.loads(text).items()
    }


Moisture = Fraction | Air
"""Percent of moisture, or the air that the wood lies in."""


@dataclass(frozen=True)
class Climate:
    """The moisture of the wood in the shop, and in the house when it is driest and dampest.

    What the maker does not say (None) is what is usual in his region.
    """

    region: Region = Region.MOST
    shop: Moisture | None = None
    house_dry: Moisture | None = None
    house_damp: Moisture | None = None

    @property
    def usual(self) -> HouseMoisture:
        """What is usual in the region."""
        return house_moistures()[self.region]

    @property
    def in_shop(self) -> Fraction:
        """Percent of moisture in the shop."""
        return _percent(self.shop, self.usual.average)

    @property
    def at_driest(self) -> Fraction:
        """Percent of moisture in the house at its driest."""
        return _percent(self.house_dry, self.usual.dry)

    @property
    def at_dampest(self) -> Fraction:
        """Percent of moisture in the house at its dampest."""
        return _percent(self.house_damp, self.usual.damp)

    @property
    def left_out(self) -> tuple[str, ...]:
        """Those of the three that are not the maker's own, by their names in a job file."""
        return tuple(name for name in ("shop", "house_dry", "house_damp") if getattr(self, name) is None)

    @property
    def assumed(self) -> bool:
        """Whether any of the three is not the maker's own."""
        return bool(self.left_out)


USUAL_CLIMATE = Climate()
"""What is usual in most of the United States."""


def _percent(said: Moisture | None, usual: Fraction) -> Fraction:
    if said is None:
        return usual
    return said.moisture if isinstance(said, Air) else said
