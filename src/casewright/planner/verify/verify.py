"""The independent checker of plans. It reads only the problem and the plan, and shares no code with the
planner.

Each rule is one small function giving findings; a plan is sound when there are none. Codes:
`size`, `outside`, `overlap`, `cut-short`, `kerf`, `setting`, `trim`, `clean-up`, `grain`,
`count`, `carried`, `reach`, `stages`, `first-cut`, `match-split`, `grain-broken`, `stock`, `bound`, `role`,
`order`.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction

from ...findings import Finding
from ..plan import Plan, PlanStatus, SheetPlan
from ..problem import Problem
from .grain_runs import grain_findings
from .match_groups import match_findings
from .sheet_tree import tree_findings


def verify(problem: Problem, plan: Plan) -> tuple[Finding, ...]:
    """Everything that is wrong with `plan`; empty if it is sound."""
    found: list[Finding] = []
    for sheet in plan.sheets:
        if all(bin_.name != sheet.bin for bin_ in problem.bins):
            found.append(Finding("stock", f"sheet {sheet.number}", f"There is no bin named {sheet.bin!r}."))
            continue
        found += tree_findings(problem, sheet, plan.findings)
        found += _order(sheet)
    found += _counts(problem, plan)
    found += _stock(problem, plan)
    found += _bound(problem, plan)
    found += match_findings(problem, plan)
    found += grain_findings(problem, plan)
    return tuple(found)


def _order(sheet: SheetPlan) -> Iterator[Finding]:
    """Cuts are numbered 1, 2, 3, ... and a piece is cut only after it has come off."""
    place = f"sheet {sheet.number}"
    numbers = sorted(cut.order for piece in sheet.root.walk() for cut in piece.cuts)
    if numbers != list(range(1, len(numbers) + 1)):
        yield Finding("order", place, "The cuts are not numbered one after another.")
    for piece in sheet.root.walk():
        orders = [cut.order for cut in piece.cuts]
        if orders != sorted(orders):
            yield Finding("order", place, "A series of cuts is not in the order of its numbers.")
        for child in piece.children:
            if child.cuts and orders and child.cuts[0].order < orders[0]:
                yield Finding("order", place, f"Cut {child.cuts[0].order} is made before its piece exists.")


def _counts(problem: Problem, plan: Plan) -> Iterator[Finding]:
    """Every part is there exactly as often as asked for, or the plan says that it is missing."""
    placed = Counter(piece.item for _, piece in plan.parts())
    missing = Counter({entry.item: entry.count for entry in plan.unplaced})
    wanted = {item.name: item.count for item in problem.items}
    for name in placed.keys() | missing.keys():
        if name not in wanted:
            yield Finding(
                "count", str(name), f"The plan has a part named {name!r}, which the problem does not."
            )
    for name, count in wanted.items():
        if placed[name] + missing[name] != count:
            text = f"{count} asked for, but {placed[name]} placed and {missing[name]} reported missing."
            yield Finding("count", name, text)
    if plan.unplaced and plan.status is PlanStatus.OPTIMAL:
        yield Finding("count", "status", "A plan with parts missing cannot be optimal.")


def _stock(problem: Problem, plan: Plan) -> Iterator[Finding]:
    used = Counter(sheet.bin for sheet in plan.sheets)
    for bin_ in problem.bins:
        if bin_.count is not None and used[bin_.name] > bin_.count:
            yield Finding("stock", bin_.name, f"{used[bin_.name]} used, but only {bin_.count} in stock.")
    numbers = [sheet.number for sheet in plan.sheets]
    if numbers != sorted(set(numbers)) or min(numbers, default=1) < 1:  # a plan made again may leave gaps
        yield Finding("stock", "sheets", "The numbers of the sheets do not go up from 1.")


def _bound(problem: Problem, plan: Plan) -> Iterator[Finding]:
    """A bound above the plan's own cost is false, and so is a proof that leaves a gap."""
    cost = {
        bin_.name: bin_.length * bin_.width if bin_.price is None else bin_.price for bin_ in problem.bins
    }
    money = sum((cost.get(sheet.bin, Fraction(0)) for sheet in plan.sheets), Fraction(0))
    if money != plan.figures.money or len(plan.sheets) != plan.figures.sheets:
        yield Finding("bound", "figures", "The plan's money or number of sheets is not what it uses.")
    if plan.unplaced:
        return
    if plan.bound > money:
        yield Finding("bound", "bound", f"The bound {plan.bound} is above the plan's own cost {money}.")
    if plan.bound_sheets > len(plan.sheets):
        yield Finding("bound", "bound", f"The bound of {plan.bound_sheets} sheets is above the plan's own.")
    if plan.status is PlanStatus.OPTIMAL and plan.bound != money:
        yield Finding("bound", "status", f"Called optimal at {money}, yet the bound is {plan.bound}.")
