"""What a bench sends, judged by those who must read it later, and kept."""

from __future__ import annotations

import logging
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from ...errors import JobError, LengthError, RecordError
from ...findings import Finding
from ...lengths.length import Unit, parse_length
from ...record.event_json import from_plain
from ...record.events import Done, Event, Measured, SettingMade
from ...record.undo import in_order, set_aside
from ...store import event_rows as kept
from ...store.shop_file import StoreFile
from ...tolerance.as_built.doubtful import DoubtfulReading, doubt_against, doubt_reading
from ...workshop.operations import Machine
from ..fit.fit_as_built import shop_state
from ..jobs.worked_job import PlannedJob
from ..repair.repair_record import amiss, task_of
from ..repair.shop_repair import last_choice
from ..sheets.begun_work import begun_work
from .kept_events import check_number
from .shop_floor import BenchRecord, event_row, read_record
from .shop_work import pace_of
from .ticked_before import AlreadyTicked, ticked_before

log = logging.getLogger(__name__)


def _ways_asked(heard: BenchRecord) -> object:
    """What the search for ways is asked, which it is only while something is spoiled or lost."""
    return task_of(heard) if amiss(heard) else None


READERS: tuple[Callable[[BenchRecord], object], ...] = (
    shop_state,
    pace_of,
    _ways_asked,
    last_choice,
    begun_work,
)
"""Everything that is worked out from a record before a page or a tablet shows it."""


@dataclass(frozen=True)
class Receipt:
    """What became of the events sent: ids now stored, with their `places`, and those refused, each with the
    reason; the ticks that came second, which changed nothing; and readings that are kept only when the maker
    has answered what they raise."""

    kept: tuple[str, ...]
    refused: tuple[tuple[str, Finding], ...]
    places: tuple[int, ...] = ()
    already: tuple[AlreadyTicked, ...] = ()
    asked: tuple[tuple[str, DoubtfulReading], ...] = ()


def receive(
    file: StoreFile, job: str, sent: Sequence[Any], unit: Unit, time: str, device: str = ""
) -> Receipt:
    """Keep the events a bench sends. One that cannot be read is refused alone; the rest are kept.

    `device` is the paired device they come from, empty for the machine that keeps the file.

    An event sent again is kept once. A measurement may come as the maker typed it, under `said`;
    a bare number then counts the unit of the work handed out, or else `unit`. One that looks like a slip
    is not kept until it comes with `sure`. An undo may name the tick it takes back by place and step.
    """
    events: list[Event] = []
    refused: list[tuple[str, Finding]] = []
    asked: list[tuple[str, DoubtfulReading]] = []
    heard = read_record(file, job)
    unit = heard.floor.project.job.unit if heard.floor else unit
    newest = heard.newest_number
    for plain in sent:
        try:
            event = from_plain(_named_tick(_read_lengths(plain, unit), heard))
            check_number(event, newest)
            if (doubt := _doubt(heard, events, event, plain)) is not None:
                asked.append((event.id, doubt))
                continue
            events.append(event)
            newest = max(newest, event.seq)
        except RecordError as fault:
            identity = plain.get("id") if isinstance(plain, dict) else ""
            refused.append((str(identity or ""), fault.findings[0]))
    usable, faults = _usable(heard, events)
    refused += faults
    taken = kept.append_events(file, [event_row(event, job, time, device) for event in usable])
    refused += [(row.id, _taken_elsewhere(row)) for row in taken if row.job != job]
    ours = [row for row in taken if row.job == job]
    already = ticked_before(read_record(file, job), [row.id for row in ours])
    ids, places = tuple(row.id for row in ours), tuple(row.place for row in ours)
    return Receipt(ids, tuple(refused), places, already, tuple(asked))


def _doubt(
    heard: BenchRecord, before: Sequence[Event], event: Event, plain: Mapping[str, Any]
) -> DoubtfulReading | None:
    """The question that a new reading or setting raises, unless the maker has answered it."""
    what = event.what
    if plain.get("sure") is True or heard.floor is None:
        return None
    if not isinstance(what, Measured | SettingMade):
        return None
    if any(known.id == event.id for known in heard.events):
        return None  # kept, and sent again since the answer was lost
    said = str(plain.get("said", ""))
    if isinstance(what, SettingMade):
        planned = _planned_setting(heard.floor, what.setting)
        if planned is None:
            return None
        return doubt_against(heard.floor.project, what.setting, what.distance, planned, said)
    all_known = (*heard.events, *before)
    undone = set_aside(in_order(all_known)[0], frozenset())[0]
    earlier = [
        (known.what.name, known.what.value)
        for known in all_known
        if isinstance(known.what, Measured) and known.id not in undone
    ]
    return doubt_reading(heard.floor.project, what.name, what.value, said, earlier)


def _planned_setting(floor: PlannedJob, batch: str) -> Fraction | None:
    """What the table saw's fence shows for a batch by the plan, in inches; None for any other."""
    settings = (one.setting for one in floor.ordered.batches if one.key == batch)
    at_saw = (setting for setting in settings if setting and setting.machine is Machine.TABLE_SAW)
    return next((setting.distance for setting in at_saw), None)


def _usable(heard: BenchRecord, events: Sequence[Event]) -> tuple[list[Event], list[tuple[str, Finding]]]:
    """The events after which every reader of the record still answers, and why each other is refused."""
    if _stopped(heard, events) is None:
        return list(events), []
    if (before := _stopped(heard, ())) is not None:  # a fault of ours that no event here is to blame for
        log.error("the record of the shop cannot be read", exc_info=before)
        return list(events), []
    usable: list[Event] = []
    refused: list[tuple[str, Finding]] = []
    for event in events:
        fault = _stopped(heard, [*usable, event])
        if fault is None:
            usable.append(event)
        else:
            log.error("an event that stops the record was refused", exc_info=fault)
            refused.append((event.id, _unusable(fault)))
    return usable, refused


def _stopped(heard: BenchRecord, events: Sequence[Event]) -> Exception | None:
    """What stops a reader of the record once these events are in it; None where all of them answer."""
    with_them = heard.with_events(events)
    for read in READERS:
        try:
            read(with_them)
        except JobError:
            continue  # an answer: it says what there is to do first
        except Exception as fault:  # whatever it is, the tablets must not meet it on every later poll
            return fault
    return None


def _unusable(fault: Exception) -> Finding:
    text = f"casewright cannot work with this entry; that is a bug in casewright ({type(fault).__name__})."
    fix = "Enter it in another way, or note it on paper; everything else is kept."
    return Finding("event-unusable", "event", text, fix)


def _named_tick(plain: Any, heard: BenchRecord) -> Any:
    """An undo of the tick at a place of the record, with the id of that tick instead.

    It names the step too: after going back to a backup another event may stand at that place.
    """
    if not isinstance(plain, dict) or plain.get("kind") != "undo" or not isinstance(plain.get("event"), int):
        return plain
    place, step = plain["event"], plain.get("step")
    for event in heard.events:
        if isinstance(event.what, Done) and heard.place_of(event.id) == place and step in event.what.steps:
            return {**plain, "event": event.id}
    text = f"“{place}” is not the place of a tick of “{step}”; the record has changed."
    fix = "Load the shop screen again, and untick the step there."
    raise RecordError((Finding("no-such-tick", "event", text, fix),))


def _taken_elsewhere(row: kept.KeptEvent) -> Finding:
    text = f"“{row.id}” is the id of an event of another job, {row.job}."
    return Finding("id-of-another-job", "id", text, "Send the event under an id of its own.")


_SAID = {"measured": "value", "setting": "distance"}


def _read_lengths(plain: Any, unit: Unit) -> Any:
    """`said` turned into the exact length it means; RecordError when it is no length."""
    if not isinstance(plain, dict):
        return plain
    plain = {key: value for key, value in plain.items() if key != "sure"}
    if "said" not in plain:
        return plain
    said, field = plain["said"], _SAID.get(str(plain.get("kind")))
    if field is None:
        return plain
    try:
        length = parse_length(said if isinstance(said, (str, int, float)) else str(said), unit)
    except LengthError as fault:
        raise RecordError((Finding("length", "said", str(fault), "Type it again."),)) from None
    if field == "value" and length <= 0:
        text = f"“{said}” is no size: a measured size is greater than zero."
        raise RecordError((Finding("length", "said", text, "Type it again."),))
    return {**{key: value for key, value in plain.items() if key != "said"}, field: str(length)}
