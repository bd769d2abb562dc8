"""Other ways to build a job that a maker would think of: another material, another construction, another
sheet. Each is planned, and stands beside the job with what it costs and what is lost by it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from ...casework.job import BackKind
from ...errors import CasewrightError
from ...lengths.quantities import price_text
from ...planner.plan import Plan
from ..editing.text_edits import AddEntry, Edit, Path, SetEntry, look_up
from ..jobs.job_plan import Asked, Report, nobody_asks
from ..jobs.worked_job import PlannedJob
from ..sheets.arrangement_candidates import sheets_of_a_yard
from ..sheets.saving_trials import changed
from .compared_jobs import ComparedJob, compared, planned_like

LOST_BY_APPLIED = (
    "lost: a back that is let in; its edges are seen at an end without a neighbour, and nothing holds the "
    "case square until it is on"
)
"""Common practice, no source."""

LOST_BY_MATERIAL = "lost: the face of {was}; look at {now} before you offer it"


@dataclass(frozen=True)
class OtherWay:
    """A change of the job's text that makes another way of it, in words, with what is `lost` by it."""

    what: str
    lost: str
    edits: tuple[Edit, ...]


@dataclass(frozen=True)
class WayBeside:
    """One column of the comparison: a job built in another `way`; without one it is the job as it is."""

    job: ComparedJob
    way: OtherWay | None = None

    @property
    def lost(self) -> str:
        return self.way.lost if self.way else ""

    @property
    def edits(self) -> tuple[Edit, ...]:
        return self.way.edits if self.way else ()

    @property
    def plans(self) -> Mapping[str, Plan]:
        """The sheet plans found for it."""
        return self.job.planned.plans


def other_ways(planned: PlannedJob) -> tuple[OtherWay, ...]:
    """At most one other material, one other construction and one other sheet."""
    found = (_other_material(planned), _other_back(planned), _other_sheet(planned))
    return tuple(way for way in found if way is not None)


def beside(
    planned: PlannedJob, report: Report | None = None, stopped: Asked = nobody_asks
) -> tuple[WayBeside, ...]:
    """The job, then each other way that can be built, planned for as long."""
    found = []
    for way in other_ways(planned):
        if stopped():
            break
        worked = changed(planned.worked.text, way.edits)
        if worked is None:
            continue
        if report:
            report(f"Planning it with {way.what}")
        try:
            made = planned_like(planned, worked, None, stopped)
        except CasewrightError as fault:
            if report:
                report(f"With {way.what} it cannot be built: {fault}")
            continue
        found.append((way, made))
    first, *rest = compared(planned, ((way.what, made) for way, made in found))
    return (WayBeside(first), *(WayBeside(job, way) for job, (way, _) in zip(rest, found, strict=True)))


def _other_material(planned: PlannedJob) -> OtherWay | None:
    """The cheapest sheet good of the job, by its area, that is sold as thick as the one most money goes
    into."""
    sheets, values = planned.project.job.sheets, planned.worked.values
    priced = [one for one in planned.purchases if one.money]
    if not priced:
        return None
    most = sheets[max(priced, key=lambda one: one.money).material]
    alike = [
        good
        for good in sheets.values()
        if good.nominal == most.nominal
        and good.boards is None
        and 0 < good.square_inch_price < most.square_inch_price
    ]
    paths = tuple(_made_of(values, most.key))
    if not alike or not paths:
        return None
    other = min(alike, key=lambda good: good.square_inch_price)
    edits = tuple(SetEntry(path, other.key) for path in paths)
    lost = LOST_BY_MATERIAL.format(was=most.name, now=other.name)
    return OtherWay(f"{other.name} in place of {most.name}", lost, edits)


def _made_of(values: Mapping[str, Any], key: str) -> Iterator[Path]:
    """Every entry of the job's text that says that something is made of this material."""
    for table in _tables(values):
        said = look_up(values, (*table, "made_of")) or {}
        yield from ((*table, "made_of", name) for name, material in said.items() if material == key)
    yield from (
        ("sheet_of", mark) for mark, material in values.get("sheet_of", {}).items() if material == key
    )


def _tables(values: Mapping[str, Any]) -> Iterator[Path]:
    """Where the job's text may say how cases are made: for all, for a kind, for a case."""
    yield ()
    yield from ((kind,) for kind in ("base", "wall", "tall", "open"))
    for index, run in enumerate(values.get("runs", ())):
        yield from (("runs", index, "cases", place) for place in range(len(run.get("cases", ()))))


def _other_back(planned: PlannedJob) -> OtherWay | None:
    """Backs put on from behind in place of let in: no groove or rabbet to cut for them."""
    project, values = planned.project, planned.worked.values
    if not any(_let_in(case.construction.back) for run in project.job.runs for case in run.cases):
        return None
    paths: list[Path] = [("construction", "back")]
    for table in _tables(values):
        path = (*table, "construction", "back")
        if table and look_up(values, path) in [kind.value for kind in BackKind if _let_in(kind)]:
            paths.append(path)
    if not _let_in(project.job.construction.back):
        del paths[0]
    edits = tuple(SetEntry(path, BackKind.APPLIED.value) for path in paths)
    return OtherWay("backs applied from behind", LOST_BY_APPLIED, edits) if edits else None


def _let_in(back: BackKind) -> bool:
    return back in (BackKind.GROOVE, BackKind.RABBET)


def _other_sheet(planned: PlannedJob) -> OtherWay | None:
    """The largest of the other sheets that some yards have, of the material that most money goes into."""
    found = [one.changes[-1] for one in sheets_of_a_yard(planned.project, planned.made.plans)]
    if not found:
        return None
    largest = found[-1]
    added = largest.edits[0]
    assert isinstance(added, AddEntry)
    price = price_text(Fraction(added.value["price"]), planned.project.job.money)
    lost = f"{largest.only_if}, {price}"
    return OtherWay(f"sheets of {added.value['name']} to choose from", lost, largest.edits)
