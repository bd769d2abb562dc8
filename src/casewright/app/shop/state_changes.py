"""What has changed in the state of the shop since a tablet last heard of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from hashlib import sha256
from typing import Any

from .state_format import FINDINGS, MOST_FINDINGS, SECTIONS, pack_state
from .tablet_order import TabletOrder

State = Mapping[str, Any]

MOST_CHANGES = 100
"""Entries beyond which the whole state in columns is shorter than what has changed in it."""
NOTHING: Mapping[tuple[str, str], int] = {}


@dataclass(frozen=True)
class StateLog:
    """A state as tablets show it, and the place of the record at which each entry last changed.

    `since` is the first place that it knows of. Entries that are gone have a place too. Findings are
    entries by their `key`. `order` is that of the work.
    """

    state: State
    order: TabletOrder
    since: int
    changed: Mapping[tuple[str, str], int]

    @cached_property
    def whole(self) -> State:
        """The whole state, as it is sent."""
        return pack_state(self.state, self.order)

    def on(self, state: State, order: TabletOrder) -> StateLog:
        """The log with a newer state of the same work; another log for work that was handed out anew."""
        if state["work"] != self.state["work"]:
            return begin_log(state, order)
        changed = dict(self.changed)
        keyed = with_keys(state)
        for section in (*SECTIONS, FINDINGS):
            was, now = _entries(self.state, section), _entries(keyed, section)
            for key in was.keys() | now.keys():
                if was.get(key) != now.get(key):
                    changed[section, key] = state["place"]
        return StateLog(keyed, order, self.since, changed)

    def after(self, place: int, work: str) -> State:
        """What a tablet that knows the state at `place` needs to hear: an entry that is gone is None.

        The whole state where it knows none that this log does, or of other work, or far too little.
        """
        if work != self.state["work"] or not self.since <= place <= self.state["place"]:
            return self.whole
        changes: dict[str, dict[str, Any]] = {}
        now = {section: _entries(self.state, section) for section in (*SECTIONS, FINDINGS)}
        heard = [entry for entry, at in self.changed.items() if at > place]
        if len(heard) > MOST_CHANGES:
            return self.whole
        for section, key in heard:
            changes.setdefault(section, {})[key] = now[section].get(key)
        told = {name: self.state[name] for name in ("place", "work", "seq", "more")}
        return {**told, "after": place, "changes": changes}


def begin_log(state: State, order: TabletOrder) -> StateLog:
    """A log that knows of nothing before this state."""
    return StateLog(with_keys(state), order, state["place"], NOTHING)


def with_keys(state: State) -> State:
    """The state with its newest findings, how many `more` there are, and a key in each: the same for the same
    words, and no other's."""
    more = max(len(state[FINDINGS]) - MOST_FINDINGS, 0)
    times: dict[str, int] = {}
    keyed = []
    for finding in state[FINDINGS][more:]:
        words = "\n".join(finding[name] for name in ("code", "place", "text", "fix"))
        key = sha256(words.encode("utf-8", "surrogatepass")).hexdigest()[:12]
        times[key] = times.get(key, 0) + 1
        keyed.append({**finding, "key": f"{key} {times[key]}"})
    return {**state, FINDINGS: keyed, "more": more}


def _entries(state: State, section: str) -> Mapping[str, Any]:
    if section == FINDINGS:
        return {finding["key"]: finding for finding in state[FINDINGS]}
    entries: Mapping[str, Any] = state[section]
    return entries
