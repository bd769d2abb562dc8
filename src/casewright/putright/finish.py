"""How the parts still to be made come out of the wood in reach, and what must be bought for them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from ..bench.cutlist import bins_of, cut_problem
from ..breakdown.engine import MaxIterations
from ..breakdown.plan import Plan, Status
from ..breakdown.problem import Bin, Problem
from ..breakdown.solve import solve
from ..casework.parts import Part
from ..casework.project import Project
from .facts import Blank, Facts, Origin

BUYING = 1000
"""How much dearer a sheet to be bought counts than one at hand: the planner buys last."""

SEARCH = MaxIterations(600)
"""Work for one question; enough for the few parts of one mishap, and the same every time."""

WORTH = {
    Origin.OFFCUT: Fraction(1, 4),
    Origin.PIECE: Fraction(1, 2),
    Origin.SHEET: Fraction(1),
    Origin.SPOILED: Fraction(0),
}
"""What wood at hand counts of its share of a new sheet's price (our judgement, no source)."""


@dataclass(frozen=True)
class Finish:
    """Problems and plans by material for what is to be made; `bought` counts sheets to buy by material.

    `cuts` says which blank each part comes from. `proved` is True when no plan buys less.
    """

    problems: Mapping[str, Problem]
    plans: Mapping[str, Plan]
    bought: Mapping[str, int]
    cuts: Mapping[str, str]
    wood: Fraction
    proved: bool

    def money(self, project: Project) -> Fraction:
        """What must be spent."""
        return sum((project.job.sheets[key].price * count for key, count in self.bought.items()), Fraction(0))


def finish(
    project: Project, parts: Iterable[Part], blanks: Iterable[Blank], *, buy: bool = True
) -> Finish | None:
    """Cut `parts` from `blanks` and, with `buy`, new sheets; None when it cannot be done."""
    by_material: dict[str, list[Part]] = {}
    for part in parts:
        by_material.setdefault(part.material, []).append(part)
    problems: dict[str, Problem] = {}
    plans: dict[str, Plan] = {}
    bought: dict[str, int] = {}
    cuts: dict[str, str] = {}
    wood, proved = Fraction(0), True
    at_hand = list(blanks)
    for material, wanted in by_material.items():
        found = _one(project, material, wanted, at_hand, buy)
        if found is None:
            return None
        problem, plan = found
        problems[material], plans[material] = problem, plan
        names = {bin_.name for bin_ in problem.bins if not bin_.offcut}
        new = sum(1 for sheet in plan.sheets if sheet.bin in names)
        if new:
            bought[material] = new
        wood += sum(
            (problem.bin(sheet.bin).cost for sheet in plan.sheets if sheet.bin not in names), Fraction(0)
        )
        cuts |= {piece.item: sheet.bin for sheet, piece in plan.parts() if piece.item}
        cost = next((bin_.cost for bin_ in problem.bins if bin_.name in names), Fraction(0))
        proved = proved and (not new or plan.bound > cost * (new - 1))
    return Finish(problems, plans, bought, cuts, wood, proved)


def _one(
    project: Project, material: str, parts: list[Part], blanks: list[Blank], buy: bool
) -> tuple[Problem, Plan] | None:
    sheet = project.job.sheets[material]
    full = sheet.price or sheet.sheet_length * sheet.sheet_width
    per_area = full / (sheet.sheet_length * sheet.sheet_width)
    bins = [_bin(blank, per_area) for blank in blanks if blank.material == material]
    if buy:
        whole = bins_of(sheet, project.job.shop)[-1]
        bins.append(
            Bin(
                f"new {whole.name}",
                whole.length,
                whole.width,
                price=full * BUYING,
                trim=whole.trim,
                weight_per_area=whole.weight_per_area,
            )
        )
    if not bins:
        return None
    problem = cut_problem(project, material, parts, tuple(bins))
    plan = solve(problem, SEARCH)
    return None if plan.unplaced or plan.status is Status.IMPOSSIBLE else (problem, plan)


def _bin(blank: Blank, per_area: Fraction) -> Bin:
    worth = blank.length * blank.width * per_area * WORTH[blank.origin]
    return Bin(blank.name, blank.length, blank.width, count=1, price=worth, trim=blank.trim, offcut=True)


def in_reach(project: Project, facts: Facts) -> tuple[Blank, ...]:
    """All wood there is: blanks and spoiled parts."""
    return (*facts.blanks, *facts.remnants(project))


def spare(project: Project, facts: Facts) -> Iterator[Blank]:
    """Wood that no planned part needs: free offcuts and spoiled parts."""
    return (blank for blank in in_reach(project, facts) if not blank.planned)
