"""Hours at the bench, by what is done: the minutes of every step of the plan."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from ..assembly.joining import Joinings, Stage
from ..operations import Operation, OperationKind
from ..order.batches import Batch
from ..order.step_times import Effort, Pace, effort_of, effort_of_setup, total_effort


class Session(Enum):
    """What is done in one go at the bench, in the order in which it comes."""

    BOARDS = "milling rough boards"
    SHEETS = "cutting up sheets"
    JOINTS = "dados, grooves, rabbets, notches and frame joints"
    BORING = "boring"
    EDGING = "edging"
    DRY_FITS = "dry fits"
    CASES = "gluing up cases"
    FRONTS = "gluing up doors and drawers"
    HANGING = "hanging fronts"


@dataclass(frozen=True, slots=True)
class SessionHours:
    """Hours of one session, in tenths of an hour, and how many steps of the plan it has."""

    session: Session
    hours: Fraction
    steps: int


def bench_hours(batches: Iterable[Batch], joinings: Joinings, pace: Pace) -> tuple[SessionHours, ...]:
    """The hours of every session that the plan has. A setting or a change of cutter counts with the first
    piece that is run on it."""
    stages = {one.key: one.stage for case in joinings.values() for one in case}
    toil: dict[Session, list[Mapping[Effort, float]]] = {}
    steps: dict[Session, int] = {}
    for batch in batches:
        for place, operation in enumerate(batch.operations):
            session = _session(operation, stages)
            before = effort_of_setup(batch) if place == 0 else {}
            toil.setdefault(session, []).append(effort_of(operation) | before)
            steps[session] = steps.get(session, 0) + 1
    return tuple(
        SessionHours(session, tenths(pace.minutes(total_effort(toil[session]))), steps[session])
        for session in Session
        if session in toil
    )


def _session(operation: Operation, stages: Mapping[str, Stage]) -> Session:
    kind = operation.kind
    if kind.mills_boards:
        return Session.BOARDS
    if kind.cuts_up_a_sheet:
        return Session.SHEETS
    if kind is OperationKind.BORE:
        return Session.BORING
    if kind.edges:
        return Session.EDGING
    if kind is OperationKind.DRY_FIT:
        return Session.DRY_FITS
    if kind is not OperationKind.JOIN:
        return Session.JOINTS
    stage = stages[operation.key]
    if stage is Stage.FRONTS:
        return Session.HANGING
    return Session.FRONTS if stage.is_of_fronts else Session.CASES


def tenths(minutes: float | Fraction) -> Fraction:
    """Minutes as hours to the nearest tenth: what is printed is what is counted, so that sums add up."""
    return Fraction(round(minutes / 6), 10)
