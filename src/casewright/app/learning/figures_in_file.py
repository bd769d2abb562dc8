"""The shop's figures for a job file on disk: read from the shop's file or from typed lines, and written."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from ...errors import JobError
from ...findings import Finding, refusals
from ...store.shop_file import check_file
from ..editing.text_edits import Edit, apply_edits
from ..jobs.job_file import load
from ..jobs.kept_jobs import KeptJobs
from ..jobs.worked_job import WorkedJob, open_job
from ..papers.write_whole import write_whole
from .dry_fit_figures import DryFitFigures, dry_fit_figures
from .shop_figures import ShopFigures, shop_figures
from .shop_record import dry_fits_of_shop, readings_of_shop
from .shop_test_sheet import TrialResults, TrialSheet, blank_sheet, results_of_entries


def figures_of_record(worked: WorkedJob, record: str) -> ShopFigures:
    """The figures of all readings in the shop's file of that name. Raises StoreError when it is none."""
    check_file(Path(record))
    return shop_figures(worked.needed().job, readings_of_shop(KeptJobs.open(Path(record))))


def dry_fits_of_record(record: str) -> DryFitFigures:
    """How the dry fits in the shop's file of that name went. Raises StoreError when it is none."""
    check_file(Path(record))
    return dry_fit_figures(dry_fits_of_shop(KeptJobs.open(Path(record))))


def sheet_for(worked: WorkedJob) -> TrialSheet:
    """The shop's test for a job file, with nothing written on it."""
    return blank_sheet(worked.needed().job)


def results_of_lines(worked: WorkedJob, lines: Iterable[str]) -> TrialResults:
    """What lines such as `strip 1 = 3.004` come to. Raises JobError for a line that cannot be right."""
    pairs = [_pair(line) for line in lines if line.strip() and not line.lstrip().startswith("#")]
    return results_of_entries(worked.needed().job, pairs)


def lines_of(name: str) -> list[str]:
    """The lines of a file of readings; JobError when it cannot be read."""
    return load(name).splitlines()


def write_figures(name: str, text: str, edits: Iterable[Edit]) -> None:
    """Write a job file with these entries changed, unless it could then not be built."""
    changed = apply_edits(text, edits)
    if refused := refusals(open_job(changed).findings):
        raise JobError(refused)
    write_whole(name, changed.encode())


def _pair(line: str) -> tuple[str, str]:
    blank, equals, typed = line.partition("=")
    if not equals:
        text = f"“{line.strip()}” has no = between the blank and the reading."
        raise JobError((Finding("test-line", "readings", text, "Write it as strip 1 = 3.004."),))
    return blank.strip(), typed.strip()
