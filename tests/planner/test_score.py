"""Scoring layouts."""

from __future__ import annotations

from fractions import Fraction as F

from casewright.planner.layout.integer_grid import grid_of
from casewright.planner.layout.layout_tree import CarriedPiece, HandStack, Leaf, SheetLayout, Stack
from casewright.planner.layout.score import Scorer
from casewright.planner.problem import Bin, Item, Limits, Problem, Saw, SawKind


def test_a_sheet_carried_whole_is_scored_though_no_hand_cut_parts_it() -> None:
    """Once the search stopped on such a sheet: a piece without cuts whose child has some."""
    problem = Problem(
        (Item("shelf", F(20), F(10), 2),),
        (Bin("sheet", F(48), F(24)),),
        Saw("table saw", SawKind.TABLE_SAW, F(1, 8)),
        Saw("hand saw", SawKind.HAND_SAW, F(1, 8), clean_up=F(1, 4)),
        Limits(F(50), F(60)),
    )
    content = Stack(True, (Leaf(0), Leaf(0)))
    alone = HandStack(True, (HandStack(False, (CarriedPiece(content),)),))
    score = Scorer(problem, grid_of(problem))
    assert score(SheetLayout(0, alone)).turns == score(SheetLayout(0, CarriedPiece(content))).turns
