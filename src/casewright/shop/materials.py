"""Sheet goods and solid wood, with their nominal and measured thickness, and offcuts."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from math import sqrt

from .rough_boards import BoughtAsBoards
from .woods import Sawn, Wood


class PanelKind(Enum):
    """What a sheet good is made of, which says how stiff it is."""

    FIR_PLYWOOD = "fir plywood"
    HARDWOOD_PLYWOOD = "hardwood plywood"
    BIRCH_PLYWOOD = "birch plywood"
    MDF = "MDF"
    PARTICLEBOARD = "particleboard"
    MELAMINE = "melamine-faced board"
    HARDBOARD = "hardboard"

    @property
    def is_faced(self) -> bool:
        """Whether it comes with a face that takes no finish. Common practice, no source."""
        return self is PanelKind.MELAMINE


@dataclass(frozen=True)
class Spread:
    """A size that varies: its mean, `middle` (exact), and standard deviation, both in inches."""

    middle: Fraction
    deviation: float


@dataclass(frozen=True)
class OtherSize:
    """Another size in which the same sheet good can be bought; `count` None means no limit."""

    name: str
    length: Fraction
    width: Fraction
    price: Fraction = Fraction(0)
    count: int | None = None


@dataclass(frozen=True)
class SheetGood:
    """One material the maker buys in sheets, or boards of solid wood that are sold by size.

    `nominal` is the thickness it is sold as, `readings` the caliper readings; without readings, the `usual`
    thickness and deviation of its kind apply. `trim` is the width to cut off each edge of a sheet.
    `weight` is in pounds per square foot, `price` per sheet in the job's money. `grain` is True if the
    face has a direction. `others` are sizes that can be bought besides whole sheets. `wood` is what solid
    wood is, sawn from the log as `sawn` says; None for panels, which hardly move. Solid wood that is bought
    as rough `boards` has a board of the usual size for its sheet, at the price of one.
    `kind` is what a panel is made of, `stiffness` its modulus of elasticity in pounds per square inch by the
    maker's own figure; None where they are not known, or follow from the wood.
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
    wood: Wood | None = None
    sawn: Sawn = Sawn.FLAT
    boards: BoughtAsBoards | None = None
    kind: PanelKind | None = None
    stiffness: Fraction | None = None

    @property
    def thickness(self) -> Fraction:
        """The mean of the caliper readings, or the usual thickness if there are none."""
        if self.readings:
            return sum(self.readings, Fraction(0)) / len(self.readings)
        return self.usual.middle

    @property
    def square_inch_price(self) -> Fraction:
        """What a square inch of a whole sheet costs: sheets of several sizes compare by it."""
        return self.price / (self.sheet_length * self.sheet_width)

    @property
    def deviation(self) -> float:
        """Standard deviation of the thickness, inches: of two or more readings, otherwise the usual one."""
        if len(self.readings) < 2:
            return self.usual.deviation
        mean = self.thickness
        squares = sum((reading - mean) ** 2 for reading in self.readings)
        return sqrt(squares / (len(self.readings) - 1))


@dataclass(frozen=True)
class Offcut:
    """A piece on the rack; `material` is its key in the job, `length` is along the grain."""

    name: str
    material: str
    length: Fraction
    width: Fraction
    count: int = 1
    worth: Fraction = Fraction(0)


SQUARE_INCHES_IN_A_FOOT = 144


def per_square_inch(weight_per_foot: Fraction) -> Fraction:
    """The weight of a sheet good in pounds per square inch, from pounds per square foot."""
    return weight_per_foot / SQUARE_INCHES_IN_A_FOOT
