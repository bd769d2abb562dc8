"""The costs of a planned job as a command or a page shows them."""

from __future__ import annotations

from dataclasses import dataclass

from ...workshop.costs.cost_wording import cost_groups, cost_notes, money_words, sum_lines
from ..jobs.worked_job import PlannedJob


@dataclass(frozen=True)
class ToldLine:
    """A line in words."""

    what: str
    amount: str
    money: str
    follows: str


@dataclass(frozen=True)
class ToldGroup:
    """The lines of one kind, and their sum in words."""

    title: str
    total: str
    lines: tuple[ToldLine, ...]


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
    groups = tuple(
        ToldGroup(
            group.title,
            group.total,
            tuple(
                ToldLine(line.what, line.amount, money_words(project, line.money), line.follows)
                for line in group.lines
            ),
        )
        for group in cost_groups(project, costs)
    )
    return ToldCosts(groups, sum_lines(project, costs), cost_notes(project, costs), costs.is_complete)
