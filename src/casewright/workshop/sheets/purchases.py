"""The buying list: what the sheet plans take from the rack and what has to be bought."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from ...casework.project import Project
from ...planner.plan import Plan
from ...shop.materials import SheetGood


@dataclass(frozen=True)
class Purchase:
    """Sheets of one material in one size. `offcuts` names the pieces used from the rack, with how many.

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
    """A line for each material that has a plan, in the plans' order, and one for each other size used."""
    return tuple(line for key, plan in plans.items() for line in _purchases(project.job.sheets[key], plan))


def left_on_the_rack(project: Project, material: str, plan: Plan) -> tuple[str, ...]:
    """The rack pieces of a material that its plan does not use at all."""
    used = {sheet.bin for sheet in plan.sheets}
    rack = (piece for piece in project.job.shop.rack if piece.material == material)
    return tuple(piece.name for piece in rack if piece.name not in used)


def sheets_of(purchases: Iterable[Purchase]) -> int:
    """How many sheets there are to buy in all."""
    return sum(one.sheets for one in purchases)


def money_of(purchases: Iterable[Purchase]) -> Fraction:
    """The price of all sheets; those without a price count as zero."""
    return sum((one.money for one in purchases), Fraction(0))


@dataclass(frozen=True, order=True)
class Bought:
    """What is bought in all: the money first, then the sheets."""

    money: Fraction
    sheets: Fraction | int

    @classmethod
    def nothing(cls) -> Bought:
        return cls(Fraction(0), 0)

    def less_than(self, before: Bought) -> Bought:
        """What is saved against another purchase."""
        return Bought(before.money - self.money, before.sheets - self.sheets)

    def for_trouble(self, trouble: int) -> Bought:
        """What is saved for each unit of the trouble that saving it is; money and sheets, as fractions."""
        return Bought(self.money / trouble, Fraction(self.sheets, trouble))


def bought_in_all(purchases: Iterable[Purchase]) -> Bought:
    lines = tuple(purchases)
    return Bought(money_of(lines), sheets_of(lines))


def saved_by_moving(good: SheetGood, alone: Plan, plan: Plan) -> Bought:
    """What a plan of one material saves against another that leaves parts alone; the money has in it what
    pieces of the rack are worth, the sheets are those that are bought."""
    before, after = (sum(sheet.bin == good.name for sheet in one.sheets) for one in (alone, plan))
    return Bought(alone.figures.money - plan.figures.money, before - after)


def _purchases(sheet: SheetGood, plan: Plan) -> Iterator[Purchase]:
    used = Counter(one.bin for one in plan.sheets)
    whole = used.pop(sheet.name, 0)
    others = {other.name: used.pop(other.name, 0) for other in sheet.others}
    yield Purchase(
        sheet.key, sheet.name, sheet.sheet_length, sheet.sheet_width, whole, sheet.price, tuple(used.items())
    )
    for other in sheet.others:
        if count := others[other.name]:
            yield Purchase(sheet.key, other.name, other.length, other.width, count, other.price, ())
