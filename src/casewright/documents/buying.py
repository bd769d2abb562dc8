"""What to buy and what it comes to, read off the sheet plans."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from ..breakdown.plan import Plan
from ..casework.parts import Role
from ..casework.project import Project

PINS_TO_A_SHELF = 4
"""Common practice: a pin near each corner."""


@dataclass(frozen=True)
class SheetLine:
    """So many sheets of one material; `rack` names the offcuts used instead of buying more."""

    material: str
    name: str
    nominal: Fraction
    length: Fraction
    width: Fraction
    count: int
    price: Fraction
    rack: tuple[str, ...]

    @property
    def total(self) -> Fraction:
        return self.count * self.price


@dataclass(frozen=True)
class Buying:
    """The whole list."""

    sheets: tuple[SheetLine, ...]
    shelf_pins: int

    @property
    def total(self) -> Fraction:
        return sum((line.total for line in self.sheets), Fraction(0))


def buying(project: Project, plans: Mapping[str, Plan]) -> Buying:
    """What the plans (by material key) need; offcuts on the rack cost nothing here."""
    lines: list[SheetLine] = []
    for material, plan in plans.items():
        sheet = project.job.sheets[material]
        rack = {offcut.name for offcut in project.job.shop.rack if offcut.material == material}
        used = tuple(placed.bin for placed in plan.sheets if placed.bin in rack)
        lines.append(
            SheetLine(
                material,
                sheet.name,
                sheet.nominal,
                sheet.sheet_length,
                sheet.sheet_width,
                len(plan.sheets) - len(used),
                sheet.price,
                used,
            )
        )
    shelves = sum(part.role is Role.ADJUSTABLE_SHELF for part in project)
    return Buying(tuple(lines), PINS_TO_A_SHELF * shelves)
