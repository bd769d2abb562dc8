"""Planning beside sheets that are begun: what is cut is a fact that the rest has to fit.

A begun sheet keeps its number, its pieces and its cuts. Only what it does not supply is planned.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property

from .layout.fence_settings import beyond_reach, split_groups
from .layout.one_piece import breaks_of_grain
from .layout.plan_figures import figures_of
from .plan import Figures, Piece, PieceRole, Plan, PlanStatus, SheetPlan
from .plan_wording import FENCE_REACH, GRAIN_BROKEN, MATCH_SPLIT
from .problem import ZERO, Bin, Item, Problem

LEFTOVERS = (PieceRole.OFFCUT, PieceRole.WASTE)


@dataclass(frozen=True)
class Begun:
    """Sheets that a saw has touched. The parts in `made` come of them whatever size the plan gives them: they
    are cut already, and measured. Any other part comes of them only where it has its size of today."""

    sheets: tuple[SheetPlan, ...] = ()
    made: frozenset[str] = frozenset()


NOTHING_BEGUN = Begun()

NOTHING_TO_CUT = Plan(
    (), ZERO, 0, PlanStatus.OPTIMAL, Figures(0, ZERO, ZERO, ZERO, settings=0, cuts=0, turns=0, used=ZERO)
)
"""The plan of a problem without parts."""


@dataclass(frozen=True)
class LeftToCut:
    """A problem some of whose sheets are begun. `problem` is what is left: the parts that they do not supply,
    out of the stock that they do not use. `sheets` are those begun, where a piece that no part of today comes
    of is a leftover."""

    whole: Problem
    problem: Problem
    sheets: tuple[SheetPlan, ...]

    @cached_property
    def all_stock(self) -> Problem:
        """The whole problem, its stock with what is left of pieces that are no longer in stock."""
        known = {bin_.name for bin_ in self.whole.bins}
        others = {
            sheet.bin: Bin(
                sheet.bin, sheet.root.length, sheet.root.width, count=1, price=Fraction(0), offcut=True
            )
            for sheet in self.sheets
            if sheet.bin not in known
        }
        return replace(self.whole, bins=(*self.whole.bins, *others.values()))

    def rest_of(self, plan: Plan) -> Plan:
        """The sheets of a plan that are not begun, as a plan of what is left. It proves nothing."""
        begun = {sheet.number for sheet in self.sheets}
        sheets = tuple(sheet for sheet in plan.sheets if sheet.number not in begun)
        known = {bin_.name for bin_ in self.problem.bins}
        figures = figures_of(self.problem, tuple(sheet for sheet in sheets if sheet.bin in known))
        wanted = {item.name for item in self.problem.items}
        missing = tuple(entry for entry in plan.unplaced if entry.item in wanted)
        status = PlanStatus.IMPOSSIBLE if missing else PlanStatus.OPEN
        rest = replace(plan, sheets=sheets, figures=figures, unplaced=missing, status=status)
        return replace(rest, bound=Fraction(0), bound_sheets=0)

    def holds(self, plan: Plan) -> bool:
        """Whether the plan has every begun sheet as it is, and its money counts them at today's prices."""
        has = {sheet.number: sheet for sheet in plan.sheets}
        return (
            all(has.get(sheet.number) == sheet for sheet in self.sheets)
            and all(sheet.bin in {bin_.name for bin_ in self.all_stock.bins} for sheet in plan.sheets)
            and figures_of(self.all_stock, plan.sheets).money == plan.figures.money
        )

    def with_begun(self, rest: Plan, before: Plan) -> Plan:
        """A plan of what is left, with the begun sheets put back; what `before` said of them still holds.

        What is proved of the rest is proved of every plan that has these sheets.
        """
        if not self.sheets:
            return rest
        sheets = tuple(sorted((*self.sheets, *rest.sheets), key=lambda sheet: sheet.number))
        stock = self.all_stock
        figures = figures_of(stock, sheets)
        spent = figures_of(stock, self.sheets).money
        places = {_place(sheet) for sheet in self.sheets}
        recounted = (MATCH_SPLIT, FENCE_REACH, GRAIN_BROKEN)
        findings = (
            *(one for one in rest.findings if one.code not in recounted),
            *split_groups(self.whole, sheets),
            *(one for one in before.findings if one.place in places and one.code not in recounted),
            *beyond_reach(self.whole, sheets),
            *breaks_of_grain(self.whole, sheets),
        )
        proved = rest.bound_sheets or not rest.sheets
        fewest = rest.bound_sheets + len(self.sheets) if proved else 0
        return Plan(sheets, rest.bound + spent, fewest, rest.status, figures, rest.unplaced, findings)


def left_to_cut(problem: Problem, begun: Begun) -> LeftToCut:
    """What is left of a problem once the begun sheets are set apart."""
    if not begun.sheets:
        return LeftToCut(problem, problem, ())
    taking = _Taking(problem, begun.made)
    sheets = tuple(taking.sheet(sheet) for sheet in begun.sheets)
    items = tuple(
        replace(item, count=left)
        for item in problem.items
        if (left := item.count - taking.supplied[item.name])
    )
    used = Counter(sheet.bin for sheet in begun.sheets)
    bins = tuple(
        bin_ if bin_.count is None else replace(bin_, count=max(0, bin_.count - used[bin_.name]))
        for bin_ in problem.bins
    )
    wanted = {item.name for item in items}
    one_piece = tuple(rest for piece in problem.one_piece for rest in piece.among(wanted))
    stock = tuple(bin_ for bin_ in bins if bin_.count != 0)
    rest = replace(problem, items=items, bins=stock, one_piece=one_piece)
    return LeftToCut(problem, rest, sheets)


class _Taking:
    """Takes the parts that begun sheets supply, sheet by sheet; `supplied` counts them by their names."""

    def __init__(self, problem: Problem, made: frozenset[str]) -> None:
        self.problem = problem
        self.items = {item.name: item for item in problem.items}
        self.bins = {bin_.name: bin_ for bin_ in problem.bins}
        self.made = made
        self.supplied: Counter[str] = Counter()

    def sheet(self, sheet: SheetPlan) -> SheetPlan:
        return replace(sheet, root=self._piece(sheet, sheet.root))

    def _piece(self, sheet: SheetPlan, piece: Piece) -> Piece:
        if piece.role is not PieceRole.PART:
            return replace(piece, children=tuple(self._piece(sheet, child) for child in piece.children))
        item = self.items.get(piece.item or "")
        if item is not None and self.supplied[item.name] < item.count and self._comes_of(piece, item):
            self.supplied[item.name] += 1
            return piece
        return replace(piece, role=self._leftover(sheet, piece), item=None, turned=False)

    def _comes_of(self, piece: Piece, item: Item) -> bool:
        may_lie = item.may_turn or not piece.turned
        return item.name in self.made or (piece.as_part == (item.length, item.width) and may_lie)

    def _leftover(self, sheet: SheetPlan, piece: Piece) -> PieceRole:
        bin_ = self.bins.get(sheet.bin)
        if bin_ is None:
            return PieceRole.OFFCUT
        keep = self.problem.keep_from(bin_)
        short, long = sorted((piece.length, piece.width))
        return PieceRole.OFFCUT if short >= keep.short and long >= keep.long else PieceRole.WASTE


def same_cuts(now: SheetPlan, then: SheetPlan) -> bool:
    """Whether a sheet is cut as the other was, and yields nothing else: a part may have become a leftover."""
    return now.bin == then.bin and _alike(now.root, then.root)


def _alike(now: Piece, then: Piece) -> bool:
    same = (_box(now), now.cuts) == (_box(then), then.cuts)
    if not same or len(now.children) != len(then.children):
        return False
    if (now.role, now.item, now.turned) != (then.role, then.item, then.turned):
        return now.role in LEFTOVERS and then.role in (PieceRole.PART, *LEFTOVERS)
    return all(map(_alike, now.children, then.children))


def _box(piece: Piece) -> tuple[Fraction, ...]:
    return piece.x, piece.y, piece.length, piece.width


def _place(sheet: SheetPlan) -> str:
    return f"sheet {sheet.number}"
