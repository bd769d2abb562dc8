"""What to buy and what it comes to: sheets as the plans need them, and hardware counted off the parts."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from ...casework.project import Project
from ...planner.plan import Plan
from ...workshop.hardware import shelf_pins
from ...workshop.sheets.purchases import Purchase, buying_list


@dataclass(frozen=True)
class Buying:
    """The whole list."""

    sheets: tuple[Purchase, ...]
    shelf_pins: int

    @property
    def count(self) -> int:
        """How many sheets in all."""
        return sum(line.sheets for line in self.sheets)

    @property
    def total(self) -> Fraction:
        """What all sheets come to; those without a price count for nothing."""
        return sum((line.money for line in self.sheets), Fraction(0))


def buying(project: Project, plans: Mapping[str, Plan]) -> Buying:
    """What the plans (by material key) need; offcuts on the rack cost nothing here."""
    return Buying(buying_list(project, plans), shelf_pins(project))
