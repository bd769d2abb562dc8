"""No length longer than a jointer takes has parts end to end; a part longer than that is jointed alone."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from board_lists import doors_from, rough_boards
from casewright.boards.board_faults import board_plan_faults
from casewright.boards.board_plan import BoardPlan
from casewright.boards.board_problem import BoardPart, BoardProblem
from casewright.boards.plan_boards import plan_boards
from casewright.shop.rough_boards import Milling, RoughBoard


def too_long(plan: BoardPlan, longest: F) -> list[F]:
    return [
        length.length
        for _, length, strip in plan.strips()
        if length.length > longest and len(strip.parts) > 1
    ]


@pytest.mark.parametrize("seed", range(4))
def test_long_lengths_hold_no_parts_end_to_end(seed: int) -> None:
    free = doors_from(rough_boards(seed, 6), doors=6)
    short = replace(free, milling=Milling(longest_length=F(36)))
    as_before, plan = plan_boards(free), plan_boards(short)
    assert too_long(as_before, F(36)), "else the limit would say nothing"
    assert not too_long(plan, F(36)) and not board_plan_faults(short, plan) and not plan.unplaced
    said = board_plan_faults(short, as_before)
    assert said and all("longer than is jointed with parts end to end" in fault for fault in said)
    assert plan.bound <= (plan.feet_to_buy or plan.feet_used)


def test_a_part_longer_than_that_is_jointed_alone() -> None:
    """A stile of 61 in, rough, and eight rails of 13 in: 48 in holds three of those, 3 × 13 and two kerfs."""
    rails = tuple(BoardPart(f"rail {number}", F(12), F(2)) for number in range(8))
    board = RoughBoard("A", F(120), (F(5),), F(1))
    problem = BoardProblem(
        (BoardPart("stile", F(60), F(2)), *rails), (), board, F(1, 8), Milling(longest_length=F(48))
    )
    plan = plan_boards(problem)
    assert not plan.unplaced and not board_plan_faults(problem, plan)
    lengths = sorted(length.length for one in plan.boards for length in one.lengths)
    assert lengths[-1] == 61 and all(length <= 48 for length in lengths[:-1])
