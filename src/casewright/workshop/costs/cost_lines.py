"""The lines of what a job costs, and their sums."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from functools import cached_property

from ...lengths.rounding import nearest

CENT = Fraction(1, 100)


class CostKind(Enum):
    """What a line of the costs is about, in the order in which the lines stand."""

    MATERIAL = "materials"
    HARDWARE = "hardware"
    GLUE = "glue"
    FINISH = "finish"
    BLADES = "blades"
    HOURS = "hours"

    @property
    def is_marked_up(self) -> bool:
        """Whether a quote puts the markup on it: what is bought and stays in the cases."""
        return self not in (CostKind.BLADES, CostKind.HOURS)


@dataclass(frozen=True, slots=True)
class CostLine:
    """One line: what it is, how much of it, what it comes to, and what that follows from.

    `money` is None for what has no price, and `enter` then says which entry of the job file would give it
    one. `hours` are those of a line about time.
    """

    kind: CostKind
    what: str
    amount: str
    money: Fraction | None
    follows: str = ""
    enter: str = ""
    hours: Fraction = Fraction(0)


def cents(money: Fraction) -> Fraction:
    """Money to the cent, as it is printed, so that sums add up."""
    return nearest(money, CENT)


@dataclass(frozen=True)
class JobCosts:
    """What a job costs, line by line. `hourly` is what an hour counts as, `markup` a percentage."""

    lines: tuple[CostLine, ...]
    hourly: Fraction
    markup: Fraction

    @property
    def unpriced(self) -> tuple[CostLine, ...]:
        """The lines without a price: every sum lacks them."""
        return tuple(line for line in self.lines if line.money is None)

    @property
    def is_complete(self) -> bool:
        """Whether everything has a price."""
        return not self.unpriced

    def of(self, kind: CostKind) -> Fraction:
        """What the lines of one kind come to, as far as they have a price."""
        return _sum(line for line in self.lines if line.kind is kind)

    @cached_property
    def bought(self) -> Fraction:
        """Materials, hardware, glue and finish."""
        return _sum(line for line in self.lines if line.kind.is_marked_up)

    @cached_property
    def hours(self) -> Fraction:
        """All hours that are known."""
        return sum((line.hours for line in self.lines), Fraction(0))

    @cached_property
    def total(self) -> Fraction:
        """What the job costs the shop, its hours counted."""
        return _sum(self.lines)

    @property
    def on_top(self) -> Fraction:
        """The markup in money."""
        return cents(self.bought * self.markup / 100)

    @property
    def quote(self) -> Fraction:
        """What to ask for the job: what is bought with the markup, the blades and the hours."""
        return self.total + self.on_top


def _sum(lines: Iterable[CostLine]) -> Fraction:
    return sum((line.money for line in lines if line.money is not None), Fraction(0))
