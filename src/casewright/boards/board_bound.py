"""How little any plan of a problem must buy or use: proved for every number of strips that its wide parts may
be glued up from."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from .board_plan import BoardPlan
from .board_problem import BoardPart, BoardProblem
from .board_shape import BoardGrid, GridBoard
from .feet_bound import WantedParts, least_feet
from .fill_board import PartKind, kinds_of
from .glue_up import NumbersOfStrips, fits_a_board, in_strips, strips_of

_ALMOST = 1e-4


def with_bound(problem: BoardProblem, glued: NumbersOfStrips, plan: BoardPlan) -> BoardPlan:
    """The plan with what is proved of it; nothing is where a part that would fit a board has found none."""
    bought = bool(plan.to_buy)
    in_fewest = in_strips(problem, {name: numbers[0] for name, numbers in glued.items()})
    parts = tuple(part for part in in_fewest.parts if part.of_part not in plan.unplaced)
    left = tuple(part for part in in_fewest.parts if part not in parts)
    if not parts or any(fits_a_board(in_fewest, part) for part in left):
        return plan
    wanted = tuple(part for part in problem.parts if part.of_part not in plan.unplaced)
    bound = _least(replace(problem, parts=wanted), glued, bought)
    each = problem.bought.feet if problem.bought is not None else Fraction(1)
    return replace(plan, bound=bound, bound_boards=_rounded_up(bound / each) if bought else 0)


def _least(problem: BoardProblem, glued: NumbersOfStrips, bought: bool) -> Fraction:
    """The least board feet to buy; where nothing is bought, the least to use."""
    every = [
        one
        for part in problem.parts
        for number in glued.get(part.name, (0,))
        for one in (strips_of(problem, part, number) if number else (part,))
    ]
    grid = BoardGrid.of(replace(problem, parts=tuple(every)))
    boards = [GridBoard.of(board, grid, problem) for board in problem.boards]
    endless = len(problem.at_hand) if problem.bought is not None else None
    feet = [board.feet for board in problem.boards]
    costs = [float(f) if not bought or at == endless else 0.0 for at, f in enumerate(feet)]
    least = least_feet(tuple(_wanted(problem, glued, grid)), boards, costs, endless, grid.whole(problem.kerf))
    if bought and problem.bought is not None:
        each = problem.bought.feet
        return each * _rounded_up(Fraction(least) / each)
    # A solver's sum is a little above or below the exact one.
    return max(Fraction(0), Fraction(least - _ALMOST).limit_denominator(1000))


def _wanted(problem: BoardProblem, glued: NumbersOfStrips, grid: BoardGrid) -> Iterator[WantedParts]:
    whole = replace(problem, parts=tuple(part for part in problem.parts if part.name not in glued))
    for kind in kinds_of(whole, grid):
        yield WantedParts(len(kind.parts), ((1, kind),))
    alike: dict[tuple[Fraction, Fraction, tuple[int, ...]], list[BoardPart]] = {}
    for part in problem.parts:
        if part.name in glued:
            alike.setdefault((part.length, part.width, glued[part.name]), []).append(part)
    for (_, _, numbers), parts in alike.items():
        ways = tuple((number, _strip_kind(problem, parts[0], number, grid)) for number in numbers)
        yield WantedParts(len(parts), ways)


def _strip_kind(problem: BoardProblem, part: BoardPart, number: int, grid: BoardGrid) -> PartKind:
    (kind,) = kinds_of(replace(problem, parts=strips_of(problem, part, number)), grid)
    return kind


def _rounded_up(number: Fraction) -> int:
    """To the next whole number; a hair above one is that one, as a solver's sum is not exact."""
    return -int(-(number - Fraction(_ALMOST).limit_denominator(100_000)) // 1)
