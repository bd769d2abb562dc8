"""Threads for long work, a few at a time, so that ten plans asked for at once do not each take ten times as
long."""

from __future__ import annotations

import threading
from collections.abc import Callable

from .waiting import Waiting

AT_ONCE = 2


class InTurn:
    """Begins long work in threads of its own, of which `AT_ONCE` are at work and the others wait."""

    def __init__(self) -> None:
        self._free = threading.BoundedSemaphore(AT_ONCE)

    def begin(self, waiting: Waiting, work: Callable[[], None]) -> None:
        """Do `work`, which ends `waiting`, as soon as its turn comes."""
        threading.Thread(target=self._in_turn, args=(waiting, work), daemon=True).start()

    def _in_turn(self, waiting: Waiting, work: Callable[[], None]) -> None:
        if not self._free.acquire(blocking=False):
            waiting.say("Waiting until other jobs are done")
            self._free.acquire()
        try:
            work()
        finally:
            self._free.release()
