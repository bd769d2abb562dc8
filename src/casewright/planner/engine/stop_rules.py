"""When to stop: small rules that compose. None of them reads a clock of its own."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Protocol

from ..parameters import WorkKind


@dataclass(frozen=True, slots=True)
class Progress:
    """How far the search is: iterations done on each core, the best cost (None: no complete plan yet) and
    the proved bound."""

    iterations: int
    cost: int | None
    bound: int


class Stop(Protocol):
    """Called between short stretches of work: True ends the search."""

    def __call__(self, progress: Progress) -> bool: ...

    def seconds_left(self) -> float | None:
        """How long one indivisible step may still take; None when only iterations are counted."""
        ...

    def count(self, kind: WorkKind, amount: int) -> None:
        """Told of all work as soon as it is done."""

    @property
    def late(self) -> bool:
        """Whether the search ended because it took far longer than asked, so that another run may give
        another plan."""
        ...


@dataclass(frozen=True, slots=True)
class MaxIterations:
    """Stops after so much work: the same seed then gives the same plan on any machine."""

    iterations: int

    def __call__(self, progress: Progress) -> bool:
        return progress.iterations >= self.iterations

    def seconds_left(self) -> float | None:
        return None

    def count(self, kind: WorkKind, amount: int) -> None:
        pass

    @property
    def late(self) -> bool:
        return False


@dataclass(frozen=True)
class EndsEarly:
    """Stops when another rule does, or before: work is counted by that rule. Say when in `__call__`."""

    stop: Stop

    def __call__(self, progress: Progress) -> bool:
        return self.stop(progress)

    def seconds_left(self) -> float | None:
        return self.stop.seconds_left()

    def count(self, kind: WorkKind, amount: int) -> None:
        self.stop.count(kind, amount)

    @property
    def late(self) -> bool:
        return self.stop.late


class MaxSeconds:
    """Stops by a clock that the caller hands in: a function that returns seconds."""

    def __init__(self, seconds: float, clock: Callable[[], float]) -> None:
        self._clock = clock
        self._end = clock() + seconds

    def __call__(self, progress: Progress) -> bool:
        return self._clock() >= self._end

    def seconds_left(self) -> float | None:
        return max(0.0, self._end - self._clock())

    def count(self, kind: WorkKind, amount: int) -> None:
        pass

    @property
    def late(self) -> bool:
        return False


@dataclass(frozen=True, slots=True)
class FirstOf:
    """Stops as soon as one of several rules does."""

    criteria: tuple[Stop, ...]

    def __call__(self, progress: Progress) -> bool:
        return any(stop(progress) for stop in self.criteria)

    def seconds_left(self) -> float | None:
        known = [left for stop in self.criteria if (left := stop.seconds_left()) is not None]
        return min(known, default=None)

    def count(self, kind: WorkKind, amount: int) -> None:
        for stop in self.criteria:
            stop.count(kind, amount)

    @property
    def late(self) -> bool:
        return any(stop.late for stop in self.criteria)
