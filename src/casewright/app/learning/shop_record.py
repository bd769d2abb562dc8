"""The readings and dry fits of every job in the shop's file: one shop cut them all."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from ...casework.size_names import owner_of
from ...record.events import Tested
from ...record.shop_state import State, Status
from ...record.undo import in_order
from ...shop.measuring_tools import MeasuringTool
from ...tolerance.as_built.readings import Reading
from ...tolerance.learning.cut_readings import cut_readings
from ...tolerance.learning.dry_fit_record import RoleRecord, dry_fit_records, pooled
from ...tolerance.learning.own_deviations import CutReading
from ...tolerance.learning.shop_test import readings_of_test, shop_test
from ...tolerance.learning.tapped_joints import tapped_joints
from ..jobs.kept_jobs import KeptJobs
from ..shop.shop_floor import BenchRecord, read_record


def readings_of_shop(saved: KeptJobs) -> tuple[CutReading, ...]:
    """What was read of parts cut and of the shop's test, in all jobs of the file."""
    found: list[CutReading] = []
    for row in saved.list():
        heard = read_record(saved.file, row.id)
        found += _of_parts(heard, row.id)
        values, numbers = last_tested(heard)
        project = saved.take(row.id).worked.project if values else None
        if project is not None:
            found += readings_of_test(shop_test(project.job), values, numbers, f"{row.id} test")
    return tuple(found)


@dataclass(frozen=True)
class ShopDryFits:
    """What happened at the dry fits of all jobs of the file, role by role; `gone` taps are of joints that
    their job, as handed out last, no longer has."""

    records: tuple[RoleRecord, ...]
    gone: int


def dry_fits_of_shop(saved: KeptJobs) -> ShopDryFits:
    """What happened at the dry fits of all jobs of the file, against what was predicted as handed out."""
    found: list[RoleRecord] = []
    gone = 0
    for row in saved.list():
        heard = read_record(saved.file, row.id)
        if heard.floor is not None and heard.state is not None and heard.state.dry_fits:
            tapped = tapped_joints(heard.floor.fit, heard.state.dry_fits)
            found += dry_fit_records(heard.floor.fit, tapped)
            gone += len(tapped.gone)
    return ShopDryFits(pooled(tuple(found)), gone)


def last_tested(heard: BenchRecord) -> tuple[dict[str, Fraction], dict[str, Fraction]]:
    """The last reading on each blank of the shop's test, and the number it was cut to."""
    values: dict[str, Fraction] = {}
    numbers: dict[str, Fraction] = {}
    for event in in_order(heard.events)[0]:
        if isinstance(event.what, Tested) and event.id not in heard.undone:
            values[event.what.blank] = event.what.value
            numbers[event.what.blank] = event.what.number
    return values, numbers


def _of_parts(heard: BenchRecord, job: str) -> Iterator[CutReading]:
    """The readings of parts cut by the work handed out; settings are told apart from other jobs'."""
    state, floor = heard.state, heard.floor
    if state is None or floor is None:
        return
    readings = _readings(state)
    if not any(one.tool is MeasuringTool.CALIPER for several in readings.values() for one in several):
        return  # a rule teaches nothing, and its blunders are told of the parts themselves
    for one in cut_readings(floor.fit, readings):
        again = f"{job}: {one.again}" if one.again else ""
        yield replace(one, name=f"{job}: {one.name}", setting=f"{job}: {one.setting}", again=again)


def _readings(state: State) -> dict[str, tuple[Reading, ...]]:
    """The readings by size, but for those of what was spoiled or lost."""
    gone = set(state.with_status(Status.SPOILED, Status.LOST, Status.GIVEN_UP))
    return {
        name: tuple(
            Reading(number, name, one.value, MeasuringTool.called(one.tool), one.bench)
            for number, one in enumerate(read, 1)
        )
        for name, read in state.readings.items()
        if owner_of(name) not in gone
    }
