"""Parts wider than a board: glued up edge to edge from strips of equal width.

A part that no board gives in one piece, or that is wider than a jointer faces, is divided into the fewest
strips that are no wider than a strip may be, or one more where that wastes less. From there on a strip is cut
from boards like any part.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from math import ceil
from string import ascii_lowercase

from ..shop.rough_boards import NARROWEST_STRIP
from .board_plan import BoardPlan
from .board_problem import BoardPart, BoardProblem
from .board_shape import BoardGrid, GridBoard
from .feet_bound import fits
from .fill_board import kinds_of

MORE = 1
"""Strips more than the fewest that are tried. One more is often narrow enough for two side by side on a
board; each further one is a glue line more and 1/8 in of wood."""

NumbersOfStrips = Mapping[str, tuple[int, ...]]
"""For each part to be glued up in how many strips that may be, the fewest first."""


def glued_width(problem: BoardProblem, part: BoardPart) -> Fraction:
    """How wide a panel is as it comes out of the clamps, still to be ripped to its width."""
    return part.width + problem.milling.over_width


def strips_of(problem: BoardProblem, part: BoardPart, number: int) -> tuple[BoardPart, ...]:
    """The strips of a part: `B1-DP1a`, `B1-DP1b` and so on. They are to come from one board."""
    wide = glued_width(problem, part) / number
    return tuple(
        BoardPart(f"{part.name}{letter}", part.length, wide, part.name, part.name)
        for letter in ascii_lowercase[:number]
    )


def in_strips(problem: BoardProblem, numbers: Mapping[str, int]) -> BoardProblem:
    """The problem with these parts divided into so many strips each."""
    parts = (
        one
        for part in problem.parts
        for one in (strips_of(problem, part, numbers[part.name]) if part.name in numbers else (part,))
    )
    return replace(problem, parts=tuple(parts))


def as_planned(problem: BoardProblem, plan: BoardPlan) -> BoardProblem:
    """The problem with each part that the plan glues up divided as the plan has it, as long as such strips
    are not too wide."""
    return in_strips(problem, strips_as_planned(problem, plan))


def strips_as_planned(problem: BoardProblem, plan: BoardPlan) -> dict[str, int]:
    """In how many strips the plan glues up each part, as long as such strips are not too wide."""
    return {
        part.name: len(plan.glued[part.name])
        for part in problem.parts
        if part.name in plan.glued and not too_wide(problem, part, len(plan.glued[part.name]))
    }


def too_wide(problem: BoardProblem, part: BoardPart, number: int) -> bool:
    """Whether so many strips of a part would be wider than a strip may be."""
    return glued_width(problem, part) > number * problem.milling.widest_strip


def to_glue_up(problem: BoardProblem) -> NumbersOfStrips:
    """The parts that are glued up: wider than one piece may be, or on no board in one piece, but on one in
    strips."""
    found: dict[tuple[Fraction, Fraction], tuple[int, ...]] = {}
    for part in problem.parts:
        size = (part.length, part.width)
        if not part.panel and size not in found:
            whole = part.width <= problem.milling.widest_piece and fits_a_board(problem, part)
            found[size] = () if whole else numbers_of_strips(problem, part)
    sized = ((part, found.get((part.length, part.width), ())) for part in problem.parts if not part.panel)
    return {part.name: numbers for part, numbers in sized if numbers}


def numbers_of_strips(problem: BoardProblem, part: BoardPart) -> tuple[int, ...]:
    """In how many strips a part may be glued up; empty where its strips fit no board, however narrow."""
    wide = glued_width(problem, part)
    least = max(2, ceil(wide / problem.milling.widest_strip))
    most = min(int(wide / NARROWEST_STRIP), len(ascii_lowercase))
    for number in range(least, most + 1):
        if fits_a_board(problem, strips_of(problem, part, number)[0]):
            return tuple(range(number, min(number + MORE, most) + 1))
    return ()


def fits_a_board(problem: BoardProblem, part: BoardPart) -> bool:
    """Whether a part in one piece, or a strip, lies on one of the boards if it is alone there."""
    alone = replace(problem, parts=(part,))
    grid = BoardGrid.of(alone)
    (kind,) = kinds_of(alone, grid)
    return any(fits(kind, GridBoard.of(board, grid, alone)) for board in problem.boards)
