"""Readings of sheets in the job file that stand apart: told first, and then the fit with and without."""

from __future__ import annotations

from dataclasses import replace

from ...casework.checks.sheet_checks import READING_APART, without_readings_apart
from ...casework.project import draw_up
from ...errors import JobError
from ..outcomes.gap_spread import Fit, fit


def sheet_doubts(closing: Fit) -> str:
    """The readings of sheets that stand apart from the others, in sentences; empty where none does."""
    found = (one for one in closing.project.findings if one.code == READING_APART)
    return " ".join(f"{one.text} {one.fix}" for one in found)


def fit_without_doubts(closing: Fit) -> Fit | None:
    """The same job cut in the same way, its sheets as thick as the other readings say; None where no reading
    is in doubt, or where the job could not be built without it."""
    if not sheet_doubts(closing):
        return None
    job = closing.project.job
    sheets = {key: without_readings_apart(sheet) for key, sheet in job.sheets.items()}
    try:
        return fit(draw_up(replace(job, sheets=sheets)), closing.method)
    except JobError:
        return None
