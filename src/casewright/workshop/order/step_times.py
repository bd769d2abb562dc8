"""How long each step takes: a simple model of minutes, corrected by recorded times.

A step's minutes are a sum: so much for a setting, a cutter, taking up a piece, every foot of cut,
every hole, every foot of edging. Each of these figures is multiplied by the shop's own factor,
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

from ..operations import Guide, Machine, Operation, OperationKind
from .batches import Batch


class Effort(Enum):
    """What takes time, each with its unit."""

    SETTING = "a setting"
    CUTTER = "a change of cutter"
    STRAIGHTEDGE = "clamping a straightedge"
    PIECE = "picking up a piece"
    FOOT = "a foot of cut"
    HOLE = "a hole"
    NOTCH = "a notch"
    DRY_FIT = "a dry fit"
    GLUE_UP = "a glue-up"
    EDGING = "a foot of edging"
    FRAME_JOINT = "a joint of a frame"
    DOVETAILS = "a dovetailed end"
    LEVELING = "a foot of a panel leveled by hand"


START: Mapping[Effort, float] = {
    Effort.SETTING: 2.0,
    Effort.CUTTER: 8.0,
    Effort.STRAIGHTEDGE: 2.0,
    Effort.PIECE: 0.5,
    Effort.FOOT: 0.1,
    Effort.HOLE: 0.12,
    Effort.NOTCH: 3.0,
    Effort.DRY_FIT: 10.0,
    Effort.GLUE_UP: 20.0,
    Effort.EDGING: 2.0,
    Effort.FRAME_JOINT: 4.0,
    Effort.DOVETAILS: 6.0,
    Effort.LEVELING: 5.0,
}

PULL = 4.0
"""How many recorded times the starting figures count for."""

FLOOR = 0.1
"""No figure falls below this share of where it started: a recorded time can be wrong."""


@dataclass(frozen=True)
class Pace:
    """The shop's own figures: a factor for each kind of effort, one where nothing is known."""

    factors: Mapping[Effort, float] = field(default_factory=dict)

    def minutes(self, effort: Mapping[Effort, float]) -> float:
        """How many minutes this effort takes."""
        return sum(START[kind] * self.factors.get(kind, 1.0) * amount for kind, amount in effort.items())


def effort_of(operation: Operation) -> dict[Effort, float]:
    """What one operation is made of, settings left out."""
    machine = operation.setting.machine
    if operation.kind is OperationKind.DRY_FIT:
        return {Effort.DRY_FIT: 1.0}
    if operation.kind is OperationKind.FLUSH and machine is Machine.BENCH:
        return {Effort.PIECE: 1.0, Effort.LEVELING: float(operation.size[0]) / 12}
    if operation.kind in (OperationKind.JOIN, OperationKind.GLUE_PANEL):
        return {Effort.GLUE_UP: 1.0}
    if operation.kind.edges:
        return {Effort.PIECE: 1.0, Effort.EDGING: float(operation.travel) / 12}
    if operation.kind is OperationKind.NOTCH:
        return {Effort.PIECE: 1.0, Effort.NOTCH: 1.0}
    if operation.kind is OperationKind.FRAME_JOINT:
        return {Effort.PIECE: 1.0, Effort.FRAME_JOINT: 1.0}
    if operation.kind is OperationKind.DOVETAILS:
        return {Effort.PIECE: 1.0, Effort.DOVETAILS: 1.0}
    if machine is Machine.DRILL:
        return {Effort.PIECE: 1.0, Effort.HOLE: float(operation.holes)}
    effort = {Effort.PIECE: 1.0, Effort.FOOT: float(operation.travel) / 12}
    clamped_already = operation.key in operation.together[1:]
    if operation.setting.guide is Guide.STRAIGHTEDGE and not clamped_already:
        effort[Effort.STRAIGHTEDGE] = 1.0
    return effort


def effort_of_batch(batch: Batch) -> dict[Effort, float]:
    """What a whole batch is made of, its setting and cutter with it."""
    return total_effort([*map(effort_of, batch.operations), effort_of_setup(batch)])


def effort_of_setup(batch: Batch) -> dict[Effort, float]:
    """What it takes before the first piece of a batch is run: its setting and its cutter, where new."""
    setting = {Effort.SETTING: 1.0} if batch.new_setting else {}
    return setting | ({Effort.CUTTER: 1.0} if batch.new_cutter else {})


def total_effort(toils: Iterable[Mapping[Effort, float]]) -> dict[Effort, float]:
    """The sum of several efforts."""
    total: dict[Effort, float] = {}
    for effort in toils:
        for kind, amount in effort.items():
            total[kind] = total.get(kind, 0.0) + amount
    return total


@dataclass(frozen=True)
class TimedWork:
    """A recorded time: what was done, and the minutes it took."""

    effort: Mapping[Effort, float]
    minutes: float


def learn_pace(times: Sequence[TimedWork]) -> Pace:
    """The factors that fit `times` best while staying as near to one as they can.

    Each row is divided by what it was expected to take, so a long glue-up does not drown out the
    short cuts. Times of zero, and work without any known effort, are left out.
    """
    rows = [(timed, Pace().minutes(timed.effort)) for timed in times if timed.minutes > 0]
    rows = [(timed, usual) for timed, usual in rows if usual > 0]
    kinds = [kind for kind in Effort if any(timed.effort.get(kind) for timed, _ in rows)]
    if not kinds:
        return Pace()
    design = np.array(
        [[START[kind] * timed.effort.get(kind, 0.0) / usual for kind in kinds] for timed, usual in rows]
    )
    off = np.array([timed.minutes / usual for timed, usual in rows]) - design.sum(axis=1)
    # Pull towards one: a factor moves by what the readings say against PULL readings of "as usual".
    shift = np.linalg.solve(design.T @ design + PULL * np.diag(design.mean(axis=0) ** 2), design.T @ off)
    return Pace({kind: max(1.0 + float(move), FLOOR) for kind, move in zip(kinds, shift, strict=True)})


def timed_work(
    minutes: Iterable[tuple[tuple[str, ...], float]], batches: Sequence[Batch]
) -> tuple[TimedWork, ...]:
    """The recorded times, each with its effort: of the steps by key, and of the setting where a whole
    batch was timed."""
    by_key = {operation.key: operation for batch in batches for operation in batch.operations}
    of_batch = {frozenset(op.key for op in batch.operations): batch for batch in batches}
    found = []
    for steps, took in minutes:
        batch = of_batch.get(frozenset(steps))
        known = [by_key[step] for step in steps if step in by_key]
        if known:
            effort = effort_of_batch(batch) if batch else total_effort(map(effort_of, known))
            found.append(TimedWork(effort, took))
    return tuple(found)
