"""From a board problem to a plan, with a proof of how little any plan must use. The same input and seed give
the same plan."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import ceil

import numpy as np

from .board_plan import BoardLength, BoardPlan, BoardStrip, CutBoard, RoughPart
from .board_problem import BoardPart, BoardProblem
from .board_shape import BoardGrid, GridBoard
from .choose_boards import CutUp, choose_cut_up, cost_of
from .feet_bound import fits, least_feet
from .fill_board import BoardFiller, Cutting, PartKind, counts_of, kinds_of
from .share_out import share_out

ROUNDS = 12
"""How often all boards are cut up anew. With 24 a list of 52 parts took twice as long and came to the same
boards."""

SHAKE = 0.25
"""How far the draw moves a length's worth. With 0.1 the rounds were too much alike, with 0.5 too loose."""

BOARDS_TRIED = 3
"""Boards at hand that are cut up at each step, to take the one that is used best."""

PROBLEMS_KEPT = 16
"""Problems whose plans are remembered: a job is revised often while its boards' parts stay as they are."""

_ALMOST = 1e-4


@dataclass(frozen=True)
class BoardEffort:
    """How hard to look: so many rounds, from this seed."""

    rounds: int = ROUNDS
    seed: int = 0


@lru_cache(maxsize=PROBLEMS_KEPT)
def plan_boards(problem: BoardProblem, effort: BoardEffort = BoardEffort()) -> BoardPlan:
    """The best plan found: least to buy first, then least used of what is at hand, then parts that belong
    together from one board, then long leftovers. Parts that fit no board are left `unplaced`."""
    return _BoardSearch.of(problem).plan(effort)


def all_can_be_cut(problem: BoardProblem, effort: BoardEffort) -> bool:
    """Whether a round of cutting the boards up gives every part; it may exist where none is found."""
    return _BoardSearch.of(problem).gives_every_part(effort)


def boards_in_turn(problem: BoardProblem) -> int | None:
    """How many of the boards at hand it takes, cut up one after another as they come, until every part is
    cut; None where they do not do."""
    return _BoardSearch.of(problem).in_turn()


def lone_misfits(problem: BoardProblem) -> tuple[BoardPart, ...]:
    """The parts that fit on no board even alone."""
    search = _BoardSearch.of(problem)
    return tuple(
        part for kind in search.kinds for part in kind.parts if not any(fits(kind, b) for b in search.grids)
    )


@dataclass(eq=False)
class _BoardSearch:
    problem: BoardProblem
    grid: BoardGrid
    kinds: tuple[PartKind, ...]
    grids: tuple[GridBoard, ...]

    @classmethod
    def of(cls, problem: BoardProblem) -> _BoardSearch:
        grid = BoardGrid.of(problem)
        boards = tuple(GridBoard.of(board, grid, problem) for board in problem.boards)
        return cls(problem, grid, kinds_of(problem, grid), boards)

    @property
    def kerf(self) -> int:
        return self.grid.whole(self.problem.kerf)

    @property
    def endless(self) -> int | None:
        return len(self.problem.at_hand) if self.problem.bought is not None else None

    @property
    def shortest(self) -> int:
        return ceil(self.problem.shortest * self.grid.steps)

    def in_turn(self) -> int | None:
        filler, draw = BoardFiller(self.kinds, self.kerf, self.shortest), np.random.default_rng(0)
        wanted = [len(kind.parts) for kind in self.kinds]
        for number in range(len(self.problem.at_hand)):
            one = self._cut_up(number, filler, wanted, draw, 0.0)
            wanted = _less(wanted, one)
            if all(count <= 0 for count in wanted):
                return number + 1
        return None

    def gives_every_part(self, effort: BoardEffort) -> bool:
        filler, draw = BoardFiller(self.kinds, self.kerf, self.shortest), np.random.default_rng(effort.seed)
        rounds = (self._round(filler, draw, SHAKE if number else 0.0) for number in range(effort.rounds))
        return any(all(count <= 0 for count in _left(self.kinds, made)) for made in rounds)

    def plan(self, effort: BoardEffort) -> BoardPlan:
        kinds = [kind for kind in self.kinds if any(fits(kind, board) for board in self.grids)]
        lost = [part.name for kind in self.kinds if kind not in kinds for part in kind.parts]
        if not kinds:
            return BoardPlan((), Fraction(0), 0, tuple(lost))
        filler = BoardFiller(tuple(kinds), self.kerf, self.shortest)
        draw = np.random.default_rng(effort.seed)
        pool: dict[tuple[int, Cutting], CutUp] = {}
        best: tuple[CutUp, ...] | None = None
        fullest: tuple[CutUp, ...] = ()
        for number in range(effort.rounds):
            made = tuple(self._round(filler, draw, SHAKE if number else 0.0))
            pool |= {(one.board, one.cutting): one for one in made}
            if all(count <= 0 for count in _left(filler.kinds, made)):
                if best is None or cost_of(made) < cost_of(best):
                    best = made
            elif sum(map(_area_of(filler.kinds), made)) > sum(map(_area_of(filler.kinds), fullest)):
                fullest = made
        chosen = choose_cut_up(tuple(pool.values()), filler.kinds)
        if chosen is not None and (best is None or cost_of(chosen) <= cost_of(best) + _ALMOST):
            best = chosen
        return self._finished(
            filler.kinds, fullest if best is None else best, lost, found_all=best is not None
        )

    def _round(self, filler: BoardFiller, draw: np.random.Generator, shake: float) -> Iterator[CutUp]:
        """All parts from boards at hand in a drawn order, then from bought ones."""
        wanted = [len(kind.parts) for kind in filler.kinds]
        there = list(range(len(self.problem.at_hand)))
        while any(wanted) and there:
            tried = sorted(draw.permutation(len(there))[:BOARDS_TRIED])
            cut = [self._cut_up(there[at], filler, wanted, draw, shake) for at in tried]
            fullest = max(cut, key=lambda one: _area_of(filler.kinds)(one) / one.feet)
            there = [at for at in there if at != fullest.board] if fullest.cutting else []
            if fullest.cutting:
                yield fullest
            wanted = _less(wanted, fullest)
        while any(wanted) and self.endless is not None:
            one = self._cut_up(self.endless, filler, wanted, draw, shake)
            if not one.cutting:
                return
            yield one
            wanted = _less(wanted, one)

    def _cut_up(
        self, board: int, filler: BoardFiller, wanted: Sequence[int], draw: np.random.Generator, shake: float
    ) -> CutUp:
        rough = self.problem.boards[board]
        cutting = filler.fill(self.grids[board], wanted, draw, shake)
        end = cutting[-1].x + cutting[-1].length if cutting else 0
        left_over = 1.0 - end / float(rough.length * self.grid.steps)
        counts = counts_of(cutting, len(filler.kinds))
        return CutUp(board, board == self.endless, float(rough.feet), cutting, counts, left_over)

    def _finished(
        self, kinds: Sequence[PartKind], chosen: Sequence[CutUp], lost: list[str], *, found_all: bool
    ) -> BoardPlan:
        ordered = sorted(chosen, key=lambda one: (one.board, one.cutting[0].x, -_area_of(kinds)(one)))
        shared = share_out(kinds, [one.counts for one in ordered])
        boards: list[CutBoard] = []
        for one, names in zip(ordered, shared.by_board, strict=True):
            lengths = tuple(self._lengths(one.cutting, kinds, names))
            if lengths:
                board = self.problem.boards[one.board]
                boards.append(CutBoard(len(boards) + 1, board, one.to_buy, lengths))
        bought = any(one.to_buy for one in boards)
        bound = self._bound(kinds, bought) if found_all else Fraction(0)
        each = self.problem.bought.feet if self.problem.bought is not None else Fraction(1)
        fewest = _rounded_up(bound / each) if bought else 0
        return BoardPlan(tuple(boards), bound, fewest, (*lost, *shared.left))

    def _lengths(
        self, cutting: Cutting, kinds: Sequence[PartKind], names: dict[int, list[str]]
    ) -> Iterator[BoardLength]:
        """The lengths of a board with names on their parts. What nobody needs is left on the board."""
        back = self.grid.back
        for length in cutting:
            strips = []
            for strip in length.strips:
                parts, x = [], length.x
                for kind in strip.kinds:
                    if names[kind]:
                        parts.append(RoughPart(names[kind].pop(0), back(x), back(kinds[kind].length)))
                        x += kinds[kind].length + self.kerf
                if parts:
                    strips.append(BoardStrip(back(strip.y), back(strip.width), tuple(parts)))
            if strips:
                yield BoardLength(back(length.x), back(length.length), tuple(strips))

    def _bound(self, kinds: Sequence[PartKind], bought: bool) -> Fraction:
        """The least board feet to buy; where nothing is bought, the least to use."""
        feet = [board.feet for board in self.problem.boards]
        costs = [float(f) if not bought or at == self.endless else 0.0 for at, f in enumerate(feet)]
        least = least_feet(kinds, self.grids, costs, self.endless, self.kerf)
        if bought and self.problem.bought is not None:
            each = self.problem.bought.feet
            return each * _rounded_up(Fraction(least) / each)
        # A solver's sum is a little above or below the exact one.
        return max(Fraction(0), Fraction(least - _ALMOST).limit_denominator(1000))


def _less(wanted: Sequence[int], one: CutUp) -> list[int]:
    """How many of each kind are still wanted beside one board."""
    return [count - gives for count, gives in zip(wanted, one.counts, strict=True)]


def _left(kinds: Sequence[PartKind], made: Iterable[CutUp]) -> list[int]:
    """How many of each kind are wanted beside all these boards."""
    left = [len(kind.parts) for kind in kinds]
    for one in made:
        left = _less(left, one)
    return left


def _area_of(kinds: Sequence[PartKind]) -> Callable[[CutUp], float]:
    """The wood in parts of a board that is cut up."""

    def area(one: CutUp) -> float:
        return float(sum(kind.area * count for kind, count in zip(kinds, one.counts, strict=True)))

    return area


def _rounded_up(number: Fraction) -> int:
    """To the next whole number; a hair above one is that one, as a solver's sum is not exact."""
    return -int(-(number - Fraction(_ALMOST).limit_denominator(100_000)) // 1)
