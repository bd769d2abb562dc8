"""Small board jobs against exhaustive search, and boards of one width against the general cutting-stock
model.

The search is written from the rules alone: every way to share parts out over boards, to divide a board's
parts into lengths, those of a length into strips. It knows nothing of the planner's draws.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction as F
from functools import cache
from math import ceil
from random import Random

import pytest

from board_lists import USUAL
from casewright.boards.board_faults import board_plan_faults
from casewright.boards.board_problem import BoardPart, BoardProblem
from casewright.boards.plan_boards import plan_boards
from casewright.shop.rough_boards import Milling, RoughBoard
from casewright.solver import Solver

KERF = F(1, 8)


def divisions(names: tuple[int, ...]) -> Iterator[tuple[tuple[int, ...], ...]]:
    """Every way to divide some parts into heaps."""
    if not names:
        yield ()
        return
    first, *rest = names
    for division in divisions(tuple(rest)):
        yield ((first,), *division)
        for at, heap in enumerate(division):
            yield (*division[:at], (first, *heap), *division[at + 1 :])


def fewest_boards(parts: tuple[BoardPart, ...], board: RoughBoard, milling: Milling) -> int:
    """The fewest boards by exhaustion: lengths crosscut, strips ripped, parts end to end in a strip."""
    long = [part.length + milling.over_length for part in parts]
    wide = [part.width + milling.over_width for part in parts]
    room = board.widths[0] - milling.first_edge

    @cache
    def shortest_length(heap: tuple[int, ...]) -> F | None:
        """How long a length must be to hold these parts side by side, in strips."""
        found = [
            max(sum((long[at] for at in strip), KERF * (len(strip) - 1)) for strip in strips)
            for strips in divisions(heap)
            if sum((max(wide[at] for at in strip) for strip in strips), KERF * (len(strips) - 1)) <= room
        ]
        return min(found) if found else None

    @cache
    def fits(heap: tuple[int, ...]) -> bool:
        for lengths in divisions(heap):
            needed = [shortest_length(tuple(sorted(one))) for one in lengths]
            if None not in needed:
                total = sum((one for one in needed if one is not None), KERF * (len(needed) - 1))
                if total <= board.length - 2 * milling.end_trim:
                    return True
        return False

    everything = tuple(range(len(parts)))
    return min(len(d) for d in divisions(everything) if all(fits(tuple(sorted(heap))) for heap in d))


@pytest.mark.parametrize("seed", range(30))
def test_small_jobs_take_the_fewest_boards(seed: int) -> None:
    draw = Random(seed)
    lengths = [F(draw.randrange(20, 70), 2) for _ in range(3)]
    widths = [F(draw.randrange(6, 18), 4) for _ in range(2)]
    parts = tuple(BoardPart(f"P{n}", draw.choice(lengths), draw.choice(widths)) for n in range(6))
    board = RoughBoard("", F(48), (F(6),), F(1))
    problem = BoardProblem(parts, (), board, KERF)
    plan = plan_boards(problem)
    fewest = fewest_boards(parts, board, problem.milling)
    assert not board_plan_faults(problem, plan)
    assert plan.bound_boards <= fewest
    assert len(plan.boards) == fewest


@pytest.mark.parametrize("seed", range(12))
def test_boards_as_wide_as_the_parts_come_to_the_cutting_stock_optimum(seed: int) -> None:
    """All parts take the whole width: what is left is to share lengths out over boards, the one-dimensional
    cutting-stock problem, which a general solver settles with a column for each part on each board."""
    draw = Random(100 + seed)
    milling = Milling(F(1), F(1), F(1, 4), F(1, 8))
    parts = tuple(BoardPart(f"P{n}", F(draw.randrange(30, 110), 2), F(5)) for n in range(12))
    board = RoughBoard("", F(96), (F(43, 8),), F(1))
    problem = BoardProblem(parts, (), board, KERF, milling)
    plan = plan_boards(problem)
    assert not board_plan_faults(problem, plan)
    assert len(plan.boards) == cutting_stock([part.length + 1 for part in parts], board.length - 2)


def cutting_stock(lengths: list[F], room: F) -> int:
    """The fewest bars for these lengths, a kerf between them."""
    bars = len(lengths)
    model = Solver(to_the_end=True)
    for _ in range(bars):
        model.add_column(1, 0, 1)
    for number in range(bars * bars):
        model.add_column(0, 0, 1 if number % bars <= number // bars else 0)
    for one in range(bars):
        model.add_row(1, 1, [bars + one * bars + bar for bar in range(bars)], [1] * bars)
    for bar in range(bars):
        columns = [bars + one * bars + bar for one in range(bars)]
        model.add_row(
            -1e9, 0, [*columns, bar], [*(float(one + KERF) for one in lengths), -float(room + KERF)]
        )
    model.make_integral(range(bars + bars * bars))
    return round(model.answer("cutting stock").cost)


def test_the_bound_rises_with_what_must_be_cut() -> None:
    """It is a proof, not a constant: twice the parts take at least as many boards more as the first half."""
    parts = tuple(BoardPart(f"P{n}", F(40), F(3)) for n in range(12))
    half, whole = (plan_boards(BoardProblem(parts[:n], (), USUAL, KERF)) for n in (6, 12))
    assert 0 < half.bound_boards < whole.bound_boards <= len(whole.boards)


def glued_from(panel: BoardPart, number: int, milling: Milling) -> list[BoardPart]:
    """The strips of a panel as parts of their rough size: what the clamps need, and both edges' jointing."""
    rough = (panel.width + milling.over_width) / number + 2 * milling.glue_edge
    return [BoardPart(f"{panel.name}{at}", panel.length, rough - milling.over_width) for at in range(number)]


@pytest.mark.parametrize("seed", range(6, 20, 2))
def test_small_jobs_with_panels_take_the_fewest_boards(seed: int) -> None:
    """Every number of strips that a panel may have, each by exhaustion."""
    draw = Random(200 + seed)
    board, milling = RoughBoard("", F(40), (F(draw.choice((10, 11, 12, 13)), 2),), F(1)), Milling()
    wide, long = F(draw.randrange(14, 22), 2), F(draw.randrange(24, 36), 2)
    panels = [BoardPart(f"DP{n}", long, wide) for n in range(2)]
    others = [BoardPart(f"P{n}", F(draw.randrange(20, 60), 2), F(3, 2)) for n in range(1)]
    problem = BoardProblem((*panels, *others), (), board, KERF, milling)
    plan = plan_boards(problem)
    assert not board_plan_faults(problem, plan) and {*plan.glued} == {"DP0", "DP1"}
    counts = {len(strips) for strips in plan.glued.values()}
    least = ceil((wide + milling.over_width) / milling.widest_strip)
    room = board.widths[0] - milling.first_edge
    if (wide + milling.over_width) / least + 2 * milling.glue_edge > room:
        least += 1
    fewest = min(
        fewest_boards(
            (*others, *(one for panel in panels for one in glued_from(panel, number, milling))),
            board,
            milling,
        )
        for number in (least, least + 1)
    )
    assert counts <= {least, least + 1}
    assert plan.bound_boards <= fewest == len(plan.boards)
