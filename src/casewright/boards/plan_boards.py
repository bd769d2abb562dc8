"""From a board problem to a plan, with a proof of how little any plan must use. The same input and seed give
the same plan."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from math import ceil

import numpy as np

from .board_bound import with_bound
from .board_plan import BoardLength, BoardPlan, BoardStrip, CutBoard, RoughPart
from .board_problem import BoardPart, BoardProblem
from .board_shape import BoardGrid, GridBoard
from .choose_boards import CutUp, choose_cut_up, cost_of
from .feet_bound import fits
from .fill_board import BoardFiller, Cutting, PartKind, counts_of, kinds_of
from .glue_up import NumbersOfStrips, in_strips, numbers_of_strips, to_glue_up
from .share_out import share_out

ROUNDS = 12
"""How often all boards are cut up anew. With 24 a list of 52 parts took twice as long and came to the same
boards."""

SHAKE = 0.25
"""How far the draw moves a length's worth. With 0.1 the rounds were too much alike, with 0.5 too loose."""

WIDTHS_TRIED = 4
"""Widths of panels that are tried in one strip more; each takes as long as a plan."""

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
    together from one board, then long leftovers. Parts that fit no board, not even in strips that are glued
    up, are left `unplaced`."""
    glued = to_glue_up(problem)
    plan = _plan_glued(problem, glued, effort)
    # A wide board at hand gives some of the wide parts in one piece, but not all.
    while more := _left_whole(problem, glued, plan):
        glued = {**glued, **more}
        plan = _plan_glued(problem, glued, effort)
    return with_bound(problem, glued, plan)


def _left_whole(problem: BoardProblem, glued: NumbersOfStrips, plan: BoardPlan) -> NumbersOfStrips:
    """The parts in one piece that found no place, and can be glued up. Only a part too wide for the boards
    to buy is left so."""
    left = (part for part in problem.parts if part.name in plan.unplaced and part.name not in glued)
    if problem.bought is None:
        return {}
    return {part.name: numbers for part in left if (numbers := numbers_of_strips(problem, part))}


def _plan_glued(problem: BoardProblem, glued: NumbersOfStrips, effort: BoardEffort) -> BoardPlan:
    """The best plan found with these parts glued up: from the fewest strips first, then, panels of one width
    after the other, from more where that takes less."""
    numbers = {name: fewest for name, (fewest, *_) in glued.items()}
    best = _BoardSearch.of(in_strips(problem, numbers)).plan(effort)
    for alike in _panels_of_a_width(problem, glued)[:WIDTHS_TRIED]:
        for number in glued[alike[0]][1:]:
            other = {**numbers, **dict.fromkeys(alike, number)}
            found = _BoardSearch.of(in_strips(problem, other)).plan(effort)
            if plan_cost(found) < plan_cost(best):
                best, numbers = found, other
    return best


def _panels_of_a_width(problem: BoardProblem, glued: NumbersOfStrips) -> list[list[str]]:
    """The names of the parts to glue up that are equally wide, those with most wood first."""
    alike: dict[tuple[Fraction, tuple[int, ...]], list[BoardPart]] = {}
    for part in problem.parts:
        if part.name in glued:
            alike.setdefault((part.width, glued[part.name]), []).append(part)
    most_first = sorted(alike.values(), key=lambda parts: -sum(one.length * one.width for one in parts))
    return [[part.name for part in parts] for parts in most_first]


def plan_cost(plan: BoardPlan) -> tuple[int, Fraction, Fraction]:
    """What a plan is judged by: no part left out, then least to buy, then least used."""
    return len(plan.unplaced), plan.feet_to_buy, plan.feet_used


def all_can_be_cut(problem: BoardProblem, effort: BoardEffort) -> bool:
    """Whether a round of cutting the boards up gives every part; it may exist where none is found. Parts are
    taken as they are, in one piece or in strips; so they are below."""
    return _BoardSearch.of(problem).gives_every_part(effort)


def boards_in_turn(problem: BoardProblem) -> int | None:
    """How many of the boards at hand it takes, cut up one after another as they come, until every part is
    cut; None where they do not do."""
    return _BoardSearch.of(problem).in_turn()


def lone_misfits(problem: BoardProblem) -> tuple[BoardPart, ...]:
    """The parts that fit on no board even alone and even in strips that are glued up."""
    glued = to_glue_up(problem)
    whole = replace(problem, parts=tuple(part for part in problem.parts if part.name not in glued))
    search = _BoardSearch.of(whole)
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

    def _filler(self, kinds: tuple[PartKind, ...], finishing: bool = False) -> BoardFiller:
        longest = self.problem.milling.longest_length
        limit = None if longest is None else self.grid.whole(longest)
        return BoardFiller(kinds, self.kerf, self.shortest, limit, finishing)

    def in_turn(self) -> int | None:
        filler, draw = self._filler(self.kinds), np.random.default_rng(0)
        wanted = [len(kind.parts) for kind in self.kinds]
        for number in range(len(self.problem.at_hand)):
            one = self._cut_up(number, filler, wanted, draw, 0.0)
            wanted = _less(wanted, one)
            if all(count <= 0 for count in wanted):
                return number + 1
        return None

    def gives_every_part(self, effort: BoardEffort) -> bool:
        filler, draw = self._filler(self.kinds), np.random.default_rng(effort.seed)
        rounds = (self._round(filler, draw, SHAKE if number else 0.0) for number in range(effort.rounds))
        return any(all(count <= 0 for count in _left(self.kinds, made)) for made in rounds)

    def plan(self, effort: BoardEffort) -> BoardPlan:
        kinds = [kind for kind in self.kinds if any(fits(kind, board) for board in self.grids)]
        lost = [part.of_part for kind in self.kinds if kind not in kinds for part in kind.parts]
        if not kinds:
            return BoardPlan((), Fraction(0), 0, tuple(lost))
        filler = self._filler(tuple(kinds))
        draw = np.random.default_rng(effort.seed)
        pool: dict[tuple[int, Cutting], CutUp] = {}
        best: tuple[CutUp, ...] | None = None
        fullest: tuple[CutUp, ...] = ()
        # The last round is a finishing one: without it one of twenty small jobs of two panels took a board
        # more than the least. Finishing in every round cost one of eight lists of 60 parts a board.
        last = self._filler(tuple(kinds), finishing=True)
        for number in range(effort.rounds + 1):
            finishing = number == effort.rounds
            shake = SHAKE if number and not finishing else 0.0
            made = tuple(self._round(last if finishing else filler, draw, shake))
            pool |= {(one.board, one.cutting): one for one in made}
            if all(count <= 0 for count in _left(filler.kinds, made)):
                if best is None or cost_of(made) < cost_of(best):
                    best = made
            elif sum(map(_area_of(filler.kinds), made)) > sum(map(_area_of(filler.kinds), fullest)):
                fullest = made
        chosen = choose_cut_up(tuple(pool.values()), filler.kinds)
        if chosen is not None and (best is None or cost_of(chosen) <= cost_of(best) + _ALMOST):
            best = chosen
        return self._finished(filler.kinds, fullest if best is None else best, lost)

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

    def _finished(self, kinds: Sequence[PartKind], chosen: Sequence[CutUp], lost: list[str]) -> BoardPlan:
        ordered = sorted(chosen, key=lambda one: (one.board, one.cutting[0].x, -_area_of(kinds)(one)))
        shared = share_out(kinds, [one.counts for one in ordered])
        panels = {part.name: part.panel for kind in kinds for part in kind.parts}
        # A panel that lacks a strip is none.
        left = {panels[name] or name: None for name in shared.left}
        boards: list[CutBoard] = []
        for one, names in zip(ordered, shared.by_board, strict=True):
            whole = {
                kind: [name for name in of_kind if panels[name] not in left]
                for kind, of_kind in names.items()
            }
            lengths = tuple(self._lengths(one.cutting, kinds, whole, panels))
            if lengths:
                board = self.problem.boards[one.board]
                boards.append(CutBoard(len(boards) + 1, board, one.to_buy, lengths))
        return BoardPlan(tuple(boards), Fraction(0), 0, tuple(dict.fromkeys((*lost, *left))))

    def _lengths(
        self,
        cutting: Cutting,
        kinds: Sequence[PartKind],
        names: dict[int, list[str]],
        panels: Mapping[str, str],
    ) -> Iterator[BoardLength]:
        """The lengths of a board with names on their parts. What nobody needs is left on the board: a length
        that gives a part more than is wanted is crosscut shorter."""
        back = self.grid.back
        for length in cutting:
            strips, end = [], length.x + min(self.shortest, length.length)
            for strip in length.strips:
                parts, x = [], length.x
                for kind in strip.kinds:
                    if names[kind]:
                        name = names[kind].pop(0)
                        parts.append(RoughPart(name, back(x), back(kinds[kind].length), panels[name]))
                        x += kinds[kind].length + self.kerf
                if parts:
                    strips.append(BoardStrip(back(strip.y), back(strip.width), tuple(parts)))
                    end = max(end, x - self.kerf)
            if strips:
                yield BoardLength(back(length.x), back(end - length.x), tuple(strips))


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
