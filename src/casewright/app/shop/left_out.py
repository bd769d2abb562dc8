"""Entries of the shop's record that cannot be read: shown in words, left out for good, or entered again."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, fields
from fractions import Fraction
from typing import Any, get_type_hints

from ...errors import JobError, LengthError
from ...findings import Finding
from ...lengths.length import Unit, parse_length
from ...record import events
from ...record.event_json import KINDS
from ...record.events import Event, Undo
from ...store.event_rows import append_events
from ..jobs.kept_jobs import KeptJobs
from .kept_events import SetAside
from .receiving import receive
from .shop_floor import OFFICE, BenchRecord, event_row, read_record

Identity = Callable[[], str]

KIND_WORDS = {
    "claimed": "parts taken in hand",
    "released": "parts given up by a bench",
    "setting": "a machine set",
    "done": "steps ticked",
    "measured": "a reading",
    "spoiled": "a part spoiled",
    "assembled": "parts put together",
    "found": "an offcut found",
    "flawed": "a fault in a sheet",
    "lost": "something lost",
    "stocked": "sheets counted",
    "time": "minutes taken",
    "decided": "a decision",
    "tested": "a reading of a test of the shop",
    "dry-fit": "joints at the dry fit",
    "undo": "an entry taken back",
    "issue": "work handed out",
}
FIELD_WORDS = {
    "parts": "Parts, one to a line",
    "steps": "Steps, one to a line",
    "setting": "Batch that was set",
    "distance": "Distance set",
    "name": "Name",
    "value": "Reading",
    "tool": "Measured with",
    "part": "Part",
    "how": "What went wrong",
    "harms": "What is wrong and where, one to a line: fault = end; feature = dado-bottom",
    "material": "Material",
    "length": "Length along the grain",
    "width": "Width",
    "sheets": "Number of sheets",
    "sheet": "Number of the sheet",
    "x": "From its left end",
    "y": "From its near edge",
    "minutes": "Minutes",
    "title": "What was decided",
    "inputs": "Sizes that change, one to a line: name = length",
    "again": "Parts to make again, one to a line",
    "given_up": "Parts left out, one to a line",
    "not_done": "Steps to do again, one to a line",
    "turned": "Parts turned, one to a line",
    "changes": "Cuts that are changed, one to a line: part = feature = how",
    "blank": "Line of the test sheet",
    "number": "What it was cut to",
    "joint": "Joint",
}
NOT_RETYPED = ("undo",)
"""Kinds that name another entry by its id, which nobody knows by heart."""

MOST_SHOWN = 2_000


@dataclass(frozen=True)
class EntryField:
    """One thing to type: its name, its words, what the entry holds, and whether it takes several lines."""

    name: str
    words: str
    text: str
    lines: bool


@dataclass(frozen=True)
class UnreadableEntry:
    """An entry that does not count, and why. `fields` are empty where it cannot be typed again."""

    place: int
    what: str
    bench: str
    time: str
    reason: str
    holds: str
    left_out: bool
    fields: tuple[EntryField, ...]


def unreadable_entries(heard: BenchRecord) -> tuple[UnreadableEntry, ...]:
    """Every entry of the record that cannot be read, in the order in which they were kept."""
    return tuple(_shown(one, one.row.id in heard.left_out) for one in heard.aside)


def _shown(one: SetAside, left_out: bool) -> UnreadableEntry:
    row = one.row
    holds = row.payload[:MOST_SHOWN] + (" …" if len(row.payload) > MOST_SHOWN else "")
    reason = f"{one.fault.place}: {one.fault.text}"
    typed = () if left_out or row.kind in NOT_RETYPED else tuple(_fields(row.kind, row.payload))
    what = KIND_WORDS.get(row.kind, row.kind)
    return UnreadableEntry(row.place, what, row.bench, row.time, reason, holds, left_out, typed)


def _fields(kind: str, payload: str) -> Iterable[EntryField]:
    if kind not in KINDS:
        return
    try:
        plain = json.loads(payload)
    except (ValueError, RecursionError):
        plain = None
    held = plain if isinstance(plain, dict) else {}
    hints = get_type_hints(KINDS[kind], include_extras=True)
    for field in fields(KINDS[kind]):
        lines = hints[field.name] in (events.Names, events.Inputs, events.Harms, events.Changes)
        yield EntryField(field.name, FIELD_WORDS[field.name], _as_typed(held.get(field.name)), lines)


def _as_typed(value: Any) -> str:
    """What an entry holds, as the maker would have typed it; nothing where that makes no sense."""
    if isinstance(value, list):
        return "\n".join(map(_line, value))[:MOST_SHOWN]
    return str(value)[:MOST_SHOWN] if isinstance(value, str | int | float) else ""


def _line(one: Any) -> str:
    """One entry of a list on a line of its own: a pair as `name = value`, an object as several of those."""
    if isinstance(one, dict):
        return "; ".join(f"{name} = {value}" for name, value in one.items() if value not in ("", "0"))
    return " = ".join(map(str, one)) if isinstance(one, list) else str(one)


def leave_out(saved: KeptJobs, job: str, place: int, identity: Identity) -> None:
    """Leave an unreadable entry out for good: it stays in the file, and is told of no more."""
    heard = read_record(saved.file, job)
    row = _entry(heard, place).row
    if row.id not in heard.left_out:
        _undo(saved, job, heard, row.id, identity)


def take_back_in(saved: KeptJobs, job: str, place: int, identity: Identity) -> None:
    """Tell of an entry again that was left out."""
    heard = read_record(saved.file, job)
    row = _entry(heard, place).row
    for event in heard.events:
        if event.what == Undo(row.id) and event.id not in heard.undone:
            _undo(saved, job, read_record(saved.file, job), event.id, identity)


def enter_again(
    saved: KeptJobs, job: str, place: int, typed: Mapping[str, str], unit: Unit, identity: Identity
) -> None:
    """Keep what the maker typed in place of an entry, under an id of its own, and leave that entry out.

    A bare number counts `unit`. Raises JobError where what was typed cannot be kept.
    """
    heard = read_record(saved.file, job)
    row = _entry(heard, place).row
    if row.kind not in KINDS or row.kind in NOT_RETYPED:
        fix = "Leave it out for good, and note on the shop screen what was done."
        raise JobError((Finding("not-typed-again", row.id, "this entry cannot be typed again.", fix),))
    name = identity()
    sent = {"id": name, "bench": row.bench, "seq": heard.newest_number + 1, "at": row.time, "kind": row.kind}
    event = {**sent, **_read(row.kind, typed, unit)}
    received = receive(saved.file, job, [event], unit, saved.clock(), saved.device)
    if received.refused:
        raise JobError(tuple(finding for _, finding in received.refused))
    leave_out(saved, job, place, identity)


def _read(kind: str, typed: Mapping[str, str], unit: Unit) -> dict[str, Any]:
    """What was typed, as a bench would send it."""
    hints = get_type_hints(KINDS[kind], include_extras=True)
    plain: dict[str, Any] = {}
    for name in (field.name for field in fields(KINDS[kind])):
        text = typed.get(name, "").strip()
        lines = [line.strip() for line in text.splitlines() if line.strip()]
        if hints[name] == events.Names:
            plain[name] = lines
        elif hints[name] == events.Inputs:
            pairs = (line.partition("=") for line in lines)
            plain[name] = [[size.strip(), str(_length(size.strip(), said, unit))] for size, _, said in pairs]
        elif hints[name] == events.Changes:
            plain[name] = [[said.strip() for said in line.split("=", 2)] for line in lines]
        elif hints[name] == events.Harms:
            plain[name] = [_harm(line, unit) for line in lines]
        elif hints[name] == events.Exact:
            plain[name] = str(_length(FIELD_WORDS[name], text, unit))
        elif hints[name] in (events.Count, events.Minutes):
            plain[name] = _number(text)
        else:
            plain[name] = text
    return plain


def _harm(line: str, unit: Unit) -> dict[str, str]:
    """One thing that is wrong, from its line: `fault = damage; side = front; deep = 1/4`."""
    said = {name.strip(): text.strip() for name, _, text in (one.partition("=") for one in line.split(";"))}
    lengths: dict[str, str] = {
        name: str(_length(name, said[name], unit)) for name in ("long", "deep") if name in said
    }
    return {**said, **lengths}


def _length(place: str, text: str, unit: Unit) -> Fraction:
    try:
        return parse_length(text, unit)
    except LengthError as fault:
        raise JobError((Finding("length", place, f"{str(fault).rstrip('.')}.", "Type it again."),)) from None


def _number(text: str) -> int | float | str:
    """The number, or the text as it is, which is then refused in words."""
    try:
        return int(text) if text.isdecimal() else float(text)
    except ValueError:
        return text


def _entry(heard: BenchRecord, place: int) -> SetAside:
    for one in heard.aside:
        if one.row.place == place:
            return one
    text = "the record has no unreadable entry at this place."
    raise JobError((Finding("no-unreadable-entry", str(place), text, "Load the History page again."),))


def _undo(saved: KeptJobs, job: str, heard: BenchRecord, target: str, identity: Identity) -> None:
    time = saved.clock()
    event = Event(identity(), OFFICE, heard.newest_number + 1, Undo(target), time)
    append_events(saved.file, [event_row(event, job, time)])
