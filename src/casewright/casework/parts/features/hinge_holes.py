"""What is bored for cup hinges: the cups in a door, and the screws of each plate in a side or divider."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import ClassVar

from ....sizes.ledger import Sizes
from .hole_line import HoleLine

SCREWS_TAKE = Fraction(1, 16)
"""How far a cup or a plate may be out, either way, inches: a hinge is set by 2 mm sideways and in height by
its screws (from memory), and a little of that is left for hanging the door."""

PLATE_COVERS = Fraction(1, 4)
"""How far beyond its screws a plate covers the wood, inches (from memory)."""


@dataclass(frozen=True, slots=True)
class HingeCups(HoleLine):
    """The cups of a door's hinges, along the edge that it is hung on."""

    called_so: ClassVar[str] = "hinge cup"
    code: ClassVar[str] = "cups"

    @property
    def set_by_screws(self) -> Fraction:
        return SCREWS_TAKE

    def called(self, sizes: Sizes, tag: str) -> str:
        """`3 hinge cups`."""
        number = self.row(sizes).number
        return f"{number} hinge cup{'' if number == 1 else 's'}"


@dataclass(frozen=True, slots=True)
class HingePlate(HoleLine):
    """The two screw holes of one hinge's plate."""

    called_so: ClassVar[str] = "hinge plate hole"
    code: ClassVar[str] = "plates"

    @property
    def set_by_screws(self) -> Fraction:
        return SCREWS_TAKE

    @property
    def covered_within(self) -> Fraction:
        return PLATE_COVERS
