"""The fit as the shop's record tells it: what is cut, what was measured, what no longer closes."""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass, replace
from typing import Any

from ...casework.project import Project
from ...casework.size_names import owner_of
from ...findings import Finding
from ...record.shop_state import RecordedReading, State, Status
from ...shop.measuring_tools import MeasuringTool
from ...tolerance.as_built.readings import AsBuilt
from ...tolerance.tolerance_wording import rule_text
from ..jobs.worked_job import PlannedJob
from ..shop.shop_floor import BenchRecord
from ..shop.state_format import finding_on_tablet, state_json
from .closing_as_built import ClosingAsBuilt, closing_as_built

CUT = (Status.CUT, Status.ASSEMBLED)
MOST_CURES = 3  # more than these are no help at a saw; the page of the fit has them all


@dataclass(frozen=True)
class AsItStands:
    """How the job fits with what the shop has cut and measured so far, in words."""

    cut: int
    readings: tuple[str, ...]
    closing: ClosingAsBuilt


Readings = tuple[tuple[str, tuple[RecordedReading, ...]], ...]


def as_it_stands(heard: BenchRecord) -> AsItStands | None:
    """What the record says of the fit; None while no work is handed out."""
    if heard.floor is None or heard.state is None:
        return None
    state = heard.state
    return _as_it_stands(heard.floor, state.with_status(*CUT), _readings_of(state))


def _readings_of(state: State) -> Readings:
    """The readings by size, but for those of what was spoiled or lost: they are no facts of the parts that
    take its place."""
    gone = set(state.with_status(Status.SPOILED, Status.LOST, Status.GIVEN_UP))
    return tuple((name, read) for name, read in state.readings.items() if owner_of(name) not in gone)


_known: deque[tuple[PlannedJob, tuple[str, ...], Readings, AsItStands]] = deque(maxlen=8)


def _as_it_stands(floor: PlannedJob, cut: tuple[str, ...], readings: Readings) -> AsItStands:
    # The fit takes a tenth of a second for 60 cases, and most that happens in a shop has no bearing on it. A
    # dictionary would hash every reading at every event, and the hash of a fraction is slow; that two records
    # hold the very same readings is seen at once.
    for was, cut_then, read_then, stands in tuple(_known):
        if was is floor and cut_then == cut and read_then == readings:
            return stands
    stands = _worked_out(floor, cut, readings)
    _known.append((floor, cut, readings, stands))
    return stands


def _worked_out(floor: PlannedJob, cut: tuple[str, ...], readings: Readings) -> AsItStands:
    built = _built(floor, cut, readings)
    said = tuple(_said(floor.project, built, name) for name in built.names())
    return AsItStands(len(cut), said, closing_as_built(floor.fit, built))


def _built(floor: PlannedJob, cut: tuple[str, ...], readings: Readings) -> AsBuilt:
    """What is known of the work handed out: parts that are `cut` keep the sizes it was handed out with, and
    every reading is taken over in its order."""
    so_far = AsBuilt().cut_now(floor.fit, cut)
    for name, read in readings:
        for reading in read:
            so_far = so_far.read(name, reading.value, MeasuringTool.called(reading.tool), reading.bench)
    return so_far


def shop_state(heard: BenchRecord) -> dict[str, Any]:
    """How things stand, as a tablet shows it, and what the readings so far break and how to mend it."""
    state = state_json(heard)
    if heard.state is None or not heard.state.readings:
        return state
    stands = as_it_stands(heard)
    assert stands is not None
    found = [finding_on_tablet(one) for one in (*stands.closing.findings, *_no_longer_closes(stands.closing))]
    return {**state, "findings": [*state["findings"], *found]}


def _no_longer_closes(closing: ClosingAsBuilt) -> list[Finding]:
    """The joints that no longer close, with what mends them; where a reading is in doubt, if it is right and
    if it is not."""
    broken, without = closing.broken, closing.without
    joints = [line if line in without else f"If the reading is right, {line}" for line in broken]
    joints += [f"If the reading is wrong, {line}" for line in without if line not in broken]
    found = [Finding("no-longer-closes", "", f"{line}.") for line in joints]
    if closing.broken:
        mend = " Or ".join(f"{cure[:1].upper()}{cure[1:]}." for cure in closing.cures[:MOST_CURES])
        fix = mend or "No change of two inches or less to the existing parts fixes it."
        if closing.doubted:
            fix = f"Measure again before you mend it. {fix}"
        found[-1] = replace(found[-1], fix=fix)
    return found


def _said(project: Project, so_far: AsBuilt, name: str) -> str:
    ledger = project.sizes.ledger
    words = ledger[name].words if name in ledger else name
    values = ", ".join(rule_text(project, reading.value) for reading in so_far.of(name))
    planned = f", planned {rule_text(project, project.sizes.of(name))}" if name in ledger else ""
    return f"{words} {values}{planned}"
