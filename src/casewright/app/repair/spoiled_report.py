"""A part is reported spoiled or lost: what it measures, which features are cut, what is wrong and where."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import count

from ...casework.parts.part import Part
from ...casework.project import Project
from ...casework.size_names import PartSizes
from ...errors import JobError, LengthError
from ...findings import Finding
from ...lengths.length import parse_length
from ...record.events import Done, Happening, Lost, Measured, Spoiled, Undo
from ...record.shop_state import State, Status
from ...repair.facts import AsCut, begun_of_piece, is_as_planned, made_as
from ...repair.harm import Harm, HarmKind
from ...repair.recorded_facts import cases_glued, cuts_to_free, features_cut, recorded_harm
from ...shop.measuring_tools import MeasuringTool
from ...tolerance.as_built.doubtful import DoubtfulReading, doubt_reading
from ..jobs.kept_jobs import KeptJobs
from ..jobs.worked_job import PlannedJob
from ..shop.shop_floor import BenchRecord
from .harm_words import (
    MADE_AS,
    against_each_other,
    both_mixed_up,
    left_out_of_nothing,
    plain_and_alike,
    read_harms,
)
from .mishap import measured_wrong
from .repair_record import Identity, floor_and_state, in_turn, refused, write_on

REPORT = "report-"
"""How the ids of all events of one report begin."""


@dataclass(frozen=True)
class DamageTyped:
    """A damage as typed: `where` (`front edge`), how `long` it is along that side, how `deep` in from it."""

    where: str = ""
    long: str = ""
    deep: str = ""


@dataclass(frozen=True)
class Report:
    """A report on a part: what it measures now, as typed, or that nothing is left of it.

    `cut` names the features that are cut so far, beside those ticked off. An entry of `wrong` is
    `dado-bottom:too wide:1/64`, `mirrored`, `made of:maple` or `not in`, as the command takes it. `sure`
    holds the sizes that stand although they look like slips, each as `length 345`.
    """

    mark: str
    length: str = ""
    width: str = ""
    how: str = ""
    cut: tuple[str, ...] = ()
    wrong: tuple[str, ...] = ()
    damaged: tuple[DamageTyped, ...] = ()
    lost: bool = False
    sure: tuple[str, ...] = ()


def report(
    saved: KeptJobs, job: str, heard: BenchRecord, said: Report, identity: Identity
) -> dict[str, DoubtfulReading]:
    """Write down that a part is spoiled or lost. Where a size looks like a slip nothing is; what comes back
    is the question that its `length` or `width` raises.

    Raises JobError, with every fault, when the report contradicts the record or itself.
    """
    floor, state = floor_and_state(heard)
    if said.mark not in floor.project.parts:
        text = "the work in the shop has no part with this mark."
        raise refused("no-such-part", said.mark, text, "Choose one from the parts list.")
    happenings: list[Happening] = []
    for one in (said, *_of_the_other(floor.project, said)):
        if doubts := _take_down(floor, state, one, happenings):
            return doubts
    bundle, numbers = f"{REPORT}{identity()}", count(1)
    write_on(saved, job, in_turn(state, happenings, lambda: f"{bundle}/{next(numbers)}"))
    return {}


def _of_the_other(project: Project, said: Report) -> Iterator[Report]:
    """What a report that two parts were mixed up says of the other one."""
    for fault in said.wrong:
        mark = fault.partition(":")[2].strip()
        if both_mixed_up(f"{said.mark}:{fault}") == (f"{said.mark}:{fault}",) or mark not in project.parts:
            continue
        own, other = ({feature.name for feature in project.parts[one].features} for one in (said.mark, mark))
        cut = other if own and own <= {*said.cut} else other & {*said.cut}
        yield Report(mark, how=said.how, cut=tuple(sorted(cut)), wrong=(f"{MADE_AS}:{said.mark}",))


def _take_down(
    floor: PlannedJob, state: State, said: Report, happenings: list[Happening]
) -> dict[str, DoubtfulReading]:
    """Add what a report says to the `happenings`; what comes back is the question that a size raises."""
    project, part = floor.project, floor.project.parts[said.mark]
    faults: list[Finding] = []
    harms = _harms(project, said, faults)
    faults += _against_the_record(state, said, harms)
    faults += left_out_of_nothing(part, harms, cases_glued(project, state))
    faults += _against_itself(said, harms)
    sizes = _sizes(project, said, faults)
    named = features_cut(part, state.done) | frozenset(said.cut)
    begun = begun_of_piece(project, part, harms, named)
    faults += plain_and_alike(project, part, harms, begun)
    if faults:
        raise JobError(tuple(faults))
    if not said.lost:
        if doubts := _doubts_of(project, said, sizes):
            return doubts
        _refuse_wrong_sizes(project, said.mark, AsCut(*sizes, bool(begun), harms))
    # Of a piece made as another part the ticks say what was named, by which all of it is known again.
    ticked = named if made_as(project, harms) else begun
    happenings += _happenings(floor, state, said, harms, sizes, ticked)
    return {}


def _happenings(
    floor: PlannedJob,
    state: State,
    said: Report,
    harms: tuple[Harm, ...],
    sizes: tuple[Fraction, Fraction],
    begun: frozenset[str],
) -> Iterator[Happening]:
    """The features cut, as ticks, so that they stay ticked where the part is mended; then the rest.

    What features are cut into has come off its sheet, so those cuts are ticked before them."""
    if begun:
        freed = cuts_to_free(floor.plans, (said.mark,))
        left = tuple(
            step.key
            for step in floor.work.by_part[said.mark]
            if step.key not in state.done and (step.key in freed or step.feature in begun)
        )
        if left:
            yield Done(left)
    if said.lost:
        yield Lost(said.mark)
        return
    names = PartSizes(said.mark)
    typed = zip((names.length, names.width), (said.length, said.width), sizes, strict=True)
    for size, text, value in typed:
        if text.strip():
            yield Measured(size.name, value, MeasuringTool.RULE.value)
    yield Spoiled(said.mark, said.how, tuple(map(recorded_harm, harms)))


def _harms(project: Project, said: Report, faults: list[Finding]) -> tuple[Harm, ...]:
    """What is said to be wrong beside the size, read as the command reads it."""
    found: list[Harm] = []
    for fault in said.wrong:
        wrongs: list[Finding] = []
        found += read_harms(project, [f"{said.mark}:{fault}"], (), wrongs).get(said.mark, ())
        place = wrong_row(project.parts[said.mark], fault)
        faults += (replace(finding, place=place) for finding in wrongs)
    faults += against_each_other(said.mark, found)
    for row, one in enumerate(said.damaged):
        where, long, deep = one.where.strip(), one.long.strip(), one.deep.strip()
        place = damage_row(row)
        if not where and not long and not deep:
            continue
        if not where:
            text = f"the damage {long or deep} {'long' if long else 'deep'} is entered without its place."
            faults.append(Finding("where-is-it-damaged", place, text, "Choose the edge, end or face."))
        elif bool(long) is not bool(deep):
            lacking = "how deep" if long else "how long"
            text = f"at the {where} it is not said {lacking} the damage is."
            fix = "Enter how long and how deep it is, or neither where you do not know."
            faults.append(Finding("damage-size", place, text, fix))
        else:
            size = f":{long} x {deep}" if long else ""
            wrongs = []
            found += read_harms(project, (), [f"{said.mark}:{where}{size}"], wrongs).get(said.mark, ())
            faults += (replace(finding, place=place) for finding in wrongs)
    return tuple(found)


def wrong_row(part: Part, said: str) -> str:
    """The place that findings name for what is said to be wrong: `feature dado-bottom`, or the part's mark
    where that is about no feature of it."""
    name = said.partition(":")[0].strip()
    return f"feature {name}" if name in {feature.name for feature in part.features} else part.mark


def damage_row(row: int) -> str:
    """The place that findings name for a damage of the report, by its row from 0."""
    return f"damage {row + 1}"


def _against_the_record(state: State, said: Report, harms: tuple[Harm, ...]) -> Iterator[Finding]:
    status = state.status(said.mark)
    if status is Status.ASSEMBLED and not harms:
        text = f"it is already built into {state.parts[said.mark].within}."
        fix = (
            "Say what is wrong with it and where, so that it can be mended in its place; or undo that on the "
            "shop screen if it can still be taken out."
        )
        yield Finding("assembled", said.mark, text, fix)
    if status in (Status.SPOILED, Status.LOST, Status.GIVEN_UP):
        fix = "Choose a way to replace it on the Put right page."
        yield Finding("said-already", said.mark, f"it is {status.value} already.", fix)


def _against_itself(said: Report, harms: tuple[Harm, ...]) -> Iterator[Finding]:
    if said.lost and harms:
        text = "it is reported as lost and as spoiled."
        yield Finding("spoiled-and-lost", said.mark, text, "Leave out one of the two.")
    mirrored = any(harm.fault is HarmKind.MIRRORED for harm in harms)
    others = [harm.feature for harm in harms if harm.feature]
    if mirrored and others:
        text = f"it is reported as made as the other of its pair, and its {others[0]} as wrong too."
        yield Finding("wrong-in-two-ways", said.mark, text, "Leave out one of the two.")


def _sizes(project: Project, said: Report, faults: list[Finding]) -> tuple[Fraction, Fraction]:
    """The length and width that are left of the part; as planned where nothing is entered."""
    part = project.parts[said.mark]
    sizes: list[Fraction] = []
    for form, typed in ((part.length, said.length), (part.width, said.width)):
        planned = project.sizes.of(form)
        try:
            sizes.append(parse_length(typed, project.job.unit) if typed.strip() else planned)
        except LengthError as fault:
            text = f"{str(fault).rstrip('.')}."
            faults.append(Finding("length", form.name, text, "Enter the length you measured."))
            sizes.append(planned)
    length, width = sizes
    return length, width


def _refuse_wrong_sizes(project: Project, mark: str, cut: AsCut) -> None:
    wrong = measured_wrong(project, mark, cut, bool(cut.harms))
    if not wrong and not cut.harms and not cut.worked and is_as_planned(project, mark, cut):
        text = "it has the planned size, to the mark of the rule."
        fix = (
            "Say what is wrong with it; the part is good otherwise. If it cannot be used, report it as lost."
        )
        wrong = (Finding("as-planned", mark, text, fix),)
    if wrong:
        raise JobError(wrong)


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


def withdraw(saved: KeptJobs, job: str, heard: BenchRecord, mark: str, identity: Identity) -> None:
    """The part is good, or there, after all: all that was said of it is set aside, the ticks too that were
    made of what its report said is cut."""
    _, state = floor_and_state(heard)
    part = state.parts.get(mark)
    if part is None or part.status not in (Status.SPOILED, Status.LOST):
        raise refused(
            "not-spoiled", mark, "it is not reported as spoiled or lost.", "There is nothing to withdraw."
        )
    sizes = PartSizes(mark)
    readings = {
        reading.event for size in (sizes.length, sizes.width) for reading in state.readings.get(size.name, ())
    }
    bundle = part.event.rpartition("/")[0] + "/" if part.event.startswith(REPORT) else part.event
    said = {event.id for event in heard.events if event.id.startswith(bundle)} - state.undone
    undone: list[Happening] = [Undo(event) for event in sorted({part.event, *said, *readings})]
    write_on(saved, job, in_turn(state, undone, identity))
