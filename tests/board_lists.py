"""Boards and lists of parts to plan, drawn from a seed."""

from __future__ import annotations

from fractions import Fraction as F
from random import Random

from casewright.boards.board_plan import BoardPlan
from casewright.boards.board_problem import BoardPart, BoardProblem
from casewright.shop.rough_boards import BoardDefect, RoughBoard

USUAL = RoughBoard("", F(120), (F(7),), F(1))


def door_parts(doors: int) -> tuple[BoardPart, ...]:
    """Stiles, rails and panel strips of so many doors."""
    parts = []
    for number in range(doors):
        wide, high = F((14, 16, 18, 15, 20)[number % 5]), F((24, 30)[number % 2])
        for name, length, width in (
            ("L", high, F(9, 4)),
            ("R", high, F(9, 4)),
            ("T", wide - F(7, 2), F(9, 4)),
            ("B", wide - F(7, 2), F(5, 2)),
            ("P", high - 4, F(9, 2)),
        ):
            parts.append(BoardPart(f"D{number}-{name}", length, width, f"D{number}"))
    return tuple(parts)


def rough_boards(seed: int, number: int) -> tuple[RoughBoard, ...]:
    """Boards with a taper and a defect or two each."""
    draw = Random(seed)
    return tuple(_rough_board(draw, f"board {one}") for one in range(1, number + 1))


def _rough_board(draw: Random, name: str) -> RoughBoard:
    length = F(draw.randrange(8 * 60, 8 * 140), 8)
    first = draw.randrange(8 * 5, 8 * 9)
    widths = tuple(F(first + draw.randrange(-8, 9), 8) for _ in range(draw.choice((1, 2, 3, 4))))
    defects = []
    for _ in range(draw.randrange(3)):
        start = F(draw.randrange(int(length) - 6))
        low = F(draw.randrange(8 * 4), 8)
        defects.append(
            BoardDefect(start, start + draw.randrange(1, 6), low, low + F(draw.randrange(4, 16), 8))
        )
    return RoughBoard(name, length, widths, F(1), tuple(defects))


def any_list(seed: int, parts: int) -> tuple[BoardPart, ...]:
    """Parts of a few lengths and widths."""
    draw = Random(seed)
    lengths = [F(draw.randrange(16 * 8, 16 * 40), 16) for _ in range(5)]
    widths = [F(draw.randrange(16, 16 * 4), 16) for _ in range(3)]
    return tuple(
        BoardPart(f"P{one}", draw.choice(lengths), draw.choice(widths), draw.choice(("", "a", "b")))
        for one in range(parts)
    )


def doors_from(
    boards: tuple[RoughBoard, ...], bought: RoughBoard | None = USUAL, doors: int = 8
) -> BoardProblem:
    """So many doors from these boards, and bought ones where those do not do."""
    return BoardProblem(door_parts(doors), boards, bought, F(1, 8))


def board_of(plan: BoardPlan) -> dict[str, int]:
    """The number of the board that each part comes from, or each strip of one that is glued up."""
    return {part.name: one.number for one in plan.boards for part in one.parts}
