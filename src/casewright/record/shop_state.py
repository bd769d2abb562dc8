"""The state of the shop that follows from the record."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum
from fractions import Fraction

from ..findings import Finding
from .events import Decided, Flawed, FoundOffcut, RecordedHarm


class Status(Enum):
    """How far a part has come."""

    TO_CUT = "to cut"
    IN_HAND = "in hand"  # cut free of its sheet, or begun
    CUT = "cut"  # every operation on it is done
    ASSEMBLED = "assembled"
    SPOILED = "spoiled"
    LOST = "lost"
    GIVEN_UP = "given up"


@dataclass(frozen=True, slots=True)
class RecordedReading:
    """One measurement, with the event and bench it came from."""

    value: Fraction
    tool: str
    bench: str
    event: str


@dataclass(frozen=True, slots=True)
class Tick:
    """The tick that counts for an operation."""

    step: str
    bench: str
    event: str
    at: str


@dataclass(frozen=True, slots=True)
class PartState:
    """One part: its status, the bench that holds it, how it was spoiled (or lost) and by which
    event, how many times it was begun anew, in which assembly it is, and its `harms`: what is wrong with it
    and where."""

    mark: str
    status: Status
    bench: str = ""
    how: str = ""
    begun_again: int = 0
    within: str = ""
    event: str = ""
    harms: tuple[RecordedHarm, ...] = ()


@dataclass(frozen=True)
class State:
    """Everything the record holds. `readings` keeps every one by ledger name, the latest last.

    `ticks` holds one tick an operation; `settings` what each fence was last set to; `minutes`
    the real times by the operations they cover; `undone` the ids of events set aside; `dry_fits` how each
    joint that was tried went together, the last time; `flaws` the faults found in sheets, by their events.
    """

    parts: Mapping[str, PartState]
    ticks: Mapping[str, Tick]
    readings: Mapping[str, tuple[RecordedReading, ...]] = field(default_factory=dict)
    settings: Mapping[str, Fraction] = field(default_factory=dict)
    minutes: tuple[tuple[tuple[str, ...], float], ...] = ()
    offcuts: tuple[FoundOffcut, ...] = ()
    lost: tuple[str, ...] = ()
    sheets: Mapping[str, int] = field(default_factory=dict)
    decisions: tuple[Decided, ...] = ()
    undone: frozenset[str] = frozenset()
    last_seq: int = 0
    findings: tuple[Finding, ...] = ()
    dry_fits: Mapping[str, str] = field(default_factory=dict)
    flaws: Mapping[str, Flawed] = field(default_factory=dict)

    @property
    def done(self) -> frozenset[str]:
        """The keys of all operations that are ticked."""
        return frozenset(self.ticks)

    def status(self, mark: str) -> Status:
        """How far a part has come; KeyError when the job has no such part."""
        return self.parts[mark].status

    def with_status(self, *statuses: Status) -> tuple[str, ...]:
        """The marks of the parts with one of these statuses."""
        return tuple(mark for mark, part in self.parts.items() if part.status in statuses)

    def facts(self) -> dict[str, Fraction]:
        """The latest reading of every measured size."""
        return {name: readings[-1].value for name, readings in self.readings.items()}

    def inputs(self) -> dict[str, Fraction]:
        """Every input of the job that a decision changed, as last decided."""
        return {name: value for decided in self.decisions for name, value in decided.inputs}
