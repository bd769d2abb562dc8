"""Sheet goods by the name on the ticket and by what the caliper says."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import sqrt


@dataclass(frozen=True)
class Spread:
    """A size that varies: its middle (exact, inches) and standard deviation (inches)."""

    middle: Fraction
    deviation: float


@dataclass(frozen=True)
class OtherSize:
    """Another size in which the same sheet good is to be had; `count` None is as many as wanted."""

    name: str
    length: Fraction
    width: Fraction
    price: Fraction = Fraction(0)
    count: int | None = None


@dataclass(frozen=True)
class SheetGood:
    """One material the maker buys in sheets.

    `nominal` is the thickness it is sold as, `readings` what a caliper found; without readings
    the `usual` thickness and deviation of its kind stand in. `trim` is the strip along each
    edge of a sheet that is not good enough for a part. `weight` is in pounds per square foot,
    `price` per sheet in the job's money. `grain` is True where the face has a direction.
    `others` are further sizes that can be bought besides whole sheets.
    """

    key: str
    name: str
    nominal: Fraction
    sheet_length: Fraction
    sheet_width: Fraction
    usual: Spread
    readings: tuple[Fraction, ...] = ()
    grain: bool = True
    trim: Fraction = Fraction(0)
    price: Fraction = Fraction(0)
    weight: Fraction = Fraction(0)
    others: tuple[OtherSize, ...] = ()

    @property
    def thickness(self) -> Fraction:
        """The mean of the caliper readings, or the usual thickness where there are none."""
        if self.readings:
            return sum(self.readings, Fraction(0)) / len(self.readings)
        return self.usual.middle

    @property
    def deviation(self) -> float:
        """Standard deviation of the thickness, inches: of the readings when there are two or more."""
        if len(self.readings) < 2:
            return self.usual.deviation
        mean = self.thickness
        squares = sum((reading - mean) ** 2 for reading in self.readings)
        return sqrt(squares / (len(self.readings) - 1))


@dataclass(frozen=True)
class Offcut:
    """A piece on the rack, of a material by its key. `length` runs along the grain."""

    name: str
    material: str
    length: Fraction
    width: Fraction
    count: int = 1
    worth: Fraction = Fraction(0)
