"""What has changed in the state of the shop since a tablet last heard of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from hashlib import sha256
from typing import Any

State = Mapping[str, Any]

SECTIONS = ("ticks", "parts", "readings", "settings")
FINDINGS = "findings"
NOTHING: Mapping[tuple[str, str], int] = {}


@dataclass(frozen=True)
class StateLog:
    """A state as tablets show it, and the place of the record at which each entry last changed.

    `since` is the first place that it knows of. Entries that are gone have a place too. Findings are
    entries by their `key`.
    """

    state: State
    since: int
    changed: Mapping[tuple[str, str], int]

    def on(self, state: State) -> StateLog:
        """The log with a newer state of the same work; another log for work that was handed out anew."""
        if state["work"] != self.state["work"]:
            return begin_log(state)
        changed = dict(self.changed)
        keyed = with_keys(state)
        for section in (*SECTIONS, FINDINGS):
            was, now = _entries(self.state, section), _entries(keyed, section)
            for key in was.keys() | now.keys():
                if was.get(key) != now.get(key):
                    changed[section, key] = state["place"]
        return StateLog(keyed, self.since, changed)

    def after(self, place: int, work: str) -> State:
        """What a tablet that knows the state at `place` needs to hear: an entry that is gone is None.

        The whole state where it knows none that this log does, or of other work.
        """
        if work != self.state["work"] or not self.since <= place <= self.state["place"]:
            return self.state
        changes: dict[str, dict[str, Any]] = {}
        now = {section: _entries(self.state, section) for section in (*SECTIONS, FINDINGS)}
        for (section, key), at in self.changed.items():
            if at > place:
                changes.setdefault(section, {})[key] = now[section].get(key)
        told = {name: self.state[name] for name in ("place", "work", "seq")}
        return {**told, "after": place, "changes": changes}


def begin_log(state: State) -> StateLog:
    """A log that knows of nothing before this state."""
    return StateLog(with_keys(state), state["place"], NOTHING)


def with_keys(state: State) -> State:
    """The state with a key in each finding: the same for the same words, and no other's."""
    times: dict[str, int] = {}
    keyed = []
    for finding in state[FINDINGS]:
        words = "\n".join(finding[name] for name in ("code", "place", "text", "fix"))
        key = sha256(words.encode("utf-8", "surrogatepass")).hexdigest()[:12]
        times[key] = times.get(key, 0) + 1
        keyed.append({**finding, "key": f"{key} {times[key]}"})
    return {**state, FINDINGS: keyed}


def _entries(state: State, section: str) -> Mapping[str, Any]:
    if section == FINDINGS:
        return {finding["key"]: finding for finding in state[FINDINGS]}
    entries: Mapping[str, Any] = state[section]
    return entries
