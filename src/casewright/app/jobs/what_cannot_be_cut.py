"""What the shop's tools, its sheets and its boards cannot do for a job."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ...boards.board_problem import BoardProblem
from ...casework.project import Project
from ...findings import Finding
from ...planner.problem import Problem
from ...workshop.boards.board_problems import board_findings
from ...workshop.sheets.sheet_findings import sheet_findings
from ...workshop.work import shop_findings
from .short_stock import short_stock


def what_cannot_be_cut(
    project: Project, problems: Mapping[str, Problem], board_problems: Mapping[str, BoardProblem]
) -> Iterator[Finding]:
    """A finding for each cut beyond the shop's tools, and each part that no sheet or board at hand gives."""
    yield from shop_findings(project)
    for material, problem in problems.items():
        yield from sheet_findings(project, material, problem)
        yield from short_stock(project, material, problem)
    for material, boards in board_problems.items():
        yield from board_findings(project, material, boards)
