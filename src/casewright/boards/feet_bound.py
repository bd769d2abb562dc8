"""How few board feet any way of cutting needs: a proof that does not ask how the boards are cut.

Parts are shared out over boards in fractions. Of every board, whatever is measured of the parts in it may not
be more than the board has: their area, kerfs with it; and their sizes seen through step functions that never
add up to more than the whole (dual feasible functions: S. P. Fekete, J. Schepers: A general framework for
bounds for higher-dimensional orthogonal packing problems. Mathematical Methods of Operations Research 60,
2004).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import ceil

from ..solver import Ending, Solver
from .board_shape import GridBoard
from .fill_board import PartKind

NODES = 200


@dataclass(frozen=True)
class WantedParts:
    """So many parts, each got in any of some `ways`: the number of pieces it takes, and their kind."""

    count: int
    ways: tuple[tuple[int, PartKind], ...]


Measure = Callable[[Fraction], Fraction]


def _whole(share: Fraction) -> Fraction:
    return share


def _steps(parts: int) -> Measure:
    """Of shares more than a `parts + 1`-th, at most `parts` go into a whole; smaller ones count nothing."""

    def measure(share: Fraction) -> Fraction:
        times = share * (parts + 1)
        return share if times.denominator == 1 else Fraction(int(times), parts)

    return measure


def _alone(least: Fraction) -> Measure:
    """Shares that leave no room for one of `least` count as the whole, smaller ones than that as nothing."""

    def measure(share: Fraction) -> Fraction:
        return Fraction(1) if share > 1 - least else Fraction(0) if share < least else share

    return measure


MEASURES: tuple[Measure, ...] = (_whole, *map(_steps, (1, 2, 3)))


def fullest(sizes: Sequence[int], room: int, kerf: int) -> int:
    """The most that pieces of these sizes, side by side with a kerf between them, fill of a room."""
    filled = {0: 0}  # what is taken, kerfs with it, and the most that pieces fill of it
    for size in sorted(set(sizes)):
        for taken in sorted(filled):
            most = filled[taken]
            while (taken := taken + size + kerf) <= room + kerf:
                most += size
                filled[taken] = max(filled.get(taken, 0), most)
    return max(filled.values())


def least_feet(
    wanted: Sequence[WantedParts],
    boards: Sequence[GridBoard],
    costs: Sequence[float],
    endless: int | None,
    kerf: int,
) -> float:
    """The least that boards for all the parts cost, by their `costs`; the board numbered `endless` can be
    had as often as needed, each other once. Infinite where a part goes into none."""
    solver = Solver(nodes=NODES, to_the_end=True)
    relaxed = Solver()
    for model in (solver, relaxed):
        _fill_model(model, wanted, boards, costs, endless, kerf)
    solver.make_integral(range(len(boards)))
    whole = solver.answer("proving the least board feet")
    if whole.ending is Ending.OPTIMAL:
        return whole.cost
    part = relaxed.answer("proving the least board feet")
    return part.cost if part.ending is Ending.OPTIMAL else float("inf")


def fits(kind: PartKind, board: GridBoard) -> bool:
    """Whether a part of this kind can lie anywhere on the board: beside its defects in one of their gaps."""
    starts = {board.first, *(end for _, end, _, _ in board.defects)}
    starts |= {begin - kind.length for begin, _, _, _ in board.defects}
    starts |= {board.last - kind.length}
    starts |= _stations(board, kind)
    return any(
        any(far - near >= kind.width for near, far in board.clear(start, start + kind.length))
        for start in starts
        if board.first <= start <= board.last - kind.length
    )


def _stations(board: GridBoard, kind: PartKind) -> set[int]:
    """Places where the least width over the part's length can be greatest: an end of it at a station."""
    at = {board.grid.whole(place) for place in board.board.stations}
    return at | {place - kind.length for place in at}


def _fill_model(
    model: Solver,
    wanted: Sequence[WantedParts],
    boards: Sequence[GridBoard],
    costs: Sequence[float],
    endless: int | None,
    kerf: int,
) -> None:
    for number, cost in enumerate(costs):
        model.add_column(cost, 0, float("inf") if number == endless else 1)
    kinds = [kind for one in wanted for _, kind in one.ways]
    column = len(boards)
    of_kind: list[list[int]] = [[] for _ in kinds]
    for number, board in enumerate(boards):
        inside = [(at, kind) for at, kind in enumerate(kinds) if fits(kind, board)]
        places = list(range(column, column + len(inside)))
        for at, _ in inside:
            of_kind[at].append(column)
            model.add_column(0, 0, float("inf"))
            column += 1
        for row in _rows(board, [kind for _, kind in inside], kerf):
            model.add_row(-float("inf"), 0, [*places, number], [*row, -1])
    at = 0
    for parts in wanted:
        columns, shares = [], []
        for pieces, _ in parts.ways:
            columns += of_kind[at]
            shares += [1 / pieces] * len(of_kind[at])
            at += 1
        model.add_row(parts.count, float("inf"), columns, shares)


def _rows(board: GridBoard, kinds: Sequence[PartKind], kerf: int) -> list[list[float]]:
    """The share of the board that a part of each kind takes, by each measure."""
    length = board.last - board.first
    width = board.grid.whole(board.board.widest) - board.first_edge
    long = _scales([one.length for one in kinds], length, kerf)
    wide = _scales([one.width for one in kinds], width, kerf, apart=True)
    rows = [
        [u * v for u, v in zip(of_length, of_width, strict=True)] for of_length in long for of_width in wide
    ]
    area = _clear_area(board, kerf)
    rows.append([float((one.length + kerf) * (one.width + kerf) / area) for one in kinds])
    return rows


def _scales(sizes: Sequence[int], room: int, kerf: int, *, apart: bool = False) -> list[list[float]]:
    """What pieces of these sizes take of a room one way, by each measure: of those side by side never more
    than the whole. The last is by the most that such pieces can fill of it at all."""
    shares = [Fraction(size + kerf, room + kerf) for size in sizes]
    # A strip beside which none of the others fits takes the width alone. Lengths are too many to ask that of.
    alone = [_alone(share) for share in sorted({one for one in shares if 2 * one <= 1})] if apart else []
    scales = [[float(measure(share)) for share in shares] for measure in (*MEASURES, *alone)]
    most = fullest(sizes, room, kerf)
    return [*scales, [size / most for size in sizes]] if sizes else scales


def _clear_area(board: GridBoard, kerf: int) -> Fraction:
    """No less than what parts and the kerfs beyond them can cover: the face between the trims with a kerf
    more all round, without the inside of its defects, of which a kerf may take an edge."""
    grid, rough = board.grid, board.board
    places = sorted({board.first, board.last, *map(grid.whole, rough.stations)})
    inside = [at for at in places if board.first <= at <= board.last]
    face = sum(
        (
            Fraction(end - start)
            * (rough.width_at(grid.back(start)) + rough.width_at(grid.back(end)))
            * grid.steps
            / 2
            for start, end in pairwise(inside)
        ),
        Fraction(0),
    )
    # Where the board tapers from left to right, a kerf right of a part reaches beyond the far edge.
    falls = sum((max(Fraction(0), a - b) for a, b in pairwise(rough.widths)), Fraction(0))
    length, width = board.last - board.first, ceil((rough.widest + falls) * grid.steps)
    return face - length * board.first_edge + kerf * (length + width + kerf) - _lost(board, kerf)


def _lost(board: GridBoard, kerf: int) -> int:
    """What of the largest defect no part and no kerf beside one can cover; the others may lie over it."""
    lost = 0
    for start, end, low, high in board.defects:
        long = min(end, board.last) - max(start, board.first) - kerf
        wide = min(high, board.grid.whole(board.board.widest)) - max(low, board.first_edge) - kerf
        lost = max(lost, max(0, long) * max(0, wide))
    return lost
