"""A part cut once more: every answer from every source can be cut, and begun boards keep all they have."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from fractions import Fraction as F
from random import Random

from board_lists import USUAL, any_list, doors_from, rough_boards
from casewright.boards.board_faults import board_plan_faults
from casewright.boards.board_plan import BoardPlan, CutBoard
from casewright.boards.board_problem import BoardPart, BoardProblem
from casewright.boards.cut_once_more import (
    BoardsInHand,
    OnceMore,
    WoodSource,
    once_more,
    renumbered_since,
    with_spent,
)
from casewright.boards.plan_boards import plan_boards
from casewright.shop.rough_boards import RoughBoard


def begun_with(draw: Random, plan: BoardPlan, mark: str) -> frozenset[int]:
    """The board that the part came of, and some others."""
    own = {one.number for one in plan.boards if mark in one.marks}
    return frozenset(own | {one.number for one in plan.boards if draw.random() < 0.5})


def rough_cuts(board: CutBoard) -> list[tuple[object, ...]]:
    """Its strips by their numbers, with the parts that were planned first."""
    return [
        (number, length.x, strip.y, strip.width, strip.later, [(one.name, one.x) for one in strip.parts])
        for number, length, strip in board.strips_in_turn()
    ]


def judge(problem: BoardProblem, before: BoardsInHand, answer: OnceMore) -> None:
    plan = renumbered_since(before, answer.plan)
    assert board_plan_faults(problem, plan) == [], answer.source
    was = {one.number: one for one in before.plan.boards}
    for number in before.begun:
        now = {cut[0]: cut for cut in rough_cuts(plan.numbered(number))}
        for cut in rough_cuts(was[number]):
            there = now[cut[0]]
            assert there[1:5] == cut[1:5]
            assert there[5][: len(cut[5])] == cut[5]  # type: ignore[arg-type,index]
    for one in plan.boards:
        if one.number in was and one.number not in before.begun:
            assert one == was[one.number]
    if answer.source is WoodSource.LEFT:
        assert {one.board.board.name for one in answer.places} <= {
            one.board.name for one in before.plan.boards
        }
    if answer.source is not WoodSource.BOUGHT:
        assert len(plan.to_buy) <= len(before.plan.to_buy)


def lists(seed: int) -> BoardProblem:
    if seed % 2:
        return doors_from(rough_boards(seed, 7), USUAL if seed % 3 else None, doors=4)
    return BoardProblem(any_list(seed, 14), rough_boards(seed, 6), USUAL if seed % 3 else None, F(1, 8))


def test_whatever_part_is_wanted_again_each_answer_can_be_cut() -> None:
    seen: Counter[str] = Counter()
    for seed in range(40):
        draw, problem = Random(seed), lists(seed)
        plan = plan_boards(problem)
        placed = [part.name for part in problem.parts if part.name not in plan.unplaced]
        problem = replace(problem, parts=tuple(part for part in problem.parts if part.name in placed))
        plan = replace(plan, unplaced=())
        mark = draw.choice(placed)
        hand = BoardsInHand(plan, begun_with(draw, plan, mark), planed=draw.random() < 0.3)
        spent = with_spent(hand, {mark})
        for source in WoodSource:
            answer = once_more(problem, spent, mark, source)
            if answer is not None:
                judge(problem, hand, answer)
                seen[source.name] += 1
                seen["beside"] += any(not one.within and not one.fresh for one in answer.places)
    assert all(seen[source.name] > 3 for source in WoodSource), seen
    assert seen["beside"] > 3, seen


def test_what_was_never_cut_is_there_again_and_what_was_is_spent() -> None:
    problem = doors_from((), doors=3)
    plan = plan_boards(problem)
    mark = plan.boards[0].parts[0].name
    cut = with_spent(BoardsInHand(plan, frozenset({1})), {mark})
    assert mark not in cut.plan.board_of and cut.plan.has_spent
    uncut = with_spent(BoardsInHand(plan), {mark})
    assert mark not in uncut.plan.board_of and not uncut.plan.has_spent


def test_the_end_of_a_strip_of_its_width_comes_first() -> None:
    """It is ripped with the rest of its strip, and only crosscut; a part of another width is not cut so."""
    board = RoughBoard("A", F(100), (F(7),), F(1))
    long, short = BoardPart("long", F(40), F(2)), BoardPart("short", F(12), F(2))
    plan = plan_boards(BoardProblem((long, short), (board,), None, F(1, 8)))
    (one,) = plan.boards
    assert len(one.lengths) == 1
    for width, within in ((F(2), True), (F(5, 2), False)):
        again = BoardPart("again", F(12), width)
        problem = BoardProblem((long, short, again), (board,), None, F(1, 8))
        answer = once_more(problem, BoardsInHand(plan, frozenset({1}), planed=True), "again", WoodSource.LEFT)
        assert answer is not None and [place.within for place in answer.places] == [within]
        later = [
            strip.later for _, _, strip in answer.plan.strips() if "again" in [p.name for p in strip.parts]
        ]
        assert later == [0 if within else 1]
