"""The costs of a planned job as a command or a page shows them."""

from __future__ import annotations

from dataclasses import dataclass

from ...workshop.costs.cost_wording import ToldGroup, cost_groups, cost_notes, sum_lines
from ..jobs.worked_job import PlannedJob


@dataclass(frozen=True)
class ToldCosts:
    """Everything there is to read: lines, how the quote comes about, and what the sums lack."""

    groups: tuple[ToldGroup, ...]
    sums: tuple[tuple[str, str], ...]
    notes: tuple[str, ...]
    is_complete: bool


def told_costs(planned: PlannedJob) -> ToldCosts:
    """The costs in words."""
    project, costs = planned.project, planned.costs
    groups = cost_groups(project, costs)
    return ToldCosts(groups, sum_lines(project, costs), cost_notes(project, costs), costs.is_complete)
