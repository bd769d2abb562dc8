"""Proof that wood at hand is not enough: a relaxation in which parts go to blanks without being laid out.

Every part must go to a blank that is large enough for it alone, and what goes to one blank must
respect it in area and under dual feasible functions in both directions: with f and g dual
feasible, the parts of any layout on a blank L x W have sum f(l/L) g(w/W) <= 1 (Fekete and
Schepers, "A general framework for bounds for higher-dimensional orthogonal packing problems",
2004; from memory). If even this has no answer, no layout has. The converse does not hold.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from math import floor

from ..casework.parts.part import Part
from ..casework.project import Project
from ..solver import Ending, Solver
from .facts import Blank

NODES = 200
"""Nodes after which the solver gives up; then nothing is proved."""

Dual = Callable[[Fraction], Fraction]


def _floors(k: int) -> Dual:
    """u(k) of Fekete and Schepers: counts how many (k+1)-ths a side takes, exact ones as they are."""

    def function(x: Fraction) -> Fraction:
        times = x * (k + 1)
        return x if times.denominator == 1 else Fraction(floor(times), k)

    return function


DUALS: tuple[Dual, ...] = (lambda x: x, _floors(1), _floors(2), _floors(3), _floors(4))


def proves_shortage(project: Project, parts: Sequence[Part], blanks: Sequence[Blank]) -> bool:
    """True when it is proved that `parts`, all of one material, cannot be cut from `blanks`."""
    sizes = [project.dimensions(part)[:2] for part in parts]
    turns = [project.may_turn(part) for part in parts]
    # A cut takes its kerf; with one kerf added to every part and every blank, parts lie edge to edge.
    kerf = project.job.shop.table_saw.kerf
    grown = [(length + kerf, width + kerf) for length, width in sizes]
    rooms = [
        (
            blank.length - blank.trim.left - blank.trim.right + kerf,
            blank.width - blank.trim.near - blank.trim.far + kerf,
        )
        for blank in blanks
    ]
    fits = [[_ways_in(part, room, may) for room in rooms] for part, may in zip(grown, turns, strict=True)]
    if any(not any(row) for row in fits):
        return True
    return _infeasible(grown, rooms, fits, turns)


def _ways_in(part: tuple[Fraction, Fraction], room: tuple[Fraction, Fraction], turns: bool) -> bool:
    length, width = part
    straight = length <= room[0] and width <= room[1]
    return straight or (turns and width <= room[0] and length <= room[1])


def _load(
    part: tuple[Fraction, Fraction], room: tuple[Fraction, Fraction], along: Dual, across: Dual, turns: bool
) -> Fraction:
    """The share of a blank that a part takes up: the least over the ways it may be turned."""
    lying = [part, part[::-1]] if turns else [part]
    return min(
        along(length / room[0]) * across(width / room[1])
        for length, width in lying
        if length <= room[0] and width <= room[1]
    )


def _infeasible(
    grown: Sequence[tuple[Fraction, Fraction]],
    rooms: Sequence[tuple[Fraction, Fraction]],
    fits: Sequence[Sequence[bool]],
    turns: Sequence[bool],
) -> bool:
    model = Solver(nodes=NODES)
    goes = {
        (part, room): model.addBinary()
        for part, row in enumerate(fits)
        for room, allowed in enumerate(row)
        if allowed
    }
    for part, row in enumerate(fits):
        model.addConstr(sum(goes[part, room] for room, allowed in enumerate(row) if allowed) == 1)
    for room, size in enumerate(rooms):
        inside = [part for part, row in enumerate(fits) if row[room]]
        for along in DUALS:
            for across in DUALS:
                loads = [float(_load(grown[part], size, along, across, turns[part])) for part in inside]
                if sum(loads) > 1:
                    # A hair of slack, so that rounding to floats can never make a false proof.
                    model.addConstr(
                        sum(load * goes[part, room] for load, part in zip(loads, inside, strict=True))
                        <= 1 + 1e-6
                    )
    answer = model.answer("proving that the wood at hand is not enough")
    return answer.ending is Ending.INFEASIBLE
