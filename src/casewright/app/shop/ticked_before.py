"""Ticks that came second: another bench had ticked the step already."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from ...record.events import Done, Event
from .shop_floor import BenchRecord


@dataclass(frozen=True)
class AlreadyTicked:
    """A `step` that the event `id` ticked again: when it was first (ISO 8601, by the clock there), and
    `where`, the paired device or else the bench."""

    id: str
    step: str
    at: str
    where: str


def ticked_before(heard: BenchRecord, sent: Iterable[str]) -> tuple[AlreadyTicked, ...]:
    """The steps that the events with these ids ticked, and that were ticked when they arrived."""
    asked = set(sent)
    counting = [event for event in heard.events if event.id not in heard.undone]
    return tuple(
        told
        for event in counting
        if event.id in asked and isinstance(event.what, Done)
        for told in _told(heard, event, counting)
    )


def _told(heard: BenchRecord, event: Event, counting: list[Event]) -> Iterator[AlreadyTicked]:
    assert isinstance(event.what, Done)
    for step in dict.fromkeys(event.what.steps):
        if first := _first(heard, event, step, counting):
            entry = heard.kept[first]
            yield AlreadyTicked(event.id, step, entry.time, entry.device or entry.bench)


def _first(heard: BenchRecord, event: Event, step: str, counting: list[Event]) -> str:
    """The id of the tick of this step that was kept before this event; "" where there was none."""
    tick = heard.state.ticks.get(step) if heard.state else None
    if tick is None:
        return ""
    if tick.event != event.id:
        return tick.event
    # A bench that was without network may have numbered its tick before another, which was heard first.
    # Had the part been begun anew between the two, the later one would be the tick that counts.
    later = [
        other.id
        for other in counting
        if isinstance(other.what, Done)
        and step in other.what.steps
        and other.order > event.order
        and heard.place_of(other.id) < heard.place_of(event.id)
    ]
    return later[0] if later else ""
