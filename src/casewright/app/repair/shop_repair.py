"""Putting right from the shop's record: a part is reported spoiled, ways are looked for, one is chosen.

A choice is one bundle of events: what was said of parts that are kept after all is set aside, the
decision is written down, and the plans that follow are handed out. Its job text is a revision.
Undoing sets the bundle's events aside and hands the plans before it out again.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import count

from ...casework.project import Project
from ...casework.size_names import PartSizes
from ...errors import JobError, LengthError
from ...findings import Finding
from ...lengths.length import parse_length
from ...record.events import Decided, Done, Event, Happening, Lost, Measured, Spoiled, Undo
from ...record.handed_out import Issued, issued_to_plain
from ...record.shop_state import State, Status
from ...repair.facts import AsCut, is_as_planned
from ...repair.plans_after import plans_after
from ...repair.recorded_facts import cuts_to_free, facts_now
from ...repair.ways.way import (
    CutAgain,
    Forgo,
    GlueOn,
    KeepAsCut,
    Mend,
    Option,
    ServeAs,
    SetInput,
    TrimTo,
)
from ...shop.measuring_tools import MeasuringTool
from ...store import event_rows as kept
from ...tolerance.as_built.doubtful import DoubtfulReading, doubt_reading
from ...workshop.operations import cut_key
from ..jobs.kept_jobs import KeptJobs, RefusedChange
from ..jobs.worked_job import PlannedJob
from ..shop.shop_floor import OFFICE, BenchRecord, event_row, read_record
from ..shop.work_handed_out import ISSUE, handings_out
from .mishap import RepairTask, measured_wrong
from .repair_page import FoundWays, changed_text

CHOICE = "choice-"

Identity = Callable[[], str]


@dataclass(frozen=True)
class Report:
    """A report on a part: what it measures now, as typed, or that nothing is left of it.

    `worked` says that its dados, grooves or holes are cut. `sure` holds the sizes that stand although they
    look like slips, each as `length 345`.
    """

    mark: str
    length: str = ""
    width: str = ""
    how: str = ""
    worked: bool = False
    lost: bool = False
    sure: tuple[str, ...] = ()


@dataclass(frozen=True)
class WayChoice:
    """A decision that counts: its title, the event that can be undone, and the revision it led to."""

    title: str
    event: str
    revision: int


def record_of(saved: KeptJobs, job: str) -> BenchRecord:
    """A job's whole record."""
    return read_record(saved.file, job)


def task_of(heard: BenchRecord) -> RepairTask:
    """The facts as recorded. Raises JobError while no work is handed out."""
    floor, state = _needed(heard)
    project, plans = floor.project, floor.plans
    gone = state.with_status(Status.SPOILED, Status.LOST)
    return RepairTask(
        project, plans, state.done | cuts_to_free(plans, gone), facts_now(project, plans, state)
    )


def amiss(heard: BenchRecord) -> tuple[str, ...]:
    """The marks of the parts that are spoiled or lost as the record stands."""
    return heard.state.with_status(Status.SPOILED, Status.LOST) if heard.state else ()


def report(
    saved: KeptJobs, job: str, heard: BenchRecord, said: Report, identity: Identity
) -> dict[str, DoubtfulReading]:
    """Write down that a part is spoiled or lost. Where a size looks like a slip nothing is; what comes back
    is the question that its `length` or `width` raises.

    Raises JobError when the report contradicts the record.
    """
    floor, state = _needed(heard)
    project = floor.project
    if said.mark not in project.parts:
        text = "the work in the shop has no part with this mark."
        raise _refused("no-such-part", said.mark, text, "Choose one from the parts list.")
    status = state.status(said.mark)
    if status is Status.ASSEMBLED:
        text = f"it is already built into {state.parts[said.mark].within}."
        fix = "Undo that on the shop screen if it can still be taken out."
        raise _refused("assembled", said.mark, text, fix)
    if status in (Status.SPOILED, Status.LOST, Status.GIVEN_UP):
        text = f"it is {status.value} already."
        raise _refused("said-already", said.mark, text, "Choose a way to replace it on the Put right page.")
    happenings: list[Happening] = []
    if said.worked:
        own = [step.key for step in floor.work.by_part[said.mark] if step.parts == (said.mark,)]
        left = tuple(key for key in own if key not in state.done)
        happenings += [Done(left)] if left else []
    if said.lost:
        happenings.append(Lost(said.mark))
    else:
        sizes = _sizes(floor.project, said)
        if doubts := _doubts_of(project, said, sizes):
            return doubts
        happenings += _measured(floor, said, sizes)
        happenings.append(Spoiled(said.mark, said.how))
    _append(saved, job, _events(state, happenings, identity))
    return {}


def _sizes(project: Project, said: Report) -> tuple[Fraction, Fraction]:
    """The length and width that are left of the part; as planned where nothing is entered."""
    part = project.parts[said.mark]
    sizes: list[Fraction] = []
    faults: list[Finding] = []
    for form, typed in ((part.length, said.length), (part.width, said.width)):
        try:
            sizes.append(parse_length(typed, project.job.unit) if typed.strip() else project.sizes.of(form))
        except LengthError as fault:
            text = f"{str(fault).rstrip('.')}."
            faults.append(Finding("length", form.name, text, "Enter the length you measured."))
    if faults:
        raise JobError(tuple(faults))
    length, width = sizes
    return length, width


def _doubts_of(
    project: Project, said: Report, sizes: tuple[Fraction, Fraction]
) -> dict[str, DoubtfulReading]:
    """The question for each size that a slip explains. What no slip explains is not asked about, as in other
    readings: of a spoiled part any size may be left."""
    part = project.parts[said.mark]
    typed = zip(("length", "width"), (part.length, part.width), (said.length, said.width), sizes, strict=True)
    return {
        name: doubt
        for name, form, text, value in typed
        if text.strip() and value > 0 and f"{name} {text.strip()}" not in said.sure
        if (doubt := doubt_reading(project, form.name, value, text)) is not None and doubt.meant
    }


def _measured(floor: PlannedJob, said: Report, sizes: tuple[Fraction, Fraction]) -> list[Happening]:
    project = floor.project
    part = project.parts[said.mark]
    length, width = sizes
    cut = AsCut(length, width, said.worked)
    wrong = measured_wrong(project, said.mark, cut)
    if not wrong and not said.worked and is_as_planned(project, said.mark, cut):
        text = "it has the planned size, to the mark of the rule."
        fix = "The part is good; if it cannot be used, report it as lost."
        wrong = (Finding("as-planned", said.mark, text, fix),)
    if wrong:
        raise JobError(wrong)
    names = (part.length.name, part.width.name)
    return [Measured(name, value, MeasuringTool.RULE.value) for name, value in zip(names, sizes, strict=True)]


def withdraw(saved: KeptJobs, job: str, heard: BenchRecord, mark: str, identity: Identity) -> None:
    """The part is good, or there, after all: what was said of it is set aside."""
    _, state = _needed(heard)
    part = state.parts.get(mark)
    if part is None or part.status not in (Status.SPOILED, Status.LOST):
        raise _refused(
            "not-spoiled", mark, "it is not reported as spoiled or lost.", "There is nothing to withdraw."
        )
    sizes = PartSizes(mark)
    readings = {
        reading.event for size in (sizes.length, sizes.width) for reading in state.readings.get(size.name, ())
    }
    undone: list[Happening] = [Undo(event) for event in sorted({part.event, *readings})]
    _append(saved, job, _events(state, undone, identity))


def choose(
    saved: KeptJobs, job: str, heard: BenchRecord, found: FoundWays, number: int, identity: Identity
) -> WayChoice:
    """Go on with a way: a revision of the job where it changes, the decision, and the plans that follow.

    Raises JobError when the job has been changed since its work was handed out.
    """
    _, state = _needed(heard)
    option = found.option(number)
    work = saved.take(job)
    if work.revision.text != saved.take(job, heard.revision).revision.text:
        text = (
            f"the job is at revision {work.newest}, the work in the shop is from revision {heard.revision}."
        )
        fix = "Hand the work out again, or restore that revision on the History page."
        raise _refused("job-has-changed", job, text, fix)
    text = changed_text(work.revision.text, option)
    title = found.lines[number - 1].what
    revision = work.newest
    if text != work.revision.text:
        after = saved.rewrite(job, text, f"put right: {title}", work.newest)
        if isinstance(after, RefusedChange):
            raise JobError(after.findings)
        revision = after.newest
    asked = found.asked
    plans = plans_after(asked.project, asked.plans, asked.done, asked.facts, option)
    bundle = f"{CHOICE}{identity()}"
    numbers = count(1)
    events = _events(state, _happenings(option, state, title), lambda: f"{bundle}.{next(numbers)}")
    _append(saved, job, events, _issue(saved, job, bundle, Issued(revision, plans)))
    return WayChoice(title, events[-1].id, revision)


def _happenings(option: Option, state: State, title: str) -> list[Happening]:
    """What is written down: first that parts kept after all are not spoiled, then the decision."""
    saved_parts = [
        one.mark for one in option.actions if isinstance(one, KeepAsCut | TrimTo | GlueOn | Mend | ServeAs)
    ]
    good = [state.parts[mark].event for mark in saved_parts if state.status(mark) is Status.SPOILED]
    cut = [one.mark for one in option.actions if isinstance(one, CutAgain) and one.mark in state.parts]
    again = [mark for mark in cut if state.status(mark) is not Status.TO_CUT]
    decided = Decided(
        title,
        tuple((one.name, one.new) for one in option.actions if isinstance(one, SetInput)),
        tuple(again),
        tuple(one.mark for one in option.actions if isinstance(one, Forgo)),
    )
    return [*(Undo(event) for event in dict.fromkeys([*good, *_outdated(option, state)])), decided]


def _outdated(option: Option, state: State) -> Iterator[str]:
    """The readings of parts that now serve though they measured otherwise: they would ask for them again."""
    for one in option.actions:
        if isinstance(one, Mend | ServeAs | GlueOn) or (isinstance(one, KeepAsCut) and one.why):
            sizes = PartSizes(one.mark)
            for size in (sizes.length, sizes.width):
                yield from (reading.event for reading in state.readings.get(size.name, ()))


def last_choice(heard: BenchRecord) -> WayChoice | None:
    """The decision made last that still counts."""
    if heard.state is None:
        return None
    for event in sorted(heard.events, key=lambda event: event.order, reverse=True):
        if isinstance(event.what, Decided) and event.id not in heard.state.undone:
            return WayChoice(event.what.title, event.id, heard.revision)
    return None


def undo_choice(saved: KeptJobs, job: str, heard: BenchRecord, identity: Identity) -> WayChoice:
    """Take the last choice back. Raises JobError when work has gone on by its plans, or there is none."""
    floor, state = _needed(heard)
    last = last_choice(heard)
    if last is None or not last.event.startswith(CHOICE):
        raise _refused("nothing-chosen", job, "no way has been chosen.", "There is nothing to undo.")
    bundle = last.event.rpartition(".")[0]
    before = _issue_before(saved, job, bundle)
    begun = [key for key in _new_cuts(floor, before) if key in state.done]
    if begun:
        text = f"cutting has begun on the new plan ({begun[0]})."
        fix = "Report what is spoiled now and choose another way."
        raise _refused("work-went-on", job, text, fix)
    work = saved.take(job)
    if work.newest != last.revision:
        text = f"the job has been changed since (revision {work.newest})."
        raise _refused(
            "job-has-changed", job, text, "Restore the earlier revision on the History page first."
        )
    if saved.take(job, before.revision).revision.text != work.revision.text:
        work = saved.restore(job, before.revision)
    made = [event.id for event in heard.events if event.id.startswith(f"{bundle}.")]
    events = _events(state, [Undo(event) for event in made], identity)
    row = _issue(saved, job, identity(), Issued(work.newest, before.plans))
    _append(saved, job, events, row)
    return last


def _issue(saved: KeptJobs, job: str, name: str, issued: Issued) -> kept.NewEvent:
    payload = json.dumps(issued_to_plain(issued))
    return kept.NewEvent(f"issue-{name}", job, OFFICE, saved.clock(), ISSUE, payload)


def _issue_before(saved: KeptJobs, job: str, bundle: str) -> Issued:
    """The plans that the shop worked by before those of a choice."""
    entries = handings_out(saved.file, job).entries
    at = next(number for number, entry in enumerate(entries) if entry.id == f"issue-{bundle}")
    return entries[at - 1].issued


def _new_cuts(floor: PlannedJob, before: Issued) -> Iterable[str]:
    for material, plan in floor.plans.items():
        old = {sheet.number for sheet in before.plans[material].sheets} if material in before.plans else set()
        for sheet in plan.sheets:
            if sheet.number not in old:
                yield from (cut_key(material, sheet.number, cut.order) for cut in sheet.cuts)


def _needed(heard: BenchRecord) -> tuple[PlannedJob, State]:
    if heard.floor is None or heard.state is None:
        text = "no work has been handed out for this job."
        raise _refused("no-work", "shop", text, "Hand the work out first.")
    return heard.floor, heard.state


def _events(state: State, happenings: Iterable[Happening], identity: Identity) -> tuple[Event, ...]:
    first = state.last_seq + 1
    return tuple(Event(identity(), OFFICE, seq, what) for seq, what in enumerate(happenings, first))


def _append(saved: KeptJobs, job: str, events: Iterable[Event], *more: kept.NewEvent) -> None:
    time = saved.clock()
    rows = [event_row(event, job, time) for event in events]
    kept.append_events(saved.file, (*rows, *more))


def _refused(code: str, place: str, text: str, fix: str) -> JobError:
    return JobError((Finding(code, place, text, fix),))
