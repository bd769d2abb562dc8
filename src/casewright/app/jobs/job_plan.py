"""The sheet plans of a job with the problems they solve and what to buy."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from ...casework.project import Project
from ...findings import Finding, said_once
from ...planner.plan import Plan, PlanStatus
from ...planner.plan_wording import ENDED_EARLY
from ...planner.problem import Problem
from ...workshop.sheets.purchases import Purchase

Report = Callable[[str], None]

Asked = Callable[[], bool]
"""Whether somebody has asked for the work to end."""


def nobody_asks() -> bool:
    """For work that runs to its end."""
    return False


@dataclass(frozen=True)
class JobPlan:
    """The sheet plans of a job, by material, with the problems they solve and what to buy.

    `seconds` is about how long the planner was to look, from `seed`; 0 where nothing was looked for.
    """

    project: Project
    problems: Mapping[str, Problem]
    plans: Mapping[str, Plan]
    purchases: tuple[Purchase, ...]
    seconds: float = 0.0
    seed: int = 0

    @property
    def complete(self) -> bool:
        """Whether every part has its place on a sheet."""
        return all(plan.status is not PlanStatus.IMPOSSIBLE for plan in self.plans.values())

    @property
    def ended_early(self) -> tuple[Finding, ...]:
        """Why the search for these plans did not come to its own end, and what to do."""
        said = (finding for plan in self.plans.values() for finding in plan.findings)
        return tuple(said_once(finding for finding in said if finding.code in ENDED_EARLY))
