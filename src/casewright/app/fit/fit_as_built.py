"""The fit as the shop's record tells it: what is cut, what was measured, what no longer closes."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any

from ...casework.project import Project
from ...casework.size_names import owner_of
from ...findings import Finding
from ...record.shop_state import RecordedReading, State, Status
from ...shop.measuring_tools import MeasuringTool
from ...tolerance.as_built.cures import find_cures, gaps_out_of_range
from ...tolerance.as_built.readings import AsBuilt, AsBuiltFit, fit_as_built
from ...tolerance.tolerance_wording import cure_sentence, gap_off_text, merge_alike_cures, rule_text
from ..jobs.worked_job import PlannedJob
from ..shop.shop_floor import BenchRecord
from ..shop.state_format import finding_on_tablet, state_json

CUT = (Status.CUT, Status.ASSEMBLED)
MOST_CURES = 3  # more than these are no help at a saw; the page of the fit has them all


@dataclass(frozen=True)
class AsItStands:
    """How the job fits with what the shop has cut and measured so far, in words."""

    cut: int
    readings: tuple[str, ...]
    broken: tuple[str, ...]
    cures: tuple[str, ...]
    findings: tuple[Finding, ...]


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


# The fit takes a tenth of a second for 60 cases, and most that happens in a shop has no bearing on it.
@lru_cache(maxsize=8)
def _as_it_stands(floor: PlannedJob, cut: tuple[str, ...], readings: Readings) -> AsItStands:
    built = _built(floor, cut, readings)
    project = floor.project
    return AsItStands(
        len(cut),
        tuple(_said(project, built.as_built, name) for name in built.as_built.names()),
        tuple(gap_off_text(project, spread) for spread in gaps_out_of_range(built.fit)),
        tuple(
            cure_sentence(project, cure)
            for cure in merge_alike_cures(find_cures(built.fit, built.as_built), project)
        ),
        built.findings,
    )


def _built(floor: PlannedJob, cut: tuple[str, ...], readings: Readings) -> AsBuiltFit:
    """The fit of the work handed out: parts that are `cut` keep the sizes it was handed out with, and every
    reading is taken over in its order."""
    so_far = AsBuilt().cut_now(floor.fit, cut)
    for name, read in readings:
        for reading in read:
            so_far = so_far.read(name, reading.value, MeasuringTool.called(reading.tool), reading.bench)
    return fit_as_built(floor.fit, so_far)


def shop_state(heard: BenchRecord) -> dict[str, Any]:
    """How things stand, as a tablet shows it, and what the readings so far break and how to mend it."""
    state = state_json(heard)
    if heard.state is None or not heard.state.readings:
        return state
    stands = as_it_stands(heard)
    assert stands is not None
    mend = " Or ".join(f"{cure[:1].upper()}{cure[1:]}." for cure in stands.cures[:MOST_CURES])
    broken_now = [Finding("no-longer-closes", "", f"{line}.") for line in stands.broken]
    if broken_now:
        fix = mend or "No change of two inches or less to the existing parts fixes it."
        broken_now[-1] = replace(broken_now[-1], fix=fix)
    found = [finding_on_tablet(one) for one in (*stands.findings, *broken_now)]
    return {**state, "findings": [*state["findings"], *found]}


def _said(project: Project, so_far: AsBuilt, name: str) -> str:
    ledger = project.sizes.ledger
    words = ledger[name].words if name in ledger else name
    values = ", ".join(rule_text(project, reading.value) for reading in so_far.of(name))
    planned = f", planned {rule_text(project, project.sizes.of(name))}" if name in ledger else ""
    return f"{words} {values}{planned}"
