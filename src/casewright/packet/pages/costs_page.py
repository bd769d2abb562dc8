"""What the job costs, for the maker: every line with what it follows from, and how the quote comes about."""

from __future__ import annotations

from dataclasses import asdict

from ...casework.project import Project
from ...workshop.costs.cost_lines import JobCosts
from ...workshop.costs.cost_wording import cost_groups, cost_notes, sum_lines
from .page_picture import Json


def costs_page(project: Project, costs: JobCosts) -> dict[str, Json]:
    """The groups of lines, the sums and the notes."""
    return {
        "groups": [
            {"title": group.title, "total": group.total, "lines": [asdict(line) for line in group.lines]}
            for group in cost_groups(project, costs)
        ],
        "sums": [{"words": words, "money": money} for words, money in sum_lines(project, costs)],
        "notes": list(cost_notes(project, costs)),
    }
