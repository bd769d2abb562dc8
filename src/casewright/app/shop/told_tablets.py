"""The state of the shop as it is told to the tablets: worked out once, however many ask."""

from __future__ import annotations

from functools import lru_cache
from threading import Lock

from ...store.event_rows import newest_event
from ...store.shop_file import StoreFile
from ..fit.fit_as_built import shop_state
from .shop_floor import read_record
from .state_changes import State, StateLog, begin_log
from .state_format import order_of


def told_after(file: StoreFile, job: str, place: int, work: str) -> State | None:
    """What changed after `place` in the `work` handed out, as `StateLog.after` tells it; None for nothing."""
    return _told(file, job).after(place, work)


@lru_cache(maxsize=8)
def _told(file: StoreFile, job: str) -> _Told:
    return _Told(file, job)


class _Told:
    """The log of one job, brought up to date when somebody asks and something was recorded."""

    def __init__(self, file: StoreFile, job: str) -> None:
        self.file = file
        self.job = job
        self.lock = Lock()
        self.newest = (-1, "")
        self.log: StateLog | None = None

    def after(self, place: int, work: str) -> State | None:
        with self.lock:
            newest = newest_event(self.file, self.job)
            if self.log is None or newest != self.newest:
                heard = read_record(self.file, self.job)
                follows = self.log is not None and heard.place > self.newest[0]
                state, order = shop_state(heard), order_of(heard)
                self.log = self.log.on(state, order) if self.log and follows else begin_log(state, order)
                self.newest = (heard.place, heard.newest)
            log = self.log
        if place == log.state["place"] and work == log.state["work"]:
            return None
        return log.after(place, work)
