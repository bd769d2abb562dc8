"""The shop floor: work handed out from a job's plan, and what the benches say happened."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property, lru_cache
from threading import Lock

from ...boards.board_plan import BoardPlan
from ...findings import Finding
from ...planner.plan import Plan, sheets_of_parts
from ...record.event_json import to_plain
from ...record.events import Decided, Event
from ...record.fold import Folded, begin_fold
from ...record.handed_out import Issued, issued_to_plain
from ...record.shop_state import State, Status
from ...record.undo import in_order, set_aside
from ...store.event_rows import KeptEvent, NewEvent, append_events, events_after
from ...store.job_rows import get_revision
from ...store.shop_file import StoreFile
from ...workshop.boards.board_work import NO_BOARDS
from ...workshop.changed_cuts import ChangedCut
from ..jobs.worked_job import PlannedJob, open_job
from .kept_events import SetAside, read_events
from .work_handed_out import ISSUE, numbered_for_shop, read_handings_out

OFFICE = "office"
"""The bench under whose name is written down what is decided away from the machines."""


@dataclass(frozen=True, eq=False)
class BenchRecord:
    """A job's record: the work handed out last, the benches' events, and the last place.

    `floor` is the job as it was handed out, None before; `issue` is the id of that entry and `revision` the
    one it was then. `aside` are the entries that cannot be read, `newest` the id of the entry at the last
    place, `kept` the entry of each event that has one. `earlier` is the record up to an earlier place, from
    which its state is worked out further.
    """

    floor: PlannedJob | None
    revision: int
    events: tuple[Event, ...]
    place: int
    aside: tuple[SetAside, ...] = ()
    issue: str = ""
    newest: str = ""
    earlier: Folded | None = None
    kept: Mapping[str, KeptEvent] = field(default_factory=dict)

    @cached_property
    def folded(self) -> Folded | None:
        """The events folded, for a later record to go on from; None before work is handed out."""
        if self.floor is None:
            return None
        unreadable = self._unreadable
        if self.earlier is not None and self.earlier.unreadable == unreadable:
            return self.earlier.on(self.events)
        project, steps = self.floor.project, self.floor.work.operations
        start = begin_fold(
            project.parts, steps, project.job.shop.table_saw.rip_capacity, project.rule, unreadable
        )
        return start.on(self.events)

    @cached_property
    def state(self) -> State | None:
        """The state of the shop after the events; None before work is handed out."""
        return self.folded.state if self.folded else None

    def place_of(self, event: str) -> int:
        """The place of the event with this id; 0 for one that is not kept yet."""
        return self.kept[event].place if event in self.kept else 0

    @property
    def changes(self) -> tuple[ChangedCut, ...]:
        """What is cut otherwise than drawn, by the ways chosen that still count."""
        decisions = self.state.decisions if self.state else ()
        return tuple(ChangedCut(*one) for decided in decisions for one in decided.changes)

    @property
    def newest_number(self) -> int:
        """The greatest number of any event; 0 before the first."""
        return max((event.seq for event in self.events), default=0)

    @cached_property
    def undone(self) -> frozenset[str]:
        """The ids of events that an undo sets aside, and of unreadable entries that are left out for good."""
        if self.state is not None:
            return self.state.undone
        return set_aside(in_order(self.events)[0], self._unreadable)[0]

    @property
    def left_out(self) -> frozenset[str]:
        """The ids of the unreadable entries that the maker has left out for good."""
        return self.undone & self._unreadable

    @property
    def _unreadable(self) -> frozenset[str]:
        return frozenset(entry.row.id for entry in self.aside)

    @cached_property
    def set_aside(self) -> tuple[Finding, ...]:
        """A finding for each entry that cannot be read, but for those left out for good."""
        return tuple(entry.finding for entry in self.aside if entry.row.id not in self.left_out)

    def with_events(self, events: Sequence[Event]) -> BenchRecord:
        """The record as it would be with these events after all others."""
        return replace(self, events=(*self.events, *events), earlier=self.folded)


def hand_out(
    file: StoreFile,
    job: str,
    revision: int,
    plans: Mapping[str, Plan],
    identity: str,
    time: str,
    boards: Mapping[str, BoardPlan] = NO_BOARDS,
) -> None:
    """Make these plans the shop's work from now on. `identity` is new for every handing out.

    Sheets that are cut otherwise than any handed out before get numbers of their own. A part that was spoiled
    or lost, and comes of another sheet now, is to be cut again: that is written down too.
    """
    before = read_record(file, job)
    numbered, on_boards = numbered_for_shop(file, job, plans, boards)
    payload = json.dumps(issued_to_plain(Issued(revision, numbered, on_boards)))
    rows = [NewEvent(identity, job, OFFICE, time, ISSUE, payload)]
    again = _cut_again(before, numbered)
    if again and before.state is not None:
        decided = Decided("planned again", again=again)
        event = Event(f"{identity}.again", OFFICE, before.state.last_seq + 1, decided, time)
        rows.append(event_row(event, job, time))
    append_events(file, rows)


def _cut_again(before: BenchRecord, plans: Mapping[str, Plan]) -> tuple[str, ...]:
    """The spoiled and lost parts that these plans cut from another sheet than the one they came of."""
    if before.floor is None or before.state is None:
        return ()
    was, now = sheets_of_parts(before.floor.plans), sheets_of_parts(plans)
    gone = before.state.with_status(Status.SPOILED, Status.LOST)
    return tuple(mark for mark in gone if mark in now and now[mark] != was.get(mark))


def read_record(file: StoreFile, job: str) -> BenchRecord:
    """A job's whole record."""
    return _latest(file, job).read()


@lru_cache(maxsize=8)
def _latest(file: StoreFile, job: str) -> _Latest:
    return _Latest(file, job)


class _Latest:
    """The newest record read of a job. No event is ever changed, so only those kept since are read."""

    def __init__(self, file: StoreFile, job: str) -> None:
        self.file = file
        self.job = job
        self.lock = Lock()
        self.record = BenchRecord(None, 0, (), 0)

    def read(self) -> BenchRecord:
        with self.lock:
            before = self.record
            # The entry read last is read again: it tells this file from another that came in its place.
            known, *rows = events_after(self.file, self.job, max(before.place - 1, 0)) or (None,)
            same = known is not None and (known.place, known.id) == (before.place, before.newest)
            if not same or any(row.kind == ISSUE for row in rows):
                self.record = _record_of(self.file, self.job, events_after(self.file, self.job))
            elif rows:
                self.record = _taken_further(before, rows)
            return self.record


def _record_of(file: StoreFile, job: str, rows: Sequence[KeptEvent]) -> BenchRecord:
    work = read_handings_out(row for row in rows if row.kind == ISSUE)
    floor, revision, issue = None, 0, ""
    if work.entries:
        issue, issued = work.entries[-1].id, work.entries[-1].issued
        revision = issued.revision
        floor = open_job(get_revision(file, job, revision).text).with_plan(issued.plans, boards=issued.boards)
    start = BenchRecord(floor, revision, (), 0, work.set_aside, issue)
    return _taken_further(start, rows)


def _taken_further(before: BenchRecord, rows: Sequence[KeptEvent]) -> BenchRecord:
    """With the events of these entries, which were kept after all others."""
    read = read_events((row for row in rows if row.kind != ISSUE), before.newest_number)
    readable = {event.id for event in read.events}
    entries = {row.id: row for row in rows if row.id in readable}
    last = rows[-1] if rows else None
    return replace(
        before,
        events=(*before.events, *read.events),
        place=last.place if last else before.place,
        aside=(*before.aside, *read.set_aside),
        newest=last.id if last else before.newest,
        earlier=before.folded if before.events else None,
        kept={**before.kept, **entries},
    )


def event_row(event: Event, job: str, time: str, device: str = "") -> NewEvent:
    """The row an event is kept in; `device` is the paired one it came from, empty for this machine."""
    plain = to_plain(event)
    at = event.at or time
    return NewEvent(event.id, job, event.bench, at, str(plain["kind"]), json.dumps(plain), device)
