"""How much search a maker asks for: about so many seconds, yet the same plan whenever it is asked again."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from .engine import EndsEarly, Progress, WorkCount
from .engine.work_count import PICOSECONDS
from .parameters import WorkKind

Clock = Callable[[], float]
"""Gives seconds since any fixed time."""

CEILING_FACTOR, CEILING_SECONDS = 5, 5.0
"""Real time may be so many times the seconds asked for, and so many seconds more, before the search ends."""


class AboutSeconds:
    """A stop rule: ends the search once counted work comes to about so many seconds on an idle machine.

    The same problem and seed then give the same plan on any machine, however busy. The clock is a ceiling
    only: nothing depends on it until the search has taken several times as long as asked. Then the search
    ends and `late` is true, and the plan says so. Without a clock there is no ceiling.

    One rule may serve several problems, one after another (see `share`); make a new one for each job.
    """

    def __init__(self, seconds: float, clock: Clock | None = None, work: WorkCount | None = None) -> None:
        self.work = WorkCount() if work is None else work
        self._clock = clock
        self._end = self.work.picoseconds + round(seconds * PICOSECONDS)
        self._latest = 0.0 if clock is None else clock() + CEILING_FACTOR * seconds + CEILING_SECONDS
        self._late = False

    def share(self, part: Fraction) -> AboutSeconds:
        """A rule for the next of several problems: it may use that part of the work that is left, and what it
        does not use is left for those after it. Its ceiling is its own and begins now, so that one problem
        that was late makes none of the others late."""
        left = max(0, self._end - self.work.picoseconds)
        return AboutSeconds(float(part * left / PICOSECONDS), self._clock, self.work)

    def __call__(self, progress: Progress) -> bool:
        if self.work.picoseconds >= self._end or self._late:
            return True
        self._late = self._clock is not None and self._clock() >= self._latest
        return self._late

    def seconds_left(self) -> float:
        return 0.0 if self._late else max(0, self._end - self.work.picoseconds) / PICOSECONDS

    def count(self, kind: WorkKind, amount: int) -> None:
        self.work.add(kind, amount)

    @property
    def late(self) -> bool:
        """Whether the ceiling ended the search before the work was done."""
        return self._late


@dataclass(frozen=True)
class UntilAsked(EndsEarly):
    """A stop rule that also ends the search once `asked` says so, as when a maker no longer wants to wait."""

    asked: Callable[[], bool]

    def __call__(self, progress: Progress) -> bool:
        return self.asked() or self.stop(progress)

    def seconds_left(self) -> float | None:
        return 0.0 if self.asked() else self.stop.seconds_left()
