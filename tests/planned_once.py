"""Jobs planned once for all the tests of a process: a plan is a value that nothing changes."""

from __future__ import annotations

from functools import cache

from casewright.app.jobs.worked_job import PlannedJob, open_job


@cache
def planned_once(text: str, seconds: float = 0.1) -> PlannedJob:
    """The job of a text and its plan; for tests that ask nothing of the search for one."""
    return open_job(text).planned(seconds)
