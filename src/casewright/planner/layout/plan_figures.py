"""The figures of a plan, counted from its tree."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from ..plan import Figures, Piece, Purpose, SheetPlan
from ..problem import Direction, Problem
from .leftovers import largest_leftover, leftover_worth

FenceSetting = tuple[str, Direction, Fraction]


def distinct_settings(sheets: Iterable[SheetPlan], saw: str) -> frozenset[FenceSetting]:
    """The distinct settings of the table saw of this name: tool, direction, distance from the reference edge.

    Counted over all sheets together, since parts of one width are ripped on one setting from whatever sheet
    they come. Trim cuts need no exact setting, and the hand-held saw follows a straightedge: neither counts.
    """
    return frozenset(
        (cut.tool, cut.direction, cut.setting)
        for sheet in sheets
        for cut in sheet.cuts
        if cut.purpose is Purpose.SIZE and cut.tool == saw
    )


def quarter_turns(root: Piece) -> int:
    """How often a piece is turned a quarter between coming off a cut and being cut again."""
    count = 0
    for piece in root.walk():
        for child in piece.children:
            if child.cuts and child.cuts[0].direction is not piece.cuts[0].direction:
                count += 1
    return count


def figures_of(problem: Problem, sheets: tuple[SheetPlan, ...]) -> Figures:
    bins = {bin_.name: bin_ for bin_ in problem.bins}
    area = sum((bins[sheet.bin].area for sheet in sheets), Fraction(0))
    parts = sum((piece.area for sheet in sheets for piece in sheet.parts), Fraction(0))
    return Figures(
        sheets=len(sheets),
        money=sum((bins[sheet.bin].cost for sheet in sheets), Fraction(0)),
        leftover_worth=leftover_worth(problem, sheets),
        largest_offcut=largest_leftover(sheets),
        settings=len(distinct_settings(sheets, problem.table_saw.name)),
        cuts=sum(len(sheet.cuts) for sheet in sheets),
        turns=sum(quarter_turns(sheet.root) for sheet in sheets),
        used=parts / area if area else Fraction(0),
    )
