"""The best set of cut-up boards out of many: least to buy, then least used, then long leftovers.

Each cut-up board is a column, as Gilmore and Gomory put the cutting-stock problem (P. C. Gilmore, R. E.
Gomory: A linear programming approach to the cutting-stock problem. Operations Research 9, 1961).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..solver import Solver
from .fill_board import Cutting, PartKind

NODES = 40
AT_HAND = 0.01
"""What a board foot at hand counts beside one that is bought."""

NEXT_BEST = 1e-6


@dataclass(frozen=True)
class CutUp:
    """A board cut up: the `board`'s number in the problem, `feet` in it, `to_buy` if it is no board at hand,
    and the `counts` of each kind of part that it gives."""

    board: int
    to_buy: bool
    feet: float
    cutting: Cutting
    counts: tuple[int, ...]
    left_over: float

    @property
    def cost(self) -> float:
        return self.feet if self.to_buy else AT_HAND * self.feet


def cost_of(chosen: Sequence[CutUp]) -> float:
    """The board feet to buy, and a little for those used."""
    return sum(one.cost for one in chosen)


def choose_cut_up(pool: Sequence[CutUp], kinds: Sequence[PartKind]) -> tuple[CutUp, ...] | None:
    """The boards of the pool that give every part; None where the search found none in its nodes.

    Boards may give a part too many between them: what is not wanted is left on the board.
    """
    solver = Solver(nodes=NODES)
    for one in pool:
        solver.add_column(one.cost, 0, 1 if not one.to_buy else float("inf"))
    for number, kind in enumerate(kinds):
        gives = [at for at, one in enumerate(pool) if one.counts[number]]
        solver.add_row(len(kind.parts), float("inf"), gives, [pool[at].counts[number] for at in gives])
    for board in sorted({one.board for one in pool if not one.to_buy}):
        same = [at for at, one in enumerate(pool) if one.board == board and not one.to_buy]
        solver.add_row(0, 1, same, [1] * len(same))
    solver.make_integral(range(len(pool)))
    first = solver.answer("choosing boards")
    if not first.found:
        return None
    solver.add_row(0, first.cost + NEXT_BEST, list(range(len(pool))), [one.cost for one in pool])
    for at, one in enumerate(pool):
        # One long leftover is of more use than two short ones, hence the square.
        solver.price_column(at, 1.0 - one.left_over**2)
    second = solver.answer("choosing boards with long leftovers")
    values = (second if second.found else first).values
    return tuple(pool[at] for at, value in enumerate(values) for _ in range(round(value)))
