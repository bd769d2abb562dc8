"""The buying list: what the sheet plans take from the rack and what has to be bought."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from ..breakdown.plan import Plan
from ..casework.project import Project
from ..shop.materials import SheetGood


@dataclass(frozen=True)
class Purchase:
    """Sheets of one material. `offcuts` names the pieces used from the rack, each with how many.

    `price` is for one sheet, zero where the job gives none.
    """

    material: str
    name: str
    length: Fraction
    width: Fraction
    sheets: int
    price: Fraction
    offcuts: tuple[tuple[str, int], ...]

    @property
    def money(self) -> Fraction:
        return self.sheets * self.price


def buying_list(project: Project, plans: Mapping[str, Plan]) -> tuple[Purchase, ...]:
    """One line for each material that has a plan, in the plans' order."""
    return tuple(_purchase(project.job.sheets[key], plan) for key, plan in plans.items())


def _purchase(sheet: SheetGood, plan: Plan) -> Purchase:
    used = Counter(one.bin for one in plan.sheets)
    bought = used.pop(sheet.name, 0)
    return Purchase(
        sheet.key,
        sheet.name,
        sheet.sheet_length,
        sheet.sheet_width,
        bought,
        sheet.price,
        tuple(used.items()),
    )
