"""The shop's record as repairs need it: read, what is amiss by it, and written on."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from ...errors import JobError
from ...findings import Finding
from ...record.events import Event, Happening
from ...record.shop_state import State, Status
from ...repair.recorded_facts import cuts_to_free, facts_now, without_a_place
from ...store import event_rows as kept
from ..jobs.kept_jobs import KeptJobs
from ..jobs.worked_job import PlannedJob
from ..shop.shop_floor import OFFICE, BenchRecord, event_row, read_record
from .mishap import RepairTask

Identity = Callable[[], str]


def record_of(saved: KeptJobs, job: str) -> BenchRecord:
    """A job's whole record."""
    return read_record(saved.file, job)


def task_of(heard: BenchRecord) -> RepairTask:
    """The facts as recorded. Raises JobError while no work is handed out."""
    floor, state = floor_and_state(heard)
    project, plans = floor.project, floor.plans
    gone = state.with_status(Status.SPOILED, Status.LOST)
    return RepairTask(
        project,
        plans,
        state.done | cuts_to_free(plans, gone),
        facts_now(project, plans, state, floor.board_plans),
        floor.board_plans,
    )


def amiss(heard: BenchRecord) -> tuple[str, ...]:
    """The marks of the parts that are spoiled or lost as the record stands, or have lost their place."""
    return (*gone_parts(heard), *hit_by_flaws(heard))


def gone_parts(heard: BenchRecord) -> tuple[str, ...]:
    """The marks of the parts that are spoiled or lost as the record stands."""
    return heard.state.with_status(Status.SPOILED, Status.LOST) if heard.state else ()


def hit_by_flaws(heard: BenchRecord) -> tuple[str, ...]:
    """The marks of the parts still to be cut that have no place, as a fault of their sheet lies there."""
    if heard.floor is None or heard.state is None:
        return ()
    return without_a_place(heard.floor.project, heard.floor.plans, heard.state)


def floor_and_state(heard: BenchRecord) -> tuple[PlannedJob, State]:
    """The work handed out and how it stands. Raises JobError while none is handed out."""
    if heard.floor is None or heard.state is None:
        text = "no work has been handed out for this job."
        raise refused("no-work", "shop", text, "Hand the work out first.")
    return heard.floor, heard.state


def in_turn(state: State, happenings: Iterable[Happening], identity: Identity) -> tuple[Event, ...]:
    """What happened as events of the office, after all that the record holds."""
    first = state.last_seq + 1
    return tuple(Event(identity(), OFFICE, seq, what) for seq, what in enumerate(happenings, first))


def write_on(saved: KeptJobs, job: str, events: Iterable[Event], *more: kept.NewEvent) -> None:
    """Keep these events, and more entries after them, all or none."""
    time = saved.clock()
    rows = [event_row(event, job, time) for event in events]
    kept.append_events(saved.file, (*rows, *more))


def refused(code: str, place: str, text: str, fix: str) -> JobError:
    """The one thing that is in the way, to be raised."""
    return JobError((Finding(code, place, text, fix),))
