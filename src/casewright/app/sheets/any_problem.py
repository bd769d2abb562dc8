"""Plan any rectangle problem under a clock."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from ...planner.answer_json import AnswerJson, answer
from ...planner.effort import AboutSeconds
from ...planner.plan import Plan, PlanStatus
from ...planner.plan_wording import plan_text
from ...planner.problem_json import ProblemJson, read_problem
from ...planner.solve import solve
from ...validation import schema_of


@dataclass(frozen=True)
class BreakdownAnswer:
    """What came of it: as words, and as the published JSON answer."""

    complete: bool
    words: str
    answer: dict[str, Any]


def break_down(
    text: str,
    seconds: float,
    seed: int = 0,
    cores: int = 1,
    progress: Callable[[str], None] | None = None,
    clock: Callable[[], float] = time.monotonic,
) -> BreakdownAnswer:
    """The best plan found in so many seconds for a problem in JSON.

    `progress` gets a sentence with every better plan. Raises PlanError with every fault of the
    problem.
    """
    begun = clock()
    stop = AboutSeconds(seconds, clock)

    def tell(plan: Plan) -> None:
        if progress:
            progress(f"{clock() - begun:5.1f} s  {plan.statement()}")

    problem = read_problem(text)
    plan = solve(problem, stop, seed, tell, cores)
    return BreakdownAnswer(
        plan.status is not PlanStatus.IMPOSSIBLE, plan_text(plan), answer(problem, plan, clock() - begun)
    )


def problem_schema() -> dict[str, Any]:
    """The form of a problem, as a JSON schema."""
    return schema_of(ProblemJson)


def answer_schema() -> dict[str, Any]:
    """The form of an answer, as a JSON schema."""
    return schema_of(AnswerJson, written=True)
