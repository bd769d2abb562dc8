"""What sheets and boards cannot give, before any of them is planned."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from ...boards.board_problem import BoardProblem
from ...casework.project import Project
from ...findings import Finding
from ...planner.problem import Problem
from ...workshop.boards.board_problems import board_findings
from ...workshop.operations import Operation
from ...workshop.sheets.lifts import lifts_for_two
from ...workshop.sheets.sheet_findings import plan_findings, sheet_findings
from .job_plan import JobPlan
from .short_stock import short_stock


def findings_of_stock(
    project: Project, problems: Mapping[str, Problem], boards: Mapping[str, BoardProblem]
) -> Iterator[Finding]:
    """Parts that fit no sheet or board, and stock that does not do, material by material."""
    for material, problem in problems.items():
        yield from sheet_findings(project, material, problem)
        yield from short_stock(project, material, problem)
    for material, board_problem in boards.items():
        yield from board_findings(project, material, board_problem)


def findings_of_plans(made: JobPlan, operations: Sequence[Operation]) -> Iterator[Finding]:
    """What is to be said of the sheet plans as they are: how they were found, and what is heavy to carry."""
    for material, plan in made.plans.items():
        yield from plan_findings(made.project, material, made.problems[material], plan)
        yield from lifts_for_two(made.project, material, operations)
