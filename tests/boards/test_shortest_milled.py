"""No length of a board is milled that jointer and planer cannot hold."""

from __future__ import annotations

from fractions import Fraction as F

from casewright.boards.board_problem import BoardPart, BoardProblem
from casewright.boards.plan_boards import plan_boards
from casewright.shop.rough_boards import RoughBoard


def test_short_parts_are_cut_end_to_end_in_one_length() -> None:
    """Two widths, which do not share a strip: alone, the wider part would be cut from 7 in of board."""
    parts = (BoardPart("rail 1", F(6), F(2)), BoardPart("rail 2", F(6), F(5, 2)))
    board = RoughBoard("A", F(96), (F(3),), F(1))
    free, held = (
        plan_boards(BoardProblem(parts, (), board, F(1, 8), shortest=shortest)) for shortest in (F(0), F(12))
    )
    assert not free.unplaced and not held.unplaced
    assert all(length.length >= 12 for one in held.boards for length in one.lengths)
    assert any(length.length < 12 for one in free.boards for length in one.lengths)
