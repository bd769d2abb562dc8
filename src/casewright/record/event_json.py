"""Events as plain values, to be sent between benches and kept in a file, and back.

A length is written as an exact fraction of an inch (`"187/8"`); everything else is text, whole
numbers and lists. What cannot be read is refused with the field, the value and the fix.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import MISSING, fields
from fractions import Fraction
from math import isfinite
from typing import Any

from ..errors import RecordError
from ..findings import Finding
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
    "lost": events.Lost,
    "stocked": events.Stocked,
    "time": events.TimeTaken,
    "decided": events.Decided,
    "undo": events.Undo,
}
_NAMES = {made: name for name, made in KINDS.items()}
LONGEST_TEXT = 2_000
GREATEST_SEQ = 2**53  # beyond it a tablet's numbers are no longer exact


def to_plain(event: Event) -> Plain:
    """The event as JSON can hold it."""
    plain: Plain = {"id": event.id, "bench": event.bench, "seq": event.seq, "at": event.at}
    plain["kind"] = _NAMES[type(event.what)]
    for field in fields(event.what):
        plain[field.name] = _out(getattr(event.what, field.name))
    return plain


def _out(value: object) -> object:
    if isinstance(value, Fraction):
        return str(value)
    if isinstance(value, tuple):
        return [_out(each) for each in value]
    return value


def from_plain(plain: object) -> Event:
    """The event that `to_plain` wrote; RecordError, with every fault, for anything else."""
    if not isinstance(plain, Mapping):
        raise RecordError((_fault("event", plain, "Send one object with id, bench, seq and kind."),))
    kind = plain.get("kind")
    made: type[Any] | None = KINDS.get(kind) if isinstance(kind, str) else None
    faults: list[Finding] = []
    envelope = _read(plain, Event, ("id", "bench", "seq", "at"), faults)
    if made is None:
        faults.append(_fault("kind", kind, f"Give one of {', '.join(KINDS)}."))
        raise RecordError(tuple(faults))
    values = _read(plain, made, tuple(field.name for field in fields(made)), faults)
    for name in ("id", "bench"):
        if not envelope.get(name, "-").strip():
            faults.append(_fault(name, plain[name], "Give a name that is not empty."))
    if faults:
        raise RecordError(tuple(faults))
    return Event(what=made(**values), **envelope)


def _read(
    plain: Mapping[str, object], made: type[Any], names: tuple[str, ...], faults: list[Finding]
) -> dict[str, Any]:
    """The fields called `names` of the dataclass `made`, read by their types."""
    values: dict[str, Any] = {}
    for field in fields(made):
        if field.name not in names:
            continue
        if field.name not in plain and field.default is not MISSING:
            values[field.name] = field.default
            continue
        reader, wanted = _READERS[str(field.type)]
        try:
            values[field.name] = reader(plain.get(field.name))
        except (TypeError, ValueError, ZeroDivisionError):
            faults.append(_fault(field.name, plain.get(field.name), f"Give {wanted}."))
    return values


def _text(value: object) -> str:
    if not isinstance(value, str) or len(value) > LONGEST_TEXT:
        raise ValueError
    return value


def _name(value: object) -> str:
    if not _text(value).strip():
        raise ValueError
    return _text(value)


def _count(value: object) -> int:
    if isinstance(value, bool) or not isinstance(value, int) or not 0 <= value <= GREATEST_SEQ:
        raise ValueError
    return value


def _length(value: object) -> Fraction:
    """An exact fraction; a bare number is refused, since it may have been rounded on the way."""
    return Fraction(_text(value))


def _minutes(value: object) -> float:
    if isinstance(value, bool) or not isinstance(value, (int, float)) or not isfinite(value) or value < 0:
        raise ValueError
    return float(value)


def _names(value: object) -> tuple[str, ...]:
    if not isinstance(value, (list, tuple)):
        raise TypeError
    return tuple(_name(each) for each in value)


def _inputs(value: object) -> tuple[tuple[str, Fraction], ...]:
    if not isinstance(value, (list, tuple)):
        raise TypeError
    return tuple((_name(name), _length(length)) for name, length in value)


_READERS: Mapping[str, tuple[Callable[[object], object], str]] = {
    "str": (_text, "a text"),
    "int": (_count, "a whole number of nothing or more"),
    "float": (_minutes, "a number of nothing or more"),
    "Fraction": (_length, 'a length as an exact fraction of an inch, such as "187/8"'),
    "tuple[str, ...]": (_names, "a list of names"),
    "tuple[tuple[str, Fraction], ...]": (_inputs, 'pairs of a name and a length, such as ["B1.width", "24"]'),
}


def _fault(name: str, value: object, fix: str) -> Finding:
    shown = repr(value)
    shown = shown if len(shown) <= 60 else shown[:57] + "..."
    return Finding("event-malformed", name, f"{shown} cannot be read.", fix)
