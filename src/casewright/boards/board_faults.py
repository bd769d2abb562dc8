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
from .board_problem import BoardPart, BoardProblem


def board_plan_faults(problem: BoardProblem, plan: BoardPlan) -> list[str]:
    """Everything wrong with a plan; empty for one that can be cut as it says."""
    return list(_faults(problem, plan))


def _far_edge(board: RoughBoard, x: F) -> F:
    """How wide a board is at a place: straight between the places where it was measured."""
    if len(board.widths) == 1:
        return board.widths[0]
    step = board.length / F(len(board.widths) - 1)
    left = min(x // step, len(board.widths) - 2)
    share = (x - left * step) / step
    return (1 - share) * board.widths[left] + share * board.widths[left + 1]


def _faults(problem: BoardProblem, plan: BoardPlan) -> Iterator[str]:
    wanted = {part.name: part for part in problem.parts}
    times = Counter(part.name for one in plan.boards for part in one.parts)
    yield from (f"{name} is cut {number} times" for name, number in times.items() if number > 1)
    whole = {part.name for one in plan.boards for part in one.parts if not part.panel}
    glued = {part.panel for one in plan.boards for part in one.parts if part.panel}
    yield from (f"{name} is cut, but not wanted" for name in sorted((whole | glued) - {*wanted}))
    yield from (f"{name} is cut in one piece and in strips" for name in sorted(whole & glued))
    if whole | glued | {*plan.unplaced} != {*wanted} or (whole | glued) & {*plan.unplaced}:
        yield "a part is neither cut nor said to be missing"
    for name in sorted(glued & {*wanted}):
        yield from _glued_up(problem, plan, wanted[name])
    if len({one.number for one in plan.boards}) < len(plan.boards):
        yield "two boards have one number"
    used = Counter(one.board.name for one in plan.boards if not one.to_buy)
    for one in plan.boards:
        if one.to_buy and one.board != problem.bought:
            yield f"board {one.number} cannot be bought"
        if not one.to_buy and (one.board not in problem.at_hand or used[one.board.name] > 1):
            yield f"board {one.number} is not at hand, or used twice"
        yield from (f"board {one.number}: {fault}" for fault in faults_on_board(problem, one))


def _glued_up(problem: BoardProblem, plan: BoardPlan, panel: BoardPart) -> Iterator[str]:
    """What is wrong with the strips of a part that is glued up, taken together."""
    milling = problem.milling
    widths = [
        strip.width - 2 * milling.glue_edge
        for _, _, strip in plan.strips()
        for part in strip.wanted
        if part.panel == panel.name
    ]
    clamped = panel.width + milling.over_width
    if len(widths) < 2:
        yield f"{panel.name} is glued up from a single strip"
    if sum(widths) < clamped:
        yield f"{panel.name} comes out of the clamps too narrow to be ripped to width"
    if clamped > len(widths) * milling.widest_strip:
        yield f"{panel.name} is glued up from strips that are too wide"


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
        longest, end_to_end = milling.longest_length, any(len(strip.parts) > 1 for strip in length.strips)
        if longest is not None and length.length > longest and end_to_end:
            yield f"the length at {length.x} is longer than is jointed with parts end to end"
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
        if strip.y + strip.width > min(_far_edge(board, x) for x in places):
            yield f"the strip at {strip.y} runs off the far edge"
        for defect in board.defects:
            across = defect.low < strip.y + strip.width and defect.high > strip.y
            if across and defect.start < length.end and defect.end > length.x:
                yield f"the strip at {strip.y} has a defect in it"
        if len({bool(part.panel) for part in strip.parts}) > 1:
            yield f"the strip at {strip.y} has parts that are glued up and others, of two thicknesses"
        x = length.x
        for part in strip.parts:
            if part.x < x or part.x + part.length > length.end:
                yield f"{part.name} overlaps its neighbour or the end of its length"
            x = part.x + part.length + kerf
            wanted = next((one for one in problem.parts if one.name in (part.name, part.panel)), None)
            if wanted is None or part.spent:
                continue
            if part.length < wanted.length + problem.milling.over_length:
                yield f"{part.name} is too short to be cut to length"
            milling = problem.milling
            over = 2 * milling.glue_edge if wanted.panel else milling.over_width
            # Strips of a part that is glued up are measured together.
            if strip.width < wanted.width + over and wanted.name == part.name:
                yield f"{part.name} is too narrow to be jointed and ripped"


def _between(board: RoughBoard, start: F, end: F) -> list[F]:
    number = len(board.widths) - 1
    return [at for i in range(number + 1) if number and start < (at := board.length * i / number) < end]
