"""What of a stretch of board is clear, in whole grid steps: the solver works on integers.

Every length goes onto one grid that holds all of them exactly; only the taper's width between two readings
need not lie on it, and is rounded down.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from math import lcm

from ..shop.rough_boards import RoughBoard
from .board_problem import BoardProblem


@dataclass(frozen=True)
class BoardGrid:
    """`steps` to an inch."""

    steps: int

    @classmethod
    def of(cls, problem: BoardProblem) -> BoardGrid:
        """The coarsest grid that holds every given length."""
        milling = problem.milling
        lengths = [
            problem.kerf,
            milling.end_trim,
            milling.first_edge,
            *(problem.rough_length(part) for part in problem.parts),
            *(problem.rough_width(part) for part in problem.parts),
        ]
        for board in problem.boards:
            lengths += [board.length, *board.widths]
            for defect in board.defects:
                lengths += [defect.start, defect.end, defect.low, defect.high]
        return cls(lcm(*(length.denominator for length in lengths)))

    def whole(self, length: Fraction) -> int:
        """A length in steps, rounded down where it does not lie on the grid."""
        return int(length * self.steps)

    def back(self, steps: int) -> Fraction:
        """So many steps in inches."""
        return Fraction(steps, self.steps)


Stretch = tuple[int, int]


@dataclass(eq=False)
class GridBoard:
    """A board on the grid: `first` and `last` are its ends after trimming, `defects` as (start, end, low,
    high)."""

    board: RoughBoard
    grid: BoardGrid
    first_edge: int
    first: int
    last: int
    defects: tuple[tuple[int, int, int, int], ...]
    _clear: dict[Stretch, tuple[Stretch, ...]] = field(default_factory=dict)

    @classmethod
    def of(cls, board: RoughBoard, grid: BoardGrid, problem: BoardProblem) -> GridBoard:
        trim = grid.whole(problem.milling.end_trim)
        defects = tuple(
            (grid.whole(one.start), grid.whole(one.end), grid.whole(one.low), grid.whole(one.high))
            for one in board.defects
        )
        edge = grid.whole(problem.milling.first_edge)
        return cls(board, grid, edge, trim, grid.whole(board.length) - trim, defects)

    def clear(self, start: int, end: int) -> tuple[Stretch, ...]:
        """The stretches across the board that are clear all the way from `start` to `end`, near edge first,
        once the near edge is jointed."""
        if (start, end) not in self._clear:
            self._clear[start, end] = tuple(self._stretches(start, end))
        return self._clear[start, end]

    def _stretches(self, start: int, end: int) -> list[Stretch]:
        width = self.grid.whole(self.board.least_width(self.grid.back(start), self.grid.back(end)))
        found, low = [], self.first_edge
        for near, far in sorted((near, far) for s, e, near, far in self.defects if s < end and e > start):
            if min(near, width) > low:
                found.append((low, min(near, width)))
            low = max(low, far)
        return [*found, (low, width)] if width > low else found
