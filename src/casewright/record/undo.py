"""Which events count: each id once, and none that is undone."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable

from ..findings import Finding, Weight
from .events import Event, Undo


def in_order(events: Iterable[Event]) -> tuple[tuple[Event, ...], tuple[Finding, ...]]:
    """Every event once, in the one order all benches agree on.

    Two different events under one id cannot both be kept apart later, so the finding names them
    and the one that stands first in the order is kept.
    """
    kept: dict[str, Event] = {}
    findings: list[Finding] = []
    for event in sorted(events, key=lambda event: event.order):
        same = kept.setdefault(event.id, event)
        if same != event:
            findings.append(
                Finding(
                    "id-twice",
                    event.id,
                    f"benches {same.bench} and {event.bench} sent different entries under the same id.",
                    f"Enter again at {event.bench} what was meant there.",
                    Weight.WARN,
                )
            )
    return tuple(kept.values()), tuple(findings)


def set_aside(
    events: tuple[Event, ...], unreadable: frozenset[str] = frozenset()
) -> tuple[frozenset[str], tuple[Finding, ...]]:
    """The ids of the events that an undo sets aside, undos of undos included.

    `unreadable` are ids of entries that were heard and cannot be read; one of them may be undone too.

    `events` stand in their order. An undo may arrive before what it undoes, but a bench
    can only undo what it knew of, so what an undo sets aside stands before it.
    """
    place = {event.id: number for number, event in enumerate(events)}
    undos: dict[str, list[str]] = defaultdict(list)
    findings: list[Finding] = []
    for event in events:
        if isinstance(event.what, Undo):
            target = event.what.event
            if target in unreadable and target not in place:
                undos[target].append(event.id)
            elif target not in place:
                findings.append(_unheard(event, target))
            elif place[target] >= place[event.id]:
                findings.append(_too_early(event, target))
            else:
                undos[target].append(event.id)
    counts: dict[str, bool] = {}
    for event in reversed(events):
        counts[event.id] = not any(counts[undo] for undo in undos[event.id])
    undone = {event.id for event in events if not counts[event.id]}
    left_out = {identity for identity in unreadable if any(counts[undo] for undo in undos.get(identity, ()))}
    return frozenset(undone | left_out), tuple(findings)


def _unheard(event: Event, target: str) -> Finding:
    return Finding(
        "undo-of-nothing",
        event.id,
        f"bench {event.bench} undoes {target}, an entry that has not arrived yet.",
        "The undo takes effect when that entry arrives.",
        Weight.NOTE,
    )


def _too_early(event: Event, target: str) -> Finding:
    return Finding(
        "undo-too-early",
        event.id,
        f"bench {event.bench} undoes {target}, which is numbered later than the undo.",
        "Undo it again from the list of entries.",
        Weight.WARN,
    )
