"""The state of the shop as tablets are told it: what stands in it, and how the whole of it is sent.

The whole state is sent in columns: a number for each step or part in the order of the work, which the tablet
keeps already, so that no key, bench or word is sent twice. `state_format.js` reads it. What has changed is
sent entry by entry (`state_changes`), as it stands in `state_json`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from functools import lru_cache
from typing import Any

from ...findings import Finding
from ...lengths.length import Mark, show
from ...record.shop_state import State, Status
from .shop_floor import BenchRecord
from .tablet_order import TabletOrder, tablet_order

Plain = Mapping[str, Any]

SECTIONS = ("ticks", "parts", "readings", "settings")
FINDINGS = "findings"
STATUSES = tuple(status.value for status in Status)
UNTOUCHED = {"status": Status.TO_CUT.value, "bench": "", "how": "", "event": ""}
"""A part that nothing is told of."""

MOST_FINDINGS = 20
"""Findings that a tablet is told unasked, the newest ones: more than that nobody reads at a saw, and hundreds
of them would be the greater part of the state. It can ask for all."""


def order_of(heard: BenchRecord) -> TabletOrder:
    """The order of the work of a record; nothing in it before work is handed out."""
    return TabletOrder() if heard.floor is None else tablet_order(heard.floor)


def state_json(heard: BenchRecord) -> dict[str, Any]:
    """How things stand, as a tablet shows it. A tick names its event by its place in the record."""
    state = heard.state
    if state is None or heard.floor is None:
        findings = [finding_on_tablet(finding) for finding in heard.set_aside]
        nothing: dict[str, Any] = {name: {} for name in SECTIONS}
        return {"place": heard.place, "work": "", "seq": 0, **nothing, "findings": findings}
    mark = heard.floor.project.rule
    order = order_of(heard)
    return {
        "place": heard.place,
        "work": order.name(heard.issue),
        "seq": state.last_seq,
        "ticks": {
            key: {"bench": tick.bench, "place": heard.place_of(tick.event)}
            for key, tick in state.ticks.items()
        },
        "parts": dict(_parts(state)),
        "readings": {
            name: [{"text": _on_rule(r.value, mark), "tool": r.tool, "bench": r.bench} for r in readings]
            for name, readings in state.readings.items()
        },
        "settings": {name: True for name in order.batches if name in state.settings},
        "findings": [finding_on_tablet(finding) for finding in (*heard.set_aside, *state.findings)],
    }


@lru_cache(maxsize=4096)
def _on_rule(value: Fraction, mark: Mark) -> str:
    # After every event all readings are told again: worked out anew, 300 of them took half of the time.
    return show(value, mark, unit=True).marked


def _parts(state: State) -> Iterable[tuple[str, dict[str, str]]]:
    """The parts of which there is something to tell."""
    for name, part in state.parts.items():
        if part.status is not Status.TO_CUT or part.bench:
            told = {"status": part.status.value, "bench": part.bench, "how": part.how, "event": part.event}
            yield name, told


def finding_on_tablet(finding: Finding) -> dict[str, str]:
    """What a tablet shows of a finding."""
    return {"code": finding.code, "place": finding.place, "text": finding.text, "fix": finding.fix}


def pack_state(state: Plain, order: TabletOrder) -> dict[str, Any]:
    """The whole state in columns by this order."""
    benches, tools, texts = _Names(), _Names(), _Names()
    ticks, parts = state["ticks"], state["parts"]
    ticked = [ticks.get(step) for step in order.steps]
    places = [tick["place"] for tick in ticked if tick]
    standing = [parts.get(mark, UNTOUCHED) for mark in order.marks]
    steps = [benches.number(tick["bench"]) + 1 if tick else 0 for tick in ticked]
    held = [benches.number(part["bench"]) + 1 if part["bench"] else 0 for part in standing]
    readings = {
        name: [
            number
            for one in read
            for number in (texts.number(one["text"]), tools.number(one["tool"]), benches.number(one["bench"]))
        ]
        for name, read in state["readings"].items()
    }
    return {
        **{name: state[name] for name in ("place", "work", "seq", FINDINGS, "more")},
        "steps": pack_column(steps),
        "places": pack_column(_steps_from_one_to_next(places)),
        "statuses": STATUSES,
        "standing": pack_column([STATUSES.index(part["status"]) for part in standing]),
        "held": pack_column(held),
        "events": {
            mark: [part["how"], part["event"]] for mark, part in parts.items() if part["how"] or part["event"]
        },
        "readings": readings,
        "set": [number for number, batch in enumerate(order.batches) if batch in state["settings"]],
        "benches": benches.names,
        "tools": tools.names,
        "texts": texts.names,
    }


def pack_column(values: Sequence[int]) -> list[int]:
    """The same numbers, none of them below 0; after a number, -n says that it comes n more times."""
    packed: list[int] = []
    before = -1
    for value in values:
        if value != before:
            packed.append(value)
        elif packed[-1] < 0:
            packed[-1] -= 1
        else:
            packed.append(-1)
        before = value
    return packed


def _steps_from_one_to_next(places: Sequence[int]) -> list[int]:
    """How far each place is from the one before; one that goes back is odd, so that none is below 0."""
    far = [after - before for before, after in zip((0, *places), places, strict=False)]
    return [2 * step if step >= 0 else -2 * step - 1 for step in far]


class _Names:
    """A number for each name, in the order in which they first come."""

    def __init__(self) -> None:
        self._numbers: dict[str, int] = {}

    def number(self, name: str) -> int:
        return self._numbers.setdefault(name, len(self._numbers))

    @property
    def names(self) -> list[str]:
        return list(self._numbers)
