"""From a drawn-up job to a sheet plan for every material, and those plans in words and as JSON."""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping
from dataclasses import replace
from fractions import Fraction

from ...casework.project import Project
from ...planner.again import plan_again
from ...planner.begun import NOTHING_BEGUN, NOTHING_TO_CUT, Begun
from ...planner.effort import AboutSeconds, UntilAsked
from ...planner.plan import Plan
from ...planner.plan_wording import stopped_early
from ...planner.problem import Problem
from ...planner.solve import solve
from ...workshop.sheets.cut_problems import cut_problems
from ...workshop.sheets.purchases import buying_list
from ..choices import SECONDS
from ..jobs.job_plan import Asked, JobPlan, Report, nobody_asks

Clock = Callable[[], float]


def plan_job(
    project: Project,
    seconds: float = SECONDS,
    seed: int = 0,
    cores: int = 1,
    progress: Report | None = None,
    clock: Clock = time.monotonic,
) -> JobPlan:
    """The best plans found in about so many seconds for the whole job, more work for more parts.

    Work is counted: the same job, seconds, seed and cores give the same plans, on a busy machine too.
    `progress` gets a sentence with every better plan. Raises PlanError
    when a material's sheets, saws or rack make no sense together.
    """
    return plan_problems(project, cut_problems(project), seconds, seed, cores, progress, clock=clock)


def plan_problems(
    project: Project,
    problems: Mapping[str, Problem],
    seconds: float,
    seed: int = 0,
    cores: int = 1,
    progress: Report | None = None,
    before: Mapping[str, Plan] | None = None,
    begun: Mapping[str, Begun] | None = None,
    clock: Clock = time.monotonic,
    stopped: Asked = nobody_asks,
) -> JobPlan:
    """The same, where what is to be cut from each material is known.

    `before` are plans made for the job as it was: their parts are moved only where that buys something.
    Sheets that are `begun` stay as they are. Once `stopped` says so, each material gets the best plan there
    is so far, which says that it was stopped early.
    """
    effort = AboutSeconds(seconds, clock)
    left = sum(problem.parts for problem in problems.values())
    plans: dict[str, Plan] = {}
    for material, problem in problems.items():
        stop = UntilAsked(effort.share(Fraction(problem.parts, left)), stopped)
        left -= problem.parts
        report = _reporter(project, material, progress)
        start, cut = (before or {}).get(material), (begun or {}).get(material, NOTHING_BEGUN)
        if start is None and not cut.sheets:
            plans[material] = solve(problem, stop, seed, report, cores)
        else:
            plans[material] = plan_again(
                problem, start or NOTHING_TO_CUT, stop, seed, report, cores, begun=cut
            )
        if stopped():
            plan = plans[material]
            plans[material] = replace(plan, findings=(*plan.findings, stopped_early()))
    return JobPlan(project, problems, plans, buying_list(project, plans), seconds, seed)


def _reporter(project: Project, material: str, progress: Report | None) -> Callable[[Plan], None] | None:
    if progress is None:
        return None
    name = project.job.sheets[material].name
    last = ""

    def report(plan: Plan) -> None:
        nonlocal last
        said = f"{name}: {plan.statement(project.job.money)}"
        if said != last:
            progress(said)
        last = said

    return report
