"""Board plans before the judge: every cut of every plan, and plans that were made wrong on purpose."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction as F

import pytest

from board_lists import USUAL, any_list, doors_from, rough_boards
from casewright.boards.board_faults import board_plan_faults
from casewright.boards.board_plan import BoardLength, BoardPlan, BoardStrip, CutBoard
from casewright.boards.board_problem import BoardPart, BoardProblem
from casewright.boards.plan_boards import BoardEffort, lone_misfits, plan_boards
from casewright.shop.rough_boards import BoardDefect, Milling, RoughBoard

QUICK = BoardEffort(rounds=3)


@pytest.mark.parametrize("seed", range(25))
def test_the_judge_finds_nothing_wrong(seed: int) -> None:
    bought = USUAL if seed % 2 else None
    milling = Milling(F(seed % 3, 2), F(1, 2), F(1, 4), F(seed % 2, 8))
    problem = BoardProblem(any_list(seed, 20), rough_boards(seed, 6), bought, F(1, 8), milling)
    plan = plan_boards(problem, QUICK)
    assert not board_plan_faults(problem, plan)
    assert plan.boards
    if bought is not None:
        assert {*plan.unplaced} <= {part.name for part in lone_misfits(problem)}


def test_a_doors_parts_are_all_cut_and_the_bound_holds() -> None:
    problem = doors_from(rough_boards(5, 9))
    plan = plan_boards(problem)
    assert not plan.unplaced and not board_plan_faults(problem, plan)
    assert plan.bound <= (plan.feet_to_buy or plan.feet_used)


@pytest.mark.parametrize("seed", range(12))
def test_no_length_is_crosscut_longer_than_its_parts_ask(seed: int) -> None:
    """A board cut up with a part more than is wanted leaves that part's wood on the board."""
    problem = BoardProblem(any_list(seed, 20), rough_boards(seed, 6), USUAL, F(1, 8))
    for board in plan_boards(problem, QUICK).boards:
        for length in board.lengths:
            ends = [strip.parts[-1].x + strip.parts[-1].length for strip in length.strips]
            assert length.end == max(ends) or length.length == problem.shortest


def test_the_same_seed_gives_the_same_plan() -> None:
    problem = doors_from(rough_boards(6, 5))
    assert plan_boards(problem, QUICK) == plan_boards(problem, QUICK)


def test_boards_at_hand_are_used_before_any_is_bought() -> None:
    enough = tuple(replace(USUAL, name=f"board {number}") for number in range(1, 13))
    plan = plan_boards(doors_from(enough), QUICK)
    assert not plan.to_buy and plan.feet_used < 60


def test_a_defect_moves_parts_aside() -> None:
    knot = BoardDefect(F(20), F(22), F(1), F(3))
    board = RoughBoard("knotty", F(60), (F(4),), F(1), (knot,))
    problem = BoardProblem((BoardPart("A", F(30), F(3)),), (board,), None, F(1, 8))
    plan = plan_boards(problem, QUICK)
    assert not board_plan_faults(problem, plan) and not plan.unplaced
    (one,) = plan.boards
    assert one.parts[0].x >= 22


def test_a_part_that_fits_no_board_is_named() -> None:
    problem = BoardProblem(
        (BoardPart("long", F(130), F(3)), BoardPart("ok", F(30), F(3))), (), USUAL, F(1, 8)
    )
    assert [part.name for part in lone_misfits(problem)] == ["long"]
    plan = plan_boards(problem, QUICK)
    assert plan.unplaced == ("long",) and not board_plan_faults(problem, plan)


def test_parts_that_belong_together_come_from_one_board_where_they_fit() -> None:
    """Two doors' parts fill a board each; shared out door by door, neither is split."""
    parts = tuple(
        BoardPart(f"D{door}-{number}", F(36), F(2), f"D{door}") for number in range(6) for door in range(2)
    )
    problem = BoardProblem(parts, (), RoughBoard("", F(78), (F(29, 4),), F(1)), F(1, 8))
    plan = plan_boards(problem, QUICK)
    assert len(plan.boards) == 2
    assert all(len({part.name.split("-")[0] for part in one.parts}) == 1 for one in plan.boards)


def _first(plan: BoardPlan, change: Callable[[CutBoard], CutBoard]) -> BoardPlan:
    return replace(plan, boards=(change(plan.boards[0]), *plan.boards[1:]))


def _length(board: CutBoard, change: Callable[[BoardLength], BoardLength]) -> CutBoard:
    return replace(board, lengths=(change(board.lengths[0]), *board.lengths[1:]))


def _strip(board: CutBoard, change: Callable[[BoardStrip], BoardStrip]) -> CutBoard:
    return _length(board, lambda one: replace(one, strips=(change(one.strips[0]), *one.strips[1:])))


@pytest.mark.parametrize(
    ("spoil", "said"),
    [
        (lambda one: _length(one, lambda length: replace(length, x=F(0))), "overlaps"),
        (lambda one: _length(one, lambda length: replace(length, length=length.length + 40)), "overlaps"),
        (lambda one: _strip(one, lambda strip: replace(strip, y=F(0))), "overlaps the one before"),
        (lambda one: _strip(one, lambda strip: replace(strip, y=F(5))), "off the far edge"),
        (lambda one: _strip(one, lambda strip: replace(strip, width=F(1))), "too narrow"),
        (lambda one: _strip(one, lambda strip: replace(strip, parts=strip.parts * 2)), "times"),
        (lambda one: _strip(one, lambda strip: replace(strip, parts=())), "neither cut nor"),
        (
            lambda one: replace(
                one, board=replace(one.board, defects=(BoardDefect(F(0), F(50), F(0), F(6)),))
            ),
            "defect",
        ),
    ],
)
def test_the_judge_sees_a_plan_that_was_spoiled(spoil: Callable[[CutBoard], CutBoard], said: str) -> None:
    problem = doors_from(())
    plan = plan_boards(problem, QUICK)
    assert not board_plan_faults(problem, plan)
    assert any(said in fault for fault in board_plan_faults(problem, _first(plan, spoil)))
