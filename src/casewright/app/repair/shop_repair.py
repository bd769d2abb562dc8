"""A way of putting right is chosen in the shop, and taken back.

A choice is one bundle of events: what was said of parts that are kept after all is set aside, the
decision is written down, and the plans that follow are handed out. Its job text is a revision.
Undoing sets the bundle's events aside and hands the plans before it out again.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import count

from ...casework.size_names import PartSizes
from ...errors import JobError
from ...planner.plan import Plan
from ...record.events import Decided, Done, Happening, Undo
from ...record.handed_out import Issued, issued_to_plain
from ...record.shop_state import State, Status
from ...repair.boards_begun import crosscuts_made
from ...repair.recorded_facts import features_cut
from ...repair.ticks_after import cut_after
from ...repair.ways.way import (
    CutAgain,
    Forgo,
    GlueOn,
    KeepAsCut,
    Mend,
    MillAgain,
    Option,
    ServeAs,
    SetInput,
    TrimTo,
)
from ...store import event_rows as kept
from ...workshop.boards.board_work import board_of_step
from ...workshop.operations import cut_key
from ..jobs.kept_jobs import KeptJobs, RefusedChange
from ..jobs.worked_job import PlannedJob, open_job
from ..shop.shop_floor import OFFICE, BenchRecord
from ..shop.work_handed_out import ISSUE, handings_out
from .labels_again import labels_again, turned_for_good
from .repair_page import FoundWays, boards_of_way, changed_text, plans_of_way
from .repair_record import Identity, floor_and_state, in_turn, refused, write_on

CHOICE = "choice-"


@dataclass(frozen=True)
class WayChoice:
    """A decision that counts: its title, the event that can be undone, the revision it led to, and the parts
    that are turned for good."""

    title: str
    event: str
    revision: int
    turned: tuple[str, ...]


def choose(
    saved: KeptJobs, job: str, heard: BenchRecord, found: FoundWays, number: int, identity: Identity
) -> WayChoice:
    """Go on with a way: a revision of the job where it changes, the decision, and the plans that follow.

    Raises JobError when the job has been changed since its work was handed out.
    """
    floor, state = floor_and_state(heard)
    option = found.option(number)
    work = saved.take(job)
    if work.revision.text != saved.take(job, heard.revision).revision.text:
        text = (
            f"the job is at revision {work.newest}, the work in the shop is from revision {heard.revision}."
        )
        fix = "Hand the work out again, or restore that revision on the History page."
        raise refused("job-has-changed", job, text, fix)
    text = changed_text(work.revision.text, option)
    line = found.lines[number - 1]
    title = " ".join((*line.saw_out, line.what))
    revision = work.newest
    if text != work.revision.text:
        after = saved.rewrite(job, text, f"put right: {title}", work.newest)
        if isinstance(after, RefusedChange):
            raise JobError(after.findings)
        revision = after.newest
    after_way = open_job(text).with_plan(plans_of_way(found, option), boards=boards_of_way(found, option))
    issued = Issued(revision, after_way.plans, after_way.board_plans)
    bundle = f"{CHOICE}{identity()}"
    numbers = count(1)
    events = in_turn(
        state, _happenings(floor, found, option, state, title), lambda: f"{bundle}.{next(numbers)}"
    )
    write_on(saved, job, events, _issue(saved, job, bundle, issued))
    return WayChoice(title, events[-1].id, revision, turned_for_good(option))


def _happenings(
    floor: PlannedJob, found: FoundWays, option: Option, state: State, title: str
) -> list[Happening]:
    """What is written down: first that parts kept after all are not spoiled, then the cuts that must have
    been made and what is cut in pieces that serve as other parts, last the decision."""
    saved_parts = [
        one.mark for one in option.actions if isinstance(one, KeepAsCut | TrimTo | GlueOn | Mend | ServeAs)
    ]
    good = [state.parts[mark].event for mark in saved_parts if state.status(mark) is Status.SPOILED]
    cut = [
        one.mark
        for one in option.actions
        if isinstance(one, CutAgain | MillAgain) and one.mark in state.parts
    ]
    again = [mark for mark in cut if state.status(mark) is not Status.TO_CUT]
    done, not_done = _ticks(floor, found, option, state)
    decided = Decided(
        title,
        tuple((one.name, one.new) for one in option.actions if isinstance(one, SetInput)),
        tuple(again),
        tuple(one.mark for one in option.actions if isinstance(one, Forgo)),
        not_done,
        turned_for_good(option),
        tuple((one.mark, one.feature, one.words) for one in option.changes),
    )
    undone = [Undo(event) for event in dict.fromkeys([*good, *_outdated(option, state)])]
    return [*undone, *([Done(done)] if done else []), decided]


def _ticks(
    floor: PlannedJob, found: FoundWays, option: Option, state: State
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The steps that are done by this way although nobody ticked them, and those that are to be done although
    they were ticked. A part that is kept is cut: without its cuts ticked it would be asked for again."""
    project, asked = found.asked.project, found.asked
    done = [
        key
        for material, plan in asked.plans.items()
        for sheet in plan.sheets
        for cut in sorted(sheet.cuts, key=lambda cut: cut.order)
        if (key := cut_key(material, sheet.number, cut.order)) in asked.done and key not in state.done
    ]
    there = floor.work.by_key
    done += [key for key in crosscuts_made(asked.facts.boards) if key in there and key not in state.done]
    not_done: list[str] = []
    for mark, features in cut_after(project, asked.facts, option).items():
        ticked = features_cut(project.parts[mark], state.done)
        for step in floor.work.own_features(mark):
            if step.feature in ticked - features and step.key in state.done:
                not_done.append(step.key)
            elif step.feature in features - ticked and step.key not in state.done:
                done.append(step.key)
    return tuple(done), tuple(not_done)


def _outdated(option: Option, state: State) -> Iterator[str]:
    """The readings of parts that now serve though they measured otherwise: they would ask for them again."""
    for one in option.actions:
        if isinstance(one, Mend | ServeAs | GlueOn) or (isinstance(one, KeepAsCut) and one.why):
            sizes = PartSizes(one.mark)
            for size in (sizes.length, sizes.width):
                yield from (reading.event for reading in state.readings.get(size.name, ()))


def ways_chosen(heard: BenchRecord) -> tuple[str, ...]:
    """What the ways chosen that still count ask for, in their order: mends, strips and slips are among the
    steps of no machine."""
    return tuple(made.title for made in _decisions(heard) if made.event.startswith(CHOICE))


def last_choice(heard: BenchRecord) -> WayChoice | None:
    """The decision made last that still counts."""
    return next(reversed(_decisions(heard)), None)


def _decisions(heard: BenchRecord) -> tuple[WayChoice, ...]:
    """Every decision that still counts, in the order in which they were made."""
    undone = heard.state.undone if heard.state else frozenset()
    return tuple(
        WayChoice(event.what.title, event.id, heard.revision, event.what.turned)
        for event in sorted(heard.events, key=lambda event: event.order)
        if heard.state and isinstance(event.what, Decided) and event.id not in undone
    )


def labels_of_choice(saved: KeptJobs, job: str, heard: BenchRecord) -> tuple[str, ...]:
    """The marks of the parts whose label is to be printed again after the choice made last."""
    last = last_choice(heard)
    if last is None or heard.floor is None or not last.event.startswith(CHOICE):
        return ()
    before = _issue_before(saved, job, last.event.rpartition(".")[0])
    planned = saved.take(job, before.revision).worked.with_plan(before.plans, boards=before.boards)
    return labels_again(planned, heard.floor, last.turned)


def undo_choice(saved: KeptJobs, job: str, heard: BenchRecord, identity: Identity) -> WayChoice:
    """Take the last choice back. Raises JobError when work has gone on by its plans, or there is none."""
    floor, state = floor_and_state(heard)
    last = last_choice(heard)
    if last is None or not last.event.startswith(CHOICE):
        raise refused("nothing-chosen", job, "no way has been chosen.", "There is nothing to undo.")
    bundle = last.event.rpartition(".")[0]
    before = _issue_before(saved, job, bundle)
    new = (*_new_cuts(floor, before), *_new_board_steps(saved, job, floor, before))
    begun = [key for key in new if key in state.done]
    if begun:
        text = f"cutting has begun on the new plan ({begun[0]})."
        fix = "Report what is spoiled now and choose another way."
        raise refused("work-went-on", job, text, fix)
    work = saved.take(job)
    if work.newest != last.revision:
        text = f"the job has been changed since (revision {work.newest})."
        raise refused("job-has-changed", job, text, "Restore the earlier revision on the History page first.")
    if saved.take(job, before.revision).revision.text != work.revision.text:
        work = saved.restore(job, before.revision)
    made = [event.id for event in heard.events if event.id.startswith(f"{bundle}.")]
    events = in_turn(state, [Undo(event) for event in made], identity)
    row = _issue(saved, job, identity(), Issued(work.newest, before.plans, before.boards))
    write_on(saved, job, events, row)
    return last


def _issue(saved: KeptJobs, job: str, name: str, issued: Issued) -> kept.NewEvent:
    payload = json.dumps(issued_to_plain(issued))
    return kept.NewEvent(f"issue-{name}", job, OFFICE, saved.clock(), ISSUE, payload)


def _issue_before(saved: KeptJobs, job: str, bundle: str) -> Issued:
    """The plans that the shop worked by before those of a choice."""
    entries = handings_out(saved.file, job).entries
    at = next(number for number, entry in enumerate(entries) if entry.id == f"issue-{bundle}")
    return entries[at - 1].issued


def _new_board_steps(saved: KeptJobs, job: str, floor: PlannedJob, before: Issued) -> Iterator[str]:
    """The steps on boards that the plans before do not have."""
    was = saved.take(job, before.revision).worked.with_plan(before.plans, boards=before.boards).work.by_key
    yield from (key for key in floor.work.by_key if key not in was and board_of_step(key))


def _new_cuts(floor: PlannedJob, before: Issued) -> Iterable[str]:
    was = {key for material, plan in before.plans.items() for key in _cut_keys(material, plan)}
    for material, plan in floor.plans.items():
        yield from (key for key in _cut_keys(material, plan) if key not in was)


def _cut_keys(material: str, plan: Plan) -> Iterator[str]:
    for sheet in plan.sheets:
        yield from (cut_key(material, sheet.number, cut.order) for cut in sheet.cuts)
