"""Cut the parts still needed from the wood on hand, and find what must be bought for them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from ...casework.parts.part import Part
from ...casework.project import Project
from ...planner.engine import MaxIterations, Stop
from ...planner.plan import Plan, PlanStatus
from ...planner.problem import Bin, Problem
from ...planner.solve import solve_whole
from ...workshop.sheets.cut_problems import bins_of, cut_problem
from ..facts import Blank, Facts, Origin
from ..must_buy import is_soon_ruled_out
from ..sound_wood import sound_pieces

BUYING = 1000
"""Times its price that a new sheet counts, so that the planner buys only as a last resort."""

NEW = "new "
"""How the planner's name of a sheet to be bought begins."""

SEARCH = MaxIterations(60)
"""Search effort for one layout, the same on every run: one question asks for some twenty layouts of the few
parts of one mishap, and nearly all of a longer search only makes better leftovers."""

MANY = 8
SHORT_SEARCH = MaxIterations(30)
"""Parts above which a repair is searched for with less effort, and that effort."""

WORTH = {
    Origin.OFFCUT: Fraction(1, 4),
    Origin.PIECE: Fraction(1, 2),
    Origin.SHEET: Fraction(1),
    Origin.SPOILED: Fraction(0),
}
"""What wood on hand is worth, as a share of a new sheet's price by area (our judgement, no source)."""


@dataclass(frozen=True)
class SheetsToBuy:
    """Sheets of one size to buy: the material's key, the size's name, what each costs, how many."""

    material: str
    name: str
    price: Fraction
    count: int


@dataclass(frozen=True)
class Finish:
    """How all parts still needed are cut: problems and plans by material.

    `bought` lists the sheets to buy, `cuts` the blank each part comes from, `wood` is the worth of the
    wood on hand that is used up. `proved` is True when no plan can buy less.
    """

    problems: Mapping[str, Problem]
    plans: Mapping[str, Plan]
    bought: tuple[SheetsToBuy, ...]
    cuts: Mapping[str, str]
    wood: Fraction
    proved: bool

    @property
    def money(self) -> Fraction:
        """What the sheets to buy cost."""
        return sum((one.price * one.count for one in self.bought), Fraction(0))


def finish(
    project: Project, parts: Iterable[Part], blanks: Iterable[Blank], *, buy: bool = True
) -> Finish | None:
    """Cut `parts` from `blanks` and, with `buy`, from new sheets; None when that cannot be done."""
    by_material: dict[str, list[Part]] = {}
    for part in parts:
        by_material.setdefault(part.material, []).append(part)
    at_hand: dict[str, list[Blank]] = {material: [] for material in by_material}
    for sound in (sound for blank in blanks for sound in sound_pieces(blank)):
        if sound.material in at_hand:
            at_hand[sound.material].append(sound)
    if not buy and any(is_soon_ruled_out(project, by_material[key], at_hand[key]) for key in by_material):
        return None
    found: dict[str, tuple[Problem, Plan]] = {}
    for material in sorted(by_material, key=lambda key: _spare(project, by_material[key], at_hand[key])):
        one = _one(project, material, by_material[material], at_hand[material], buy)
        if one is None:
            return None
        found[material] = one
    bought: list[SheetsToBuy] = []
    cuts: dict[str, str] = {}
    wood, proved = Fraction(0), True
    for material in by_material:
        problem, plan = found[material]
        names = {bin_.name for bin_ in problem.bins if not bin_.offcut}
        used = Counter(sheet.bin for sheet in plan.sheets if sheet.bin in names)
        priced = project.job.sheets[material].price != 0
        bought += [
            SheetsToBuy(
                material,
                name.removeprefix(NEW),
                problem.bin(name).cost / BUYING if priced else Fraction(0),
                count,
            )
            for name, count in used.items()
        ]
        wood += sum(
            (problem.bin(sheet.bin).cost for sheet in plan.sheets if sheet.bin not in names), Fraction(0)
        )
        cuts |= {piece.item: sheet.bin for sheet, piece in plan.parts() if piece.item}
        # Proved when the bound on cost leaves no room for one sheet fewer.
        spent = sum((problem.bin(name).cost * count for name, count in used.items()), Fraction(0))
        least = min((problem.bin(name).cost for name in names), default=Fraction(0))
        proved = proved and (not used or plan.bound > spent - least)
    problems = {material: found[material][0] for material in by_material}
    plans = {material: found[material][1] for material in by_material}
    return Finish(problems, plans, tuple(bought), cuts, wood, proved)


def _spare(project: Project, parts: Iterable[Part], blanks: Iterable[Blank]) -> Fraction:
    """The area of the blanks that the parts leave: the least first, so that what fails does so soon."""
    taken = sum((length * width for length, width, _ in map(project.dimensions, parts)), Fraction(0))
    return sum((blank.length * blank.width for blank in blanks), Fraction(0)) - taken


def _one(
    project: Project, material: str, parts: list[Part], at_hand: list[Blank], buy: bool
) -> tuple[Problem, Plan] | None:
    sheet = project.job.sheets[material]
    full = sheet.price or sheet.sheet_length * sheet.sheet_width
    per_area = full / (sheet.sheet_length * sheet.sheet_width)
    bins = [_bin(blank, per_area) for blank in at_hand]
    if buy:
        bins += [_new(bin_) for bin_ in bins_of(sheet, project.job.shop) if not bin_.offcut]
    if not bins:
        return None
    problem = cut_problem(project, material, parts, tuple(bins))
    search = SEARCH if len(parts) <= MANY else SHORT_SEARCH
    plan = solve_whole(problem, search)
    if problem.one_piece and (plan is None or _bought(problem, plan)):
        return _rather_parted(problem, plan, search)
    return (problem, plan) if plan else None


def _rather_parted(problem: Problem, plan: Plan | None, search: Stop) -> tuple[Problem, Plan] | None:
    """The plan, or one with the fronts each by itself where that buys less: rather does the grain not run on
    over them than that a sheet is bought for it. What is proved holds for either."""
    freely = replace(problem, one_piece=())
    other = solve_whole(freely, search)
    if plan is None or other is None:
        return (freely, other) if other else (problem, plan) if plan else None
    if _bought(problem, other) < _bought(problem, plan):
        return freely, other
    bound = min(plan.bound, other.bound)
    status = plan.status if bound == plan.bound else PlanStatus.OPEN
    fewest = min(plan.bound_sheets, other.bound_sheets)
    return problem, replace(plan, bound=bound, bound_sheets=fewest, status=status)


def _bought(problem: Problem, plan: Plan) -> Fraction:
    """What the new sheets of a plan cost."""
    bins = map(problem.bin, (sheet.bin for sheet in plan.sheets))
    return sum((bin_.cost for bin_ in bins if not bin_.offcut), Fraction(0))


def _bin(blank: Blank, per_area: Fraction) -> Bin:
    worth = blank.length * blank.width * per_area * WORTH[blank.origin]
    return Bin(blank.name, blank.length, blank.width, count=1, price=worth, trim=blank.trim, offcut=True)


def _new(whole: Bin) -> Bin:
    return replace(whole, name=f"{NEW}{whole.name}", price=whole.cost * BUYING)


def wood_on_hand(project: Project, facts: Facts) -> tuple[Blank, ...]:
    """All wood there is to cut from: blanks and spoiled parts."""
    return (*facts.blanks, *facts.remnants(project))
