"""The shop's test as it is taken: readings typed on its sheet, kept in the record, and what they come to."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from ...casework.job import Job
from ...errors import JobError
from ...findings import Finding
from ...jobfile.write.literals import length_literal
from ...lengths.quantities import caliper
from ...record.events import Event, Tested
from ...store.event_rows import append_events
from ...tolerance.learning.shop_test import (
    ShopTest,
    TrialCut,
    readings_of_test,
    shop_test,
    sled_square,
    thickness_readings,
)
from ...tolerance.learning.typed_test import read_test
from ..editing.text_edits import SetEntry
from ..jobs.kept_jobs import KeptJobs, OpenedRevision
from ..shop.shop_floor import OFFICE, event_row, read_record
from .shop_figures import ShopFigures, shop_figures, sled_text
from .shop_record import last_tested, readings_of_shop

THICKNESS_READINGS = "thickness"


@dataclass(frozen=True)
class TrialSheet:
    """The sheet of the test: what to cut, what is written on each blank, and what is wrong with it."""

    cuts: tuple[TrialCut, ...]
    minutes: int
    typed: Mapping[str, str]
    findings: tuple[Finding, ...] = ()

    @property
    def strays(self) -> tuple[Finding, ...]:
        """What is wrong with none of its blanks."""
        names = {blank.name for cut in self.cuts for blank in cut.blanks}
        return tuple(finding for finding in self.findings if finding.place not in names)

    def faults(self, blank: str) -> tuple[Finding, ...]:
        """What is wrong with one blank."""
        return tuple(finding for finding in self.findings if finding.place == blank)


@dataclass(frozen=True)
class TrialResults:
    """What the test and all other readings of the shop come to.

    `sled` and `thickness` are sentences, empty where nothing was read. The edits of `figures` hold that of
    the thickness too.
    """

    figures: ShopFigures
    sled: str
    thickness: str


def blank_sheet(job: Job) -> TrialSheet:
    """The sheet with nothing on it."""
    test = shop_test(job)
    return TrialSheet(test.cuts, test.minutes, {})


def filled_sheet(saved: KeptJobs, work: OpenedRevision) -> TrialSheet:
    """The sheet with what was last read."""
    job = work.worked.needed().job
    test = shop_test(job)
    values, _ = last_tested(read_record(saved.file, work.id))
    typed = {name: caliper(value, job.unit) for name, value in values.items() if name in test.blanks}
    return TrialSheet(test.cuts, test.minutes, typed)


def take_test(saved: KeptJobs, work: OpenedRevision, typed: Mapping[str, str], identity: str) -> TrialSheet:
    """Keep the readings typed on the sheet in the shop's record, unless one of them cannot be right.

    `identity` is new for each sheet sent; a reading that is there already is not kept twice.
    """
    job = work.worked.needed().job
    test = shop_test(job)
    found = read_test(test, typed.items(), job.unit)
    if found.findings:
        return TrialSheet(test.cuts, test.minutes, typed, found.findings)
    heard = read_record(saved.file, work.id)
    before, _ = last_tested(heard)
    news = [
        Tested(name, value, test.blanks[name].number)
        for name, value in found.values.items()
        if before.get(name) is None or caliper(before[name], job.unit) != caliper(value, job.unit)
    ]
    rows = [
        event_row(
            Event(f"{identity}.{at}", OFFICE, heard.newest_number + at, one, saved.clock()),
            work.id,
            saved.clock(),
        )
        for at, one in enumerate(news, 1)
    ]
    append_events(saved.file, rows)
    return filled_sheet(saved, work)


def results_of_shop(saved: KeptJobs, work: OpenedRevision) -> TrialResults:
    """The figures of all readings in the shop's file, and what the test of this job says besides."""
    job = work.worked.needed().job
    values, _ = last_tested(read_record(saved.file, work.id))
    return _results(job, shop_test(job), values, shop_figures(job, readings_of_shop(saved)))


def results_of_entries(job: Job, entries: Iterable[tuple[str, str]]) -> TrialResults:
    """What readings come to that are in no record, as pairs of a blank and what was typed.

    Raises JobError with a finding for each that cannot be right.
    """
    test = shop_test(job)
    found = read_test(test, entries, job.unit)
    if found.findings:
        raise JobError(found.findings)
    numbers = {name: blank.number for name, blank in test.blanks.items()}
    readings = readings_of_test(test, found.values, numbers, "test")
    return _results(job, test, found.values, shop_figures(job, readings))


def _results(job: Job, test: ShopTest, values: Mapping[str, Fraction], figures: ShopFigures) -> TrialResults:
    sled = sled_square(values, job.unit)
    places = thickness_readings(test, values)
    if not places:
        return TrialResults(figures, sled_text(job.unit, sled) if sled else "", "")
    sheet = job.sheets[test.material]
    listed = ", ".join(caliper(one, job.unit) for one in places)
    instead = f", instead of the {len(sheet.readings)} in the job file" if sheet.readings else ""
    edit = SetEntry(
        ("materials", test.material, "readings"), [length_literal(one, job.unit) for one in places]
    )
    return TrialResults(
        replace(figures, edits={**figures.edits, THICKNESS_READINGS: edit}),
        sled_text(job.unit, sled) if sled else "",
        f"{sheet.name}: {listed}{instead}.",
    )
