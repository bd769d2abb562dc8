"""From a drawn-up job to a sheet plan for every material."""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from ...casework.project import Project
from ...lengths.length import show
from ...planner.answer_json import answer
from ...planner.engine import FirstOf, MaxIterations, MaxSeconds
from ...planner.plan import Plan, PlanStatus
from ...planner.plan_wording import plan_text
from ...planner.problem import Problem
from ...planner.solve import solve
from ...record.handed_out import Issued, issued_to_plain
from ...workshop.sheets.cut_problems import cut_problems
from ...workshop.sheets.purchases import Purchase, buying_list
from ..choices import SECONDS
from ..jobs.worked_job import Report

MOST_WORK = 20_000
"""Iterations after which a plan is taken as it stands: the same job and seed, the same plan."""

Clock = Callable[[], float]


@dataclass(frozen=True)
class JobPlan:
    """The sheet plans of a job, by material, with the problems they solve and what to buy."""

    project: Project
    problems: Mapping[str, Problem]
    plans: Mapping[str, Plan]
    purchases: tuple[Purchase, ...]
    seconds: float

    @property
    def complete(self) -> bool:
        """Whether every part has its place on a sheet."""
        return all(plan.status is not PlanStatus.IMPOSSIBLE for plan in self.plans.values())


def plan_job(
    project: Project,
    seconds: float = SECONDS,
    seed: int = 0,
    cores: int = 1,
    progress: Report | None = None,
    clock: Clock = time.monotonic,
) -> JobPlan:
    """The best plans found in so many seconds for the whole job, more time for more parts.

    A search also ends after `MOST_WORK` iterations; where that comes first, the same job and
    seed give the same plans. `progress` gets a sentence with every better plan. Raises PlanError
    when a material's sheets, saws or rack make no sense together.
    """
    return plan_problems(project, cut_problems(project), seconds, seed, cores, progress, clock)


def plan_problems(
    project: Project,
    problems: Mapping[str, Problem],
    seconds: float,
    seed: int = 0,
    cores: int = 1,
    progress: Report | None = None,
    clock: Clock = time.monotonic,
) -> JobPlan:
    """The same, where what is to be cut from each material is known."""
    begun = clock()
    left = sum(problem.parts for problem in problems.values())
    plans: dict[str, Plan] = {}
    for material, problem in problems.items():
        share = (begun + seconds - clock()) * problem.parts / left
        left -= problem.parts
        stop = FirstOf((MaxIterations(MOST_WORK), MaxSeconds(max(share, 0.05), clock)))
        plans[material] = solve(problem, stop, seed, _reporter(project, material, progress), cores)
    return JobPlan(project, problems, plans, buying_list(project, plans), clock() - begun)


def _reporter(project: Project, material: str, progress: Report | None) -> Callable[[Plan], None] | None:
    if progress is None:
        return None
    name = project.job.sheets[material].name
    last = ""

    def report(plan: Plan) -> None:
        nonlocal last
        said = f"{name}: {plan.statement()}"
        if said != last:
            progress(said)
        last = said

    return report


def plan_words(made: JobPlan) -> str:
    """Every plan in words, one material after another."""
    job = made.project.job

    def write(length: Fraction) -> str:
        return show(length, job.mark, unit=True).marked

    return "\n\n".join(
        f"{job.sheets[key].name}\n{plan_text(plan, write)}" for key, plan in made.plans.items()
    )


def plan_json(made: JobPlan) -> dict[str, Any]:
    """The plans in the form of the published answer, lengths in inches, and what to buy.

    `exact` holds the same plans with lengths as exact fractions, for putting a mishap right later.
    """
    return {
        "materials": {
            key: answer(made.problems[key], plan, made.seconds) for key, plan in made.plans.items()
        },
        "exact": issued_to_plain(Issued(0, made.plans))["plans"],
        "buy": [
            {
                "material": one.material,
                "name": one.name,
                "sheets": one.sheets,
                "price": float(one.price),
                "money": float(one.money),
                "from_rack": dict(one.offcuts),
            }
            for one in made.purchases
        ],
    }
