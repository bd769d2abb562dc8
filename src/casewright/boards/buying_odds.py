"""How many board feet of a grade to buy so that they are enough, and how sure that is.

Lots are drawn from a seed, board after board, and of each is found how many boards it takes until every
part can be cut. So much bought is enough in a lot if it reaches as far as the last of them.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from itertools import islice
from math import ceil

from ..shop.lumber import LumberGrade, board_feet
from ..shop.rough_boards import RoughBoard, feet_of
from .board_problem import BoardProblem
from .plan_boards import PROBLEMS_KEPT, BoardEffort, all_can_be_cut, boards_in_turn
from .random_lots import boards_of_grade

SURE = Fraction(95, 100)
"""In which share of the lots the boards are to be enough."""

QUICK = BoardEffort(rounds=2)

MOST_BOARDS = 100
"""In a lot; a job that takes more is told that it cannot be said."""


FIRST_DRAWN = 12
"""Boards of a lot that are drawn before it is asked whether they do; most jobs need no more, and to draw a
hundred took half the time of a small one."""


@dataclass(frozen=True)
class LotNeeds:
    """Of one lot: the board feet of its boards as far as they are needed, and without the last of those."""

    needed: Fraction
    without_last: Fraction


@dataclass(frozen=True)
class BuyingOdds:
    """`lots` drawn, ordered by what they need; those that would never do are not among them but in
    `hopeless`. No purchase is smaller than the `least_board` of the grade, in whole board feet."""

    lots: tuple[LotNeeds, ...]
    hopeless: int = 0
    least_board: int = 0

    @property
    def drawn(self) -> int:
        """How many lots were drawn."""
        return len(self.lots) + self.hopeless

    def lots_enough(self, feet: Fraction) -> int:
        """In how many of the lots so many board feet are enough."""
        return sum(one.without_last < feet for one in self.lots)

    def to_buy(self, sure: Fraction = SURE) -> int | None:
        """The least whole board feet that are enough in at least this share of the lots; None if none are."""
        at = ceil(sure * self.drawn) - 1
        if at >= len(self.lots):
            return None
        without_last = sorted(one.without_last for one in self.lots)[at]
        return max(int(without_last) + 1, self.least_board) if without_last >= 0 else 0


def nothing_needed(lots: int) -> BuyingOdds:
    """So many lots where the boards at hand are enough."""
    return BuyingOdds(tuple(LotNeeds(Fraction(0), Fraction(-1)) for _ in range(lots)))


@lru_cache(maxsize=PROBLEMS_KEPT)
def buying_odds(
    problem: BoardProblem, grade: LumberGrade, lots: int, seed: int = 0, effort: BoardEffort = QUICK
) -> BuyingOdds:
    """What so many lots of this grade need beside the boards at hand. The problem says which board is
    usual. Remembered, as a job's pages, papers and commands all ask for it."""
    if problem.bought is None or all_can_be_cut(replace(problem, bought=None), effort):
        return nothing_needed(lots)
    found = [
        lot_needs(problem, lot_of(problem.bought, grade, seed * 100_000 + number), effort)
        for number in range(lots)
    ]
    known = sorted((one for one in found if one is not None), key=lambda one: one.needed)
    least = board_feet(grade.least_length, grade.least_width, problem.bought.thickness)
    return BuyingOdds(tuple(known), len(found) - len(known), ceil(least))


def lot_of(usual: RoughBoard, grade: LumberGrade, seed: int) -> Iterable[RoughBoard]:
    """A lot of boards of this grade, as many as are asked for."""
    return boards_of_grade(grade, usual.length, usual.widths[0], usual.thickness, seed)


def lot_needs(
    problem: BoardProblem, lot: Iterable[RoughBoard], effort: BoardEffort = QUICK
) -> LotNeeds | None:
    """How far into a lot one must go until every part can be cut; None where no end is in sight.

    The boards are first cut up as they come; then it is tried whether all together would do without the last.
    """
    drawing = iter(lot)
    boards: tuple[RoughBoard, ...] = ()
    needed = None
    for upto in (min(FIRST_DRAWN, MOST_BOARDS), MOST_BOARDS):
        boards = (*boards, *islice(drawing, upto - len(boards)))
        needed = boards_in_turn(replace(problem, at_hand=(*problem.at_hand, *boards), bought=None))
        if needed is not None:
            break
    if needed is None:
        return None
    taken = max(0, needed - len(problem.at_hand))
    while taken > 1 and _do(problem, boards[: taken - 1], effort):
        taken -= 1
    return LotNeeds(feet_of(boards[:taken]), feet_of(boards[: taken - 1]))


def _do(problem: BoardProblem, boards: Sequence[RoughBoard], effort: BoardEffort) -> bool:
    return all_can_be_cut(replace(problem, at_hand=(*problem.at_hand, *boards), bought=None), effort)
