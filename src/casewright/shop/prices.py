"""What the maker pays for what no sheet or board has in it: hardware, glue, finish and sharp blades.

Every price is in the job's money, and None where the job does not tell it: what has no price is said to
have none, never taken as free. A price of zero is the maker's own word that it costs nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

COATS = 2
"""Coats of finish where the job does not say. Common practice, no source."""


class Surfaces(Enum):
    """Which faces of the parts are finished."""

    ALL = "inside and out"  # both faces and all edges of every part
    FRONTS = "fronts"  # doors, drawer fronts, face frames, fillers and toe kicks, all round


@dataclass(frozen=True)
class GluePrice:
    """A bottle of glue: its price, and the square inches of joint that it covers, spread once."""

    price: Fraction | None = None
    covers: Fraction | None = None


@dataclass(frozen=True)
class FinishPrice:
    """A can of finish: its price, and the square inches that it covers with one coat.

    `per_hour` is how many square inches are coated in an hour, one coat of them, and `not_on` the keys of
    materials that get no finish, as they are bought finished or stay bare.
    """

    name: str = "finish"
    price: Fraction | None = None
    covers: Fraction | None = None
    coats: int = COATS
    surfaces: Surfaces = Surfaces.ALL
    per_hour: Fraction | None = None
    not_on: tuple[str, ...] = ()


@dataclass(frozen=True)
class Sharpening:
    """What it costs to have a blade sharpened, or to replace it, and the inches of cut that it lasts."""

    price: Fraction | None = None
    lasts: Fraction | None = None


@dataclass(frozen=True)
class Prices:
    """The prices of a job. `markup` is the percentage put on materials in a quote; `other_hours` are those
    that no bench sees: drawing, fetching, delivering, hanging. `pin`, `screw` and `dowel` are for one."""

    markup: Fraction = Fraction(0)
    other_hours: Fraction = Fraction(0)
    pin: Fraction | None = None
    screw: Fraction | None = None
    dowel: Fraction | None = None
    glue: GluePrice = GluePrice()
    finish: FinishPrice | None = None
    blade: Sharpening = Sharpening()
    dado_stack: Sharpening = Sharpening()

    @property
    def are_told(self) -> bool:
        """Whether the job tells anything of them."""
        return self != NO_PRICES


NO_PRICES = Prices()
