"""The buying list: what the sheet plans take from the rack and what has to be bought."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from ...casework.project import Project
from ...planner.plan import Plan
from ...shop.materials import SheetGood


@dataclass(frozen=True)
class Purchase:
    """Sheets of one material in one size. `offcuts` names the pieces used from the rack, with how many.

    `name` is what to ask for: `birch ply`, `birch ply (half sheet)`; `bin` is what the plans call such a
    sheet. `price` is for one, zero where the job gives none. `here` counts the sheets that are there
    already, as they are begun; they are not among the `sheets` to buy.
    """

    material: str
    name: str
    bin: str
    length: Fraction
    width: Fraction
    sheets: int
    price: Fraction
    offcuts: tuple[tuple[str, int], ...]
    here: int = 0

    @property
    def money(self) -> Fraction:
        return self.sheets * self.price


def buying_list(
    project: Project, plans: Mapping[str, Plan], begun: Collection[tuple[str, int]] = frozenset()
) -> tuple[Purchase, ...]:
    """A line for each material that has a plan, in the plans' order, and one for each other size used.

    `begun` are the sheets that a saw has touched, each by its material's key and its number: nobody buys them
    again. A piece that a mishap left of such a sheet is bought with it.
    """
    return tuple(
        line
        for key, plan in plans.items()
        for line in _purchases(project, key, plan, {number for material, number in begun if material == key})
    )


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


def _purchases(project: Project, key: str, plan: Plan, begun: Collection[int]) -> Iterator[Purchase]:
    sheet = project.job.sheets[key]
    used = Counter(one.bin for one in plan.sheets)
    there = Counter(one.bin for one in plan.sheets if one.number in begun)
    rack = {piece.name for piece in project.job.shop.rack if piece.material == key}
    offcuts = tuple((name, count) for name, count in used.items() if name in rack)

    def line(name: str, size: tuple[Fraction, Fraction], price: Fraction, *rest: tuple[str, int]) -> Purchase:
        asked_for = _asked_for(sheet, name)
        return Purchase(key, asked_for, name, *size, used[name] - there[name], price, rest, there[name])

    yield line(sheet.name, (sheet.sheet_length, sheet.sheet_width), sheet.price, *offcuts)
    for other in sheet.others:
        if used[other.name]:
            yield line(other.name, (other.length, other.width), other.price)


def _asked_for(sheet: SheetGood, name: str) -> str:
    """What a yard is asked for: another size names its material too, unless its own name does."""
    return name if sheet.name in name else f"{sheet.name} ({name})"
