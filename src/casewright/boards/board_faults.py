"""Judges a board plan cut by cut, from the boards, parts and allowances alone.

Written from what happens at the bench and apart from the search for plans: it takes no widths, gaps or sizes
from it. A plan that is read back stands for a job while nothing is wrong with it here.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction as F

from ..shop.rough_boards import RoughBoard
from .board_plan import BoardLength, BoardPlan, CutBoard
from .board_problem import BoardProblem


def board_plan_faults(problem: BoardProblem, plan: BoardPlan) -> list[str]:
    """Everything wrong with a plan; empty for one that can be cut as it says."""
    return list(_faults(problem, plan))


def far_edge(board: RoughBoard, x: F) -> F:
    """How wide a board is at a place: straight between the places where it was measured."""
    if len(board.widths) == 1:
        return board.widths[0]
    step = board.length / F(len(board.widths) - 1)
    left = min(x // step, len(board.widths) - 2)
    share = (x - left * step) / step
    return (1 - share) * board.widths[left] + share * board.widths[left + 1]


def _faults(problem: BoardProblem, plan: BoardPlan) -> Iterator[str]:
    wanted = {part.name: part for part in problem.parts}
    made = Counter(part.name for one in plan.boards for part in one.parts)
    for name, times in made.items():
        if name not in wanted or times > 1:
            yield f"{name} is cut {times} times"
    if {*made} | {*plan.unplaced} != {*wanted} or {*made} & {*plan.unplaced}:
        yield "a part is neither cut nor said to be missing"
    if len({one.number for one in plan.boards}) < len(plan.boards):
        yield "two boards have one number"
    used = Counter(one.board.name for one in plan.boards if not one.to_buy)
    for one in plan.boards:
        if one.to_buy and one.board != problem.bought:
            yield f"board {one.number} cannot be bought"
        if not one.to_buy and (one.board not in problem.at_hand or used[one.board.name] > 1):
            yield f"board {one.number} is not at hand, or used twice"
        yield from (f"board {one.number}: {fault}" for fault in faults_on_board(problem, one))


def faults_on_board(problem: BoardProblem, one: CutBoard) -> Iterator[str]:
    """What is wrong with the cuts of one board."""
    milling, board, kerf = problem.milling, one.board, problem.kerf
    free = milling.end_trim
    for length in one.lengths:
        if length.x < free:
            yield f"the length at {length.x} overlaps what is cut before it"
        if length.length < problem.shortest:
            yield f"the length at {length.x} is shorter than jointer and planer hold"
        free = length.x + length.length + kerf
        yield from _in_length(problem, board, length)
    if free - kerf > board.length - milling.end_trim:
        yield "a length runs into the trim at the right end"


def _in_length(problem: BoardProblem, board: RoughBoard, length: BoardLength) -> Iterator[str]:
    kerf, free = problem.kerf, problem.milling.first_edge
    for strip in length.strips:
        if strip.y < free:
            yield f"the strip at {strip.y} overlaps the one before it"
        free = strip.y + strip.width + kerf
        # The far edge is straight between stations, so its least width lies at one of these places.
        places = [length.x, length.end, *(F(at) for at in _between(board, length.x, length.end))]
        if strip.y + strip.width > min(far_edge(board, x) for x in places):
            yield f"the strip at {strip.y} runs off the far edge"
        for defect in board.defects:
            across = defect.low < strip.y + strip.width and defect.high > strip.y
            if across and defect.start < length.end and defect.end > length.x:
                yield f"the strip at {strip.y} has a defect in it"
        x = length.x
        for part in strip.parts:
            wanted = next((one for one in problem.parts if one.name == part.name), None)
            if wanted is None:
                continue
            if part.x < x or part.x + part.length > length.end:
                yield f"{part.name} overlaps its neighbour or the end of its length"
            x = part.x + part.length + kerf
            if part.length < wanted.length + problem.milling.over_length:
                yield f"{part.name} is too short to be cut to length"
            if strip.width < wanted.width + problem.milling.over_width:
                yield f"{part.name} is too narrow to be jointed and ripped"


def _between(board: RoughBoard, start: F, end: F) -> list[F]:
    number = len(board.widths) - 1
    return [at for i in range(number + 1) if number and start < (at := board.length * i / number) < end]
