"""A job's events as the shop's file keeps them: those that can be read, and those set aside.

What a bench sends is judged by the same functions that read it back, so that nothing is kept that would
stop a later reading.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from ...errors import RecordError
from ...findings import Finding, Weight
from ...record.event_json import from_plain
from ...record.events import Event
from ...store.event_rows import KeptEvent

LEAP = 1_000_000
"""How far an event may be numbered beyond all before it: more than a shop ever records. A bench numbers on
from the greatest it has seen, so one that leaps to the end of the numbers leaves no room for any other."""


@dataclass(frozen=True)
class SetAside:
    """An entry that cannot be read, the fault in it, and what is told of it."""

    row: KeptEvent
    fault: Finding
    finding: Finding


@dataclass(frozen=True)
class ReadEvents:
    """The events that count, and the entries that are set aside."""

    events: tuple[Event, ...]
    set_aside: tuple[SetAside, ...]


def read_events(rows: Iterable[KeptEvent], newest: int = 0) -> ReadEvents:
    """The events of these entries, in the order in which they were kept; `newest` is the number of the
    newest event before them."""
    events: list[Event] = []
    aside: list[SetAside] = []
    for row in rows:
        try:
            event = event_in(row.payload)
            check_number(event, newest)
        except RecordError as fault:
            fix = f"Enter again at {row.bench} what was done there"
            aside.append(event_set_aside(row, fault.findings[0], fix))
        else:
            events.append(event)
            newest = max(newest, event.seq)
    return ReadEvents(tuple(events), tuple(aside))


def check_number(event: Event, newest: int) -> None:
    """Raises RecordError for an event numbered far beyond the newest."""
    if event.seq > newest + LEAP:
        text = f"“{event.seq}” is far beyond {newest}, the number of the newest event."
        fix = f"Send one more than the greatest number heard of, at most {newest + LEAP}."
        raise RecordError((Finding("number-too-far", "seq", text, fix),))


@lru_cache(maxsize=8192)
def event_in(payload: str) -> Event:
    """The event in the payload of an entry; RecordError if it cannot be read."""
    try:
        return from_plain(json.loads(payload))
    except (ValueError, RecursionError) as fault:
        if isinstance(fault, RecordError):
            raise
        raise RecordError((Finding("event-malformed", "event", "It is not JSON.", "Send JSON."),)) from None


def event_set_aside(row: KeptEvent, why: Finding, fix: str) -> SetAside:
    """An entry that cannot be read, and why; `fix` says what to do, without the full stop."""
    told = Finding(
        "event-set-aside",
        row.id,
        f"an entry ({row.kind}) of bench {row.bench} at {row.time} cannot be read and does not count: "
        f"{why.place}: {why.text}",
        f"{fix}, or leave it out for good on the History page; the unreadable entry stays in the file.",
        Weight.WARN,
    )
    return SetAside(row, why, told)
