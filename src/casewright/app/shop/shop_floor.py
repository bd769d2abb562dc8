"""The shop floor: work handed out from a job's plan, and what the benches say happened."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import asdict, dataclass
from fractions import Fraction
from functools import cached_property, lru_cache
from typing import Any

from ...casework.extents import case_diagonal
from ...casework.size_names import read_name
from ...errors import LengthError, RecordError
from ...findings import Finding
from ...lengths.length import Unit, parse_length, show
from ...planner.plan import Plan
from ...record.event_json import from_plain, to_plain
from ...record.events import Event
from ...record.fold import fold
from ...record.handed_out import Issued, issued_from_plain, issued_to_plain, renumber_sheets
from ...record.shop_state import State
from ...shop.measuring_tools import MeasuringTool
from ...store import event_rows as kept
from ...store.shop_file import StoreFile
from ...workshop.assembly.joining import dry_fit_measures
from ...workshop.order.step_times import Pace, learn_pace, timed_work
from ..jobs.worked_job import PlannedJob, open_job
from .kept_events import check_number, read_events

ISSUE = "issue"
"""The kind of record entry that hands work out; every other kind is an event of a bench."""


@dataclass(frozen=True)
class BenchRecord:
    """A job's record: the work handed out last, the benches' events, and the last place.

    `floor` is the job as it was handed out, None before, and `revision` the one it was then. `set_aside`
    has a finding for each entry that cannot be read.
    """

    floor: PlannedJob | None
    revision: int
    events: tuple[Event, ...]
    place: int
    set_aside: tuple[Finding, ...] = ()

    @cached_property
    def state(self) -> State | None:
        """The state of the shop after the events; None before work is handed out."""
        return state_after(self.floor, self.events) if self.floor else None


@dataclass(frozen=True)
class Receipt:
    """What became of the events sent: ids now stored, and those refused, each with the reason."""

    kept: tuple[str, ...]
    refused: tuple[tuple[str, Finding], ...]


def state_after(floor: PlannedJob, events: Iterable[Event]) -> State:
    """How the work handed out stands after `events`."""
    job = floor.project.job
    return fold(events, floor.project.parts, floor.work.operations, job.shop.table_saw.rip_capacity, job.mark)


def hand_out(
    file: StoreFile, job: str, revision: int, plans: Mapping[str, Plan], identity: str, time: str
) -> None:
    """Make these plans the shop's work from now on. `identity` is new for every handing out.

    Sheets that are cut otherwise than any handed out before get numbers of their own.
    """
    earlier = [
        issued_from_plain(json.loads(row.payload))
        for row in kept.events_after(file, job)
        if row.kind == ISSUE
    ]
    payload = json.dumps(issued_to_plain(Issued(revision, renumber_sheets(plans, earlier))))
    kept.append_events(file, [kept.NewEvent(identity, job, "office", time, ISSUE, payload)])


def read_record(file: StoreFile, job: str, text_of: Callable[[int], str]) -> BenchRecord:
    """A job's whole record. `text_of` gives the job's text at a revision."""
    rows = kept.events_after(file, job)
    issues = [row for row in rows if row.kind == ISSUE]
    floor, revision = None, 0
    if issues:
        issued = _issued(issues[-1].payload)
        revision = issued.revision
        floor = open_job(text_of(revision)).with_plan(issued.plans)
    read = read_events(row for row in rows if row.kind != ISSUE)
    return BenchRecord(floor, revision, read.events, rows[-1].place if rows else 0, read.set_aside)


@lru_cache(maxsize=8)
def _issued(payload: str) -> Issued:
    return issued_from_plain(json.loads(payload))


def receive(
    file: StoreFile, job: str, sent: Sequence[Any], unit: Unit, time: str, device: str = ""
) -> Receipt:
    """Keep the events a bench sends. One that cannot be read is refused alone; the rest are kept.

    `device` is the paired device they come from, empty for the machine that keeps the file.

    An event sent again is kept once. A measurement may come as the maker typed it, under `said`;
    a bare number then counts `unit`.
    """
    events: list[Event] = []
    refused: list[tuple[str, Finding]] = []
    newest = read_events(row for row in kept.events_after(file, job) if row.kind != ISSUE).newest
    for plain in sent:
        try:
            event = from_plain(_read_lengths(plain, unit))
            check_number(event, newest)
            events.append(event)
            newest = max(newest, event.seq)
        except RecordError as fault:
            identity = plain.get("id") if isinstance(plain, dict) else ""
            refused.append((str(identity or ""), fault.findings[0]))
    rows = [
        kept.NewEvent(
            event.id, job, event.bench, event.at or time, _kind(event), json.dumps(to_plain(event)), device
        )
        for event in events
    ]
    taken = kept.append_events(file, rows)
    refused += [(row.id, _taken_elsewhere(row)) for row in taken if row.job != job]
    return Receipt(tuple(row.id for row in taken if row.job == job), tuple(refused))


def _row(event: Event, job: str, time: str, device: str) -> kept.NewEvent:
    payload = json.dumps(to_plain(event))
    return kept.NewEvent(event.id, job, event.bench, event.at or time, _kind(event), payload, device)


def _taken_elsewhere(row: kept.KeptEvent) -> Finding:
    text = f"“{row.id}” is the id of an event of another job, {row.job}."
    return Finding("id-of-another-job", "id", text, "Send the event under an id of its own.")


def _kind(event: Event) -> str:
    return str(to_plain(event)["kind"])


_SAID = {"measured": "value", "setting": "distance"}


def _read_lengths(plain: Any, unit: Unit) -> Any:
    """`said` turned into the exact length it means; RecordError when it is no length."""
    if not isinstance(plain, dict) or "said" not in plain:
        return plain
    said, field = plain["said"], _SAID.get(str(plain.get("kind")))
    if field is None:
        return plain
    try:
        length = parse_length(said if isinstance(said, (str, int, float)) else str(said), unit)
    except LengthError as fault:
        raise RecordError((Finding("length", "said", str(fault), "Type it again."),)) from None
    return {**{key: value for key, value in plain.items() if key != "said"}, field: str(length)}


def pace_of(heard: BenchRecord) -> Pace:
    """The shop's own figures, as far as it has timed its steps."""
    if heard.floor is None or heard.state is None:
        return Pace()
    return learn_pace(timed_work(heard.state.minutes, heard.floor.ordered.batches))


def work_json(heard: BenchRecord) -> dict[str, Any]:
    """The work as a tablet keeps it: batches with their steps, and what can be measured of each part."""
    floor = heard.floor
    if floor is None:
        return {"batches": [], "parts": {}, "statement": "", "unit": ""}
    batches = [asdict(batch) for batch in floor.told_at(pace_of(heard))]
    for batch in batches:
        batch["fence"] = None if batch["fence"] is None else str(batch["fence"])
        for caution in batch["cautions"]:
            caution["hazard"] = caution["hazard"].value
    return {
        "batches": batches,
        "parts": {mark: _part_json(floor, mark) for mark in floor.project.parts},
        "cases": {case: _case_json(floor, case) for case in floor.project.cases},
        "statement": floor.ordered.statement(),
        "unit": floor.project.job.unit.value,
        "tools": [tool.value for tool in MeasuringTool],
        "job": floor.project.job.name,
    }


def _part_json(floor: PlannedJob, mark: str) -> dict[str, Any]:
    project = floor.project
    part = project.parts[mark]
    ledger = project.sizes.ledger
    names = [size.name for size in (part.length, part.width, part.thickness)]
    names += [name for name in ledger if (read := read_name(name)).owner == mark and read.feature]
    return {
        "what": f"{part.role.value}, {project.job.sheets[part.material].name}",
        "sizes": [
            _size_json(floor, name, ledger[name].words.removeprefix(f"{mark} "), project.sizes.of(name))
            for name in names
        ],
    }


def _case_json(floor: PlannedJob, case: str) -> dict[str, Any]:
    """What is measured of a whole case: at its dry fit, and its diagonals when it is closed."""
    project = floor.project
    square = case_diagonal(project, project.cases[case])
    sizes = [_size_json(floor, m.name, m.words, m.expected) for m in dry_fit_measures(project, case)]
    for name, words in project.cases[case].diagonals:
        sizes.append(_size_json(floor, name, words, square))
    return {"what": f"{project.cases[case].spec.kind.value} case", "sizes": sizes}


def _size_json(floor: PlannedJob, name: str, words: str, value: Fraction) -> dict[str, str]:
    return {"name": name, "words": words, "text": show(value, floor.project.job.mark, unit=True).marked}


def state_json(heard: BenchRecord) -> dict[str, Any]:
    """How things stand, as a tablet shows it."""
    state = heard.state
    if state is None or heard.floor is None:
        return {"place": heard.place, "seq": 0, "ticks": {}, "parts": {}, "readings": {}, "findings": []}
    mark = heard.floor.project.job.mark
    return {
        "place": heard.place,
        "seq": state.last_seq,
        "ticks": {key: {"bench": tick.bench, "event": tick.event} for key, tick in state.ticks.items()},
        "parts": {
            name: {
                "status": part.status.value,
                "bench": part.bench,
                "how": part.how,
                "event": part.event,
            }
            for name, part in state.parts.items()
        },
        "readings": {
            name: [
                {"text": show(r.value, mark, unit=True).marked, "tool": r.tool, "bench": r.bench}
                for r in readings
            ]
            for name, readings in state.readings.items()
        },
        "settings": {name: str(distance) for name, distance in state.settings.items()},
        "findings": [finding_on_tablet(finding) for finding in (*heard.set_aside, *state.findings)],
    }


def finding_on_tablet(finding: Finding) -> dict[str, str]:
    """What a tablet shows of a finding."""
    return {"code": finding.code, "place": finding.place, "text": finding.text, "fix": finding.fix}


def nothing_new(file: StoreFile, job: str, place: int) -> bool:
    """Whether nothing has been recorded of a job beyond a place."""
    return not kept.events_after(file, job, place)
