"""How long each step takes: a small model of minutes that real times correct.

A step's minutes are a sum: so much for a setting, a cutter, taking up a piece, every foot of cut,
every hole, every square foot glued. Each of these figures is multiplied by the shop's own factor,
which begins at one and moves as real times come in: least squares with a pull towards one, so
that three readings do not overthrow a figure and thirty do (ridge regression; A. E. Hoerl and
R. W. Kennard, "Ridge regression: biased estimation for nonorthogonal problems", 1970).

The figures to start from are our assumption, not measured in any shop.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from enum import Enum

import numpy as np

from ..operations import Guide, Kind, Machine, Operation
from .batches import Batch


class Toil(Enum):
    """What takes time, each with its unit."""

    SETTING = "a setting"
    CUTTER = "a change of cutter"
    STRAIGHTEDGE = "a straightedge clamped"
    PIECE = "a piece taken up"
    FOOT = "a foot of cut"
    HOLE = "a hole"
    NOTCH = "a notch"
    DRY_FIT = "a dry fit"
    GLUE_UP = "a glue-up"


START: Mapping[Toil, float] = {
    Toil.SETTING: 2.0,
    Toil.CUTTER: 8.0,
    Toil.STRAIGHTEDGE: 2.0,
    Toil.PIECE: 0.5,
    Toil.FOOT: 0.1,
    Toil.HOLE: 0.12,
    Toil.NOTCH: 3.0,
    Toil.DRY_FIT: 10.0,
    Toil.GLUE_UP: 20.0,
}

PULL = 4.0
"""How many times' readings the starting figures count for."""

FLOOR = 0.1
"""No figure falls below this share of where it started: a reading can be wrong."""


@dataclass(frozen=True)
class Pace:
    """The shop's own figures: a factor for each kind of toil, one where nothing is known."""

    factors: Mapping[Toil, float] = field(default_factory=dict)

    def minutes(self, toil: Mapping[Toil, float]) -> float:
        """What so much toil takes."""
        return sum(START[kind] * self.factors.get(kind, 1.0) * amount for kind, amount in toil.items())


def toil_of(operation: Operation) -> dict[Toil, float]:
    """What one operation is made of, settings left out."""
    machine = operation.setting.machine
    if operation.kind is Kind.DRY_FIT:
        return {Toil.DRY_FIT: 1.0}
    if operation.kind is Kind.JOIN:
        return {Toil.GLUE_UP: 1.0}
    if operation.kind is Kind.NOTCH:
        return {Toil.PIECE: 1.0, Toil.NOTCH: 1.0}
    if machine is Machine.DRILL:
        return {Toil.PIECE: 1.0, Toil.HOLE: float(operation.holes)}
    toil = {Toil.PIECE: 1.0, Toil.FOOT: float(operation.travel) / 12}
    if operation.setting.guide is Guide.STRAIGHTEDGE:
        toil[Toil.STRAIGHTEDGE] = 1.0
    return toil


def toil_of_batch(batch: Batch) -> dict[Toil, float]:
    """What a whole batch is made of, its setting and cutter with it."""
    total = summed(toil_of(operation) for operation in batch.operations)
    if batch.new_setting:
        total[Toil.SETTING] = 1.0
    if batch.new_cutter:
        total[Toil.CUTTER] = 1.0
    return total


def summed(toils: Iterable[Mapping[Toil, float]]) -> dict[Toil, float]:
    """All of them together."""
    total: dict[Toil, float] = {}
    for toil in toils:
        for kind, amount in toil.items():
            total[kind] = total.get(kind, 0.0) + amount
    return total


@dataclass(frozen=True)
class Timed:
    """A real time: what was done, and the minutes it took."""

    toil: Mapping[Toil, float]
    minutes: float


def learn(times: Sequence[Timed]) -> Pace:
    """The factors that explain `times` best without leaving one further than they must.

    Each row is divided by what it was expected to take, so a long glue-up does not drown out the
    short cuts. Times of nothing, or of work with no toil in it, say nothing.
    """
    rows = [(timed, Pace().minutes(timed.toil)) for timed in times if timed.minutes > 0]
    rows = [(timed, usual) for timed, usual in rows if usual > 0]
    kinds = [kind for kind in Toil if any(timed.toil.get(kind) for timed, _ in rows)]
    if not kinds:
        return Pace()
    design = np.array(
        [[START[kind] * timed.toil.get(kind, 0.0) / usual for kind in kinds] for timed, usual in rows]
    )
    off = np.array([timed.minutes / usual for timed, usual in rows]) - design.sum(axis=1)
    # Pull towards one: a factor moves by what the readings say against PULL readings of "as usual".
    shift = np.linalg.solve(design.T @ design + PULL * np.diag(design.mean(axis=0) ** 2), design.T @ off)
    return Pace({kind: max(1.0 + float(move), FLOOR) for kind, move in zip(kinds, shift, strict=True)})


def timed_by_record(
    minutes: Iterable[tuple[tuple[str, ...], float]], batches: Sequence[Batch]
) -> tuple[Timed, ...]:
    """Real times of the record as toil: steps by key, with the setting where a whole batch was timed."""
    by_key = {operation.key: operation for batch in batches for operation in batch.operations}
    of_batch = {frozenset(op.key for op in batch.operations): batch for batch in batches}
    found = []
    for steps, took in minutes:
        batch = of_batch.get(frozenset(steps))
        known = [by_key[step] for step in steps if step in by_key]
        if known:
            toil = toil_of_batch(batch) if batch else summed(map(toil_of, known))
            found.append(Timed(toil, took))
    return tuple(found)
