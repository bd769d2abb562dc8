"""The shop floor: work handed out from a job's plan, and what the benches say happened."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
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
from ...record.events import Decided, Event
from ...record.fold import fold
from ...record.handed_out import Issued, issued_to_plain
from ...record.shop_state import State, Status
from ...shop.measuring_tools import MeasuringTool
from ...store import event_rows as kept
from ...store.job_rows import get_revision
from ...store.shop_file import StoreFile
from ...workshop.assembly.joining import dry_fit_measures
from ...workshop.order.step_times import Pace, learn_pace, timed_work
from ..jobs.worked_job import PlannedJob, open_job
from .kept_events import check_number, read_events
from .work_handed_out import ISSUE, numbered_for_shop, read_handings_out

OFFICE = "office"
"""The bench under whose name is written down what is decided away from the machines."""


@dataclass(frozen=True, eq=False)
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

    Sheets that are cut otherwise than any handed out before get numbers of their own. A part that was spoiled
    or lost, and comes of another sheet now, is to be cut again: that is written down too.
    """
    before = read_record(file, job)
    numbered = numbered_for_shop(file, job, plans)
    payload = json.dumps(issued_to_plain(Issued(revision, numbered)))
    rows = [kept.NewEvent(identity, job, OFFICE, time, ISSUE, payload)]
    again = _cut_again(before, numbered)
    if again and before.state is not None:
        decided = Decided("planned again", again=again)
        event = Event(f"{identity}.again", OFFICE, before.state.last_seq + 1, decided, time)
        rows.append(_row(event, job, time, ""))
    kept.append_events(file, rows)


def _cut_again(before: BenchRecord, plans: Mapping[str, Plan]) -> tuple[str, ...]:
    """The spoiled and lost parts that these plans cut from another sheet than the one they came of."""
    if before.floor is None or before.state is None:
        return ()
    was, now = _sheets_by_part(before.floor.plans), _sheets_by_part(plans)
    gone = before.state.with_status(Status.SPOILED, Status.LOST)
    return tuple(mark for mark in gone if mark in now and now[mark] != was.get(mark))


def _sheets_by_part(plans: Mapping[str, Plan]) -> dict[str, tuple[str, int]]:
    return {
        piece.item or "": (material, sheet.number)
        for material, plan in plans.items()
        for sheet, piece in plan.parts()
    }


def read_record(file: StoreFile, job: str) -> BenchRecord:
    """A job's whole record."""
    return _record_up_to(file, job, *kept.newest_event(file, job))


@lru_cache(maxsize=8)
def _record_up_to(file: StoreFile, job: str, place: int, _newest: str) -> BenchRecord:
    """The record up to a place. No event is ever changed, so what was read of it once stays so; the newest
    event's id tells a file from another that came in its place."""
    rows = [row for row in kept.events_after(file, job) if row.place <= place]
    work = read_handings_out(row for row in rows if row.kind == ISSUE)
    floor, revision = None, 0
    if work.entries:
        issued = work.entries[-1].issued
        revision = issued.revision
        floor = open_job(get_revision(file, job, revision).text).with_plan(issued.plans)
    read = read_events(row for row in rows if row.kind != ISSUE)
    return BenchRecord(floor, revision, read.events, place, (*work.set_aside, *read.set_aside))


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
    taken = kept.append_events(file, [_row(event, job, time, device) for event in events])
    refused += [(row.id, _taken_elsewhere(row)) for row in taken if row.job != job]
    return Receipt(tuple(row.id for row in taken if row.job == job), tuple(refused))


def _taken_elsewhere(row: kept.KeptEvent) -> Finding:
    text = f"“{row.id}” is the id of an event of another job, {row.job}."
    return Finding("id-of-another-job", "id", text, "Send the event under an id of its own.")


def _row(event: Event, job: str, time: str, device: str) -> kept.NewEvent:
    plain = to_plain(event)
    at = event.at or time
    return kept.NewEvent(event.id, job, event.bench, at, str(plain["kind"]), json.dumps(plain), device)


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
    return kept.newest_event(file, job)[0] <= place
