"""A job with its board plans alone, for a question that no sheet has a part in."""

from __future__ import annotations

from ..jobs.worked_job import PlannedJob, WorkedJob
from .plan_keeping import PlanShelf, standing


def with_boards_of_record(worked: WorkedJob, shelf: PlanShelf) -> PlannedJob:
    """The job with the plan of record where one stands, else with its boards cut up anew and no sheets. None
    is kept. Raises JobError and RecordError as `standing` does."""
    return standing(worked, shelf).planned(worked) or worked.with_plan({})
