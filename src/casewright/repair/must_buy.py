"""Proof that wood at hand is not enough: a relaxation in which parts go to blanks without being laid out.

Every part must go to a blank that is large enough for it alone, and what goes to one blank must
respect it in area and under dual feasible functions in both directions: with f and g dual
feasible, the parts of any layout on a blank L x W have sum f(l/L) g(w/W) <= 1 (Fekete and
Schepers, "A general framework for bounds for higher-dimensional orthogonal packing problems",
2004; from memory). If even this has no answer, no layout has. The converse does not hold.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import floor

import numpy as np
from numpy.typing import NDArray

from ..casework.parts.part import Part
from ..casework.project import Project
from ..solver import Ending, Solver
from .facts import Blank

NODES = 200
"""Nodes after which the solver gives up; then nothing is proved."""

PLACED = 1000
"""Parts put to blanks one by one before the solver is asked. Of a repair's few parts every way to share them
out is tried with less than that, and for a whole job the first try mostly finds room for all of them."""

HAIR = 1e-6
"""What a blank may take above its whole, so that rounding to floats can never make a false proof."""

Dual = Callable[[Fraction], Fraction]
Size = tuple[Fraction, Fraction]


def _floors(k: int) -> Dual:
    """u(k) of Fekete and Schepers: counts how many (k+1)-ths a side takes, exact ones as they are."""

    def function(x: Fraction) -> Fraction:
        times = x * (k + 1)
        return x if times.denominator == 1 else Fraction(floor(times), k)

    return function


DUALS: tuple[Dual, ...] = (lambda x: x, _floors(1), _floors(2), _floors(3), _floors(4))


def proves_shortage(project: Project, parts: Sequence[Part], blanks: Sequence[Blank]) -> bool:
    """True when it is proved that `parts`, all of one material, cannot be cut from `blanks`."""
    asked = _relaxed(project, parts, blanks)
    found = _shared_out(asked)
    return _infeasible(asked) if found is None else not found


def is_soon_ruled_out(project: Project, parts: Sequence[Part], blanks: Sequence[Blank]) -> bool:
    """True when a glance proves that `parts`, all of one material, cannot be cut from `blanks`.

    Costs a fraction of a layout, so that a layout which must fail need not be tried.
    """
    return _shared_out(_relaxed(project, parts, blanks)) is False


@dataclass(frozen=True)
class _Relaxed:
    """The relaxation. `counts` says how many parts there are of each kind, the largest kind first, and
    `rooms` the kind of each blank.

    `loads[kind, room]` are the shares of a blank of that kind that the part takes up, one for each pair of
    dual feasible functions; a part for which it is too small has none.
    """

    counts: tuple[int, ...]
    rooms: tuple[int, ...]
    loads: Mapping[tuple[int, int], NDArray[np.float64]]


def _relaxed(project: Project, parts: Sequence[Part], blanks: Sequence[Blank]) -> _Relaxed:
    # A cut takes its kerf; with one kerf added to every part and every blank, parts lie edge to edge.
    kerf = project.job.shop.table_saw.kerf
    kinds: Counter[tuple[Size, bool]] = Counter()
    for part in parts:
        length, width, _ = project.dimensions(part)
        kinds[(length + kerf, width + kerf), project.may_turn(part)] += 1
    rooms = [
        (
            blank.length - blank.trim.left - blank.trim.right + kerf,
            blank.width - blank.trim.near - blank.trim.far + kerf,
        )
        for blank in blanks
    ]
    order = sorted(kinds, key=lambda kind: kind[0][0] * kind[0][1], reverse=True)
    unlike = tuple(dict.fromkeys(rooms))
    loads = {
        (number, place): load
        for number, (size, turns) in enumerate(order)
        for place, room in enumerate(unlike)
        if (load := _loads(size, room, turns)) is not None
    }
    return _Relaxed(tuple(kinds[kind] for kind in order), tuple(unlike.index(room) for room in rooms), loads)


def _loads(part: Size, room: Size, turns: bool) -> NDArray[np.float64] | None:
    """The shares of a blank that a part takes up: the least over the ways it may be turned; None where it
    does not go in."""
    lying = (part, part[::-1]) if turns else (part,)
    ways_in = [
        np.outer(
            [float(dual(length / room[0])) for dual in DUALS],
            [float(dual(width / room[1])) for dual in DUALS],
        ).ravel()
        for length, width in lying
        if length <= room[0] and width <= room[1]
    ]
    return np.minimum.reduce(ways_in) if ways_in else None


def _shared_out(asked: _Relaxed) -> bool | None:
    """Whether the parts can be shared out among the blanks, tried one by one; None if it is still open when
    so many as `PLACED` have been put to a blank."""
    wanted = [kind for kind, count in enumerate(asked.counts) for _ in range(count)]
    taken = np.zeros((len(asked.rooms), len(DUALS) ** 2))
    # A part that none of the blanks takes is the shortest proof.
    if any(all((kind, room) not in asked.loads for room in set(asked.rooms)) for kind in set(wanted)):
        return False
    placed = 0
    chosen: list[int] = []
    first = 0  # the blank from which on the next part looks for room
    while len(chosen) < len(wanted):
        kind = wanted[len(chosen)]
        at = _first_room(asked, taken, kind, first)
        if at is not None:
            placed += 1
            if placed > PLACED:
                return None
            taken[at] += asked.loads[kind, asked.rooms[at]]
            chosen.append(at)
            # Parts of a kind are one as good as another: the next one goes no further back.
            alike = len(chosen) < len(wanted) and wanted[len(chosen)] == kind
            first = at if alike else 0
            continue
        if not chosen:
            return False
        at = chosen.pop()
        taken[at] -= asked.loads[wanted[len(chosen)], asked.rooms[at]]
        first = at + 1
    return True


def _first_room(asked: _Relaxed, taken: NDArray[np.float64], kind: int, first: int) -> int | None:
    """The first blank from `first` on with room for a part of this kind."""
    untouched: set[int] = set()
    for at in range(first, len(asked.rooms)):
        room = asked.rooms[at]
        load = asked.loads.get((kind, room))
        if load is None or room in untouched:
            continue
        if not taken[at].any():
            untouched.add(room)  # the others like it that are whole would do no better
        if (taken[at] + load <= 1 + HAIR).all():
            return at
    return None


def _infeasible(asked: _Relaxed) -> bool:
    """Whether the solver proves that the parts cannot be shared out among the blanks."""
    model = Solver(nodes=NODES)
    columns = [
        (kind, at)
        for kind in range(len(asked.counts))
        for at, room in enumerate(asked.rooms)
        if (kind, room) in asked.loads
    ]
    for kind, _ in columns:
        model.add_column(0.0, 0.0, asked.counts[kind])
    model.make_integral(range(len(columns)))
    for kind, count in enumerate(asked.counts):
        those = [column for column, (one, _) in enumerate(columns) if one == kind]
        model.add_row(count, count, those, np.ones(len(those)))
    for at, room in enumerate(asked.rooms):
        inside = [(column, kind) for column, (kind, one) in enumerate(columns) if one == at]
        if not inside:
            continue
        loads = np.array([asked.loads[kind, room] for _, kind in inside])
        counts = np.array([asked.counts[kind] for _, kind in inside])
        for values in np.unique(loads.T, axis=0):
            if values @ counts > 1:
                model.add_row(-np.inf, 1 + HAIR, [column for column, _ in inside], values)
    answer = model.answer("proving that the wood at hand is not enough")
    return answer.ending is Ending.INFEASIBLE
