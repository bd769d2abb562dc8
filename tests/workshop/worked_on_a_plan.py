"""A job's work on a quick plan of its sheets, for tests that ask nothing of the plan."""

from __future__ import annotations

from casewright.casework.job import Job
from casewright.casework.project import Project, draw_up
from casewright.planner.engine import MaxIterations
from casewright.planner.solve import solve
from casewright.workshop.sheets.cut_problems import cut_problems
from casewright.workshop.work import Work, work


def worked(made: Job) -> tuple[Project, Work]:
    """The job drawn up, and its work."""
    project = draw_up(made)
    plans = {key: solve(problem, MaxIterations(5)) for key, problem in cut_problems(project).items()}
    return project, work(project, plans)
