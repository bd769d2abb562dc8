"""Work done while somebody waits: its progress so far, and whether it has finished."""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from typing import Generic, TypeVar

from ...errors import CasewrightError
from ...findings import Finding

AT_ONCE = 2
LOOK_AGAIN = 0.2
"""Seconds between looks whether work that waits for its turn was stopped."""

Failure = Callable[[str, str], Finding]
"""Makes a finding of what went wrong, in a sentence, and of what to do about it."""


@dataclass
class Waiting:
    """Something being worked out in a thread of its own; whatever goes wrong stands in `findings`."""

    said: list[str] = field(default_factory=list)
    findings: tuple[Finding, ...] = ()
    finished: bool = False
    _changed: threading.Condition = field(default_factory=threading.Condition)
    _stopped: threading.Event = field(default_factory=threading.Event)

    def follow(self, seen: int, seconds: float) -> tuple[list[str], bool]:
        """What was said after the first `seen` sentences, and whether that was all.

        Waits up to `seconds` for something new.
        """
        with self._changed:
            self._changed.wait_for(lambda: len(self.said) > seen or self.finished, seconds)
            return self.said[seen:], self.finished

    def say(self, sentence: str) -> None:
        with self._changed:
            self.said.append(sentence)
            self._changed.notify_all()

    def stop(self) -> None:
        """Nobody waits any longer. Work that can end early does, with what it has."""
        self._stopped.set()

    def is_stopped(self) -> bool:
        """Whether the work is to end early."""
        return self._stopped.is_set()

    def carry_out(self, work: Callable[[], None], failure: Failure) -> None:
        """Do the work, and mark it as finished whatever happens. A fault of our own is raised as well."""
        try:
            work()
        except CasewrightError as fault:
            self._end(getattr(fault, "findings", ()) or (failure(str(fault), ""),))
        except BaseException:
            self._end((failure("the search failed because of a bug in casewright.", "Try again."),))
            raise
        else:
            self._end()

    def _end(self, findings: tuple[Finding, ...] = ()) -> None:
        with self._changed:
            self.findings, self.finished = findings, True
            self._changed.notify_all()


Key = TypeVar("Key", bound=Hashable)
Work = TypeVar("Work", bound=Waiting)


class BegunOnce(Generic[Key, Work]):
    """Work by key: begun when it is first asked for, and once, however many ask. The `kept` asked for last
    are remembered."""

    def __init__(self, name: str, kept: int) -> None:
        self._in_turn = InTurn(name)
        self._kept = kept
        self._works: OrderedDict[Key, Work] = OrderedDict()
        self._lock = threading.Lock()

    def begun(self, key: Key, new: Callable[[], Work], make: Callable[[Work], None]) -> Work:
        """The work of this key; a `new` one is put into the hands of `make` in a thread of its own."""
        with self._lock:
            work = self._works.get(key)
            if work is None:
                work = self._works[key] = new()
                self._in_turn.begin(work, make, work)
            self._works.move_to_end(key)
            while len(self._works) > self._kept:
                self._works.popitem(last=False)[1].stop()
        return work


class InTurn:
    """Begins long work in threads of its own, `AT_ONCE` at a time, so that of ten plans asked for at once the
    first does not take as long as all."""

    def __init__(self, name: str) -> None:
        self._name = name
        self._free = threading.BoundedSemaphore(AT_ONCE)

    def begin(self, waiting: Waiting, work: Callable[..., None], *given: object) -> None:
        """Do work that ends `waiting` as soon as its turn comes. The thread ends with the program."""
        given = (waiting, work, *given)
        threading.Thread(target=self._in_turn, args=given, name=self._name, daemon=True).start()

    def _in_turn(self, waiting: Waiting, work: Callable[..., None], *given: object) -> None:
        if not self._free.acquire(blocking=False):
            waiting.say("Waiting until other jobs are done")
            # Work that is stopped needs no turn: it only ends with what there is.
            while not self._free.acquire(timeout=LOOK_AGAIN):
                if waiting.is_stopped():
                    work(*given)
                    return
        try:
            work(*given)
        finally:
            self._free.release()
