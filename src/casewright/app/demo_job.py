"""A finished example put into a shop's file, to be looked at and changed."""

from __future__ import annotations

from pathlib import Path

from .choices import EXAMPLE_SHOWN
from .jobs.job_plan import Report
from .jobs.kept_jobs import KeptJobs
from .jobs.worked_job import PlannedJob, open_job
from .new_job.examples import example
from .sheets.kept_plans import StoreShelf
from .sheets.plan_keeping import Choice, FileShelf, PlanOutdated, plan_on_record


def demo_in_folder(folder: Path, key: str = EXAMPLE_SHOWN, progress: Report | None = None) -> PlannedJob:
    """The example of that key with its plan, which lies in the folder of its packet."""
    shelf = FileShelf(folder / "plan.json")
    return plan_on_record(open_job(example(key)), shelf, progress=progress).planned


def demo_in_shop(file: Path, job: str, progress: Report | None = None) -> PlannedJob:
    """A job of the shop's file with its plan of record, made again where the job was changed since."""
    saved = KeptJobs.open(file)
    worked, shelf = saved.take(job).worked, StoreShelf(saved, job)
    try:
        return plan_on_record(worked, shelf, progress=progress).planned
    except PlanOutdated:
        return plan_on_record(worked, shelf, Choice.AGAIN, progress=progress).planned


def put_in(file: Path, key: str = EXAMPLE_SHOWN) -> str:
    """Put the example of that key into the shop's file, once; gives the job's id there.

    Raises StoreError when there is no such example or the file cannot be used.
    """
    text = example(key)
    saved = KeptJobs.open(file)
    for row in saved.list():
        # A job begun from this example is shown as it is now, with what was changed since.
        if saved.history(row.id)[-1].text == text:
            return row.id
    return saved.start(text, f"the example {key}").id
