"""Work done while somebody waits: its progress so far, and whether it has finished."""

from __future__ import annotations

import threading
from dataclasses import dataclass, field

from ...findings import Finding


@dataclass
class Waiting:
    """Something being worked out in a thread of its own; whatever goes wrong stands in `findings`."""

    said: list[str] = field(default_factory=list)
    findings: tuple[Finding, ...] = ()
    finished: bool = False
    _changed: threading.Condition = field(default_factory=threading.Condition)

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

    def end(self, findings: tuple[Finding, ...] = ()) -> None:
        """Mark the work as finished, with its findings."""
        with self._changed:
            self.findings, self.finished = findings, True
            self._changed.notify_all()
