"""Events as plain values, to be sent between benches and kept in a file, and back.

A length is written as an exact fraction of an inch (`"187/8"`); everything else is text, whole
numbers and lists. What cannot be read is refused with the field, the value and the fix; and what
could not be read back is refused before it is written.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any, get_type_hints

from pydantic import TypeAdapter, ValidationError
from pydantic_core import ErrorDetails

from ..errors import RecordError
from ..findings import Finding
from ..lengths.did_you_mean import did_you_mean
from ..lengths.fractions_text import quoted
from . import events
from .events import Event, Happening

Plain = dict[str, object]

KINDS: Mapping[str, type[Happening]] = {
    "claimed": events.Claimed,
    "released": events.Released,
    "setting": events.SettingMade,
    "done": events.Done,
    "measured": events.Measured,
    "spoiled": events.Spoiled,
    "assembled": events.Assembled,
    "found": events.FoundOffcut,
    "flawed": events.Flawed,
    "lost": events.Lost,
    "stocked": events.Stocked,
    "time": events.TimeTaken,
    "decided": events.Decided,
    "tested": events.Tested,
    "dry-fit": events.DryFitted,
    "undo": events.Undo,
}
ADDED_SINCE = ("harms", "not_done", "turned", "changes")
"""Fields that events had not at first. They are written only where they hold something, so that an event
without them is written as it always was."""

_NAMES = {made: name for name, made in KINDS.items()}
_EVENT = ""  # what every event has, whatever its kind
_UNKNOWN = events.Undo("")  # stands for what happened while the other fields are looked at


def to_plain(event: Event) -> Plain:
    """The event as JSON can hold it; RecordError where `from_plain` would not take it back."""
    kind = _NAMES[type(event.what)]
    plain: Plain = {"id": event.id, "bench": event.bench, "seq": event.seq, "at": event.at}
    plain |= {"kind": kind, **_adapter(kind).dump_python(event.what, mode="json")}
    plain = {name: value for name, value in plain.items() if value or name not in ADDED_SINCE}
    from_plain(plain)
    return plain


def from_plain(plain: object) -> Event:
    """The event that `to_plain` wrote; RecordError, with every fault, for anything else."""
    if not isinstance(plain, Mapping):
        raise RecordError((_fault("event", plain, "Send one object with id, bench, seq and kind."),))
    faults: list[Finding] = []
    kind, what = plain.get("kind"), None
    if isinstance(kind, str) and kind in KINDS:
        what = _read(kind, plain, faults)
    else:
        faults.append(_fault("kind", kind, did_you_mean(str(kind), KINDS)))
    event: Event | None = _read(_EVENT, {**plain, "what": what or _UNKNOWN}, faults)
    if faults or event is None:
        raise RecordError(tuple(faults))
    return event


@cache
def _adapter(kind: str) -> TypeAdapter[Any]:
    return TypeAdapter(KINDS.get(kind, Event))


def _read(kind: str, plain: Mapping[str, object], faults: list[Finding]) -> Any:
    """What of `plain` belongs to the kind; None, and more `faults`, where it cannot be read."""
    try:
        return _adapter(kind).validate_python(plain)
    except ValidationError as error:
        faults += [_finding(kind, one) for one in error.errors(include_url=False)]
        return None


def _finding(kind: str, error: ErrorDetails) -> Finding:
    field, *within = map(str, error["loc"])
    hints = get_type_hints(KINDS.get(kind, Event), include_extras=True)
    fix = f"Send {hints[field].__metadata__[-1].description}."
    if error["type"] == "missing" and not within:
        return Finding("event-malformed", field, "It is missing.", fix)
    return _fault(field, error["input"], fix)


def _fault(name: str, value: object, fix: str) -> Finding:
    return Finding("event-malformed", name, f"{quoted(value)} cannot be read.", fix)
