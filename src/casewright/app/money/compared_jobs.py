"""A job beside others that could be built in its place: money, sheets, settings, hours, weight, and what is
lost by each.

All are planned for the same seconds from the same seed. A material of which the same is cut in both, from
sheets or from boards, is cut by the plan of the first: no difference comes of searching twice.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from ...casework.project import Project
from ...errors import JobError
from ...findings import Finding, Weight
from ...lengths.quantities import exact_price, json_number, large_area, tenth, weighed
from ...planner.problem import Problem
from ...workshop.boards.board_purchases import board_feet_of
from ...workshop.boards.board_wording import feet_words
from ...workshop.costs.finish_area import all_to_finish, none_on_faced
from ...workshop.sheets.purchases import sheets_of
from ..choices import SECONDS
from ..jobs.job_plan import Asked, Report, nobody_asks
from ..jobs.worked_job import PlannedJob, WorkedJob
from .costs_json import money_json

MOST_AGAINST = 2
"""Other jobs beside the first: more columns than three are compared by nobody."""

MOST_WARNINGS = 2
"""New warnings given in full; the rest are counted."""


@dataclass(frozen=True)
class ComparedJob:
    """One of the jobs by its `name`, with what is `otherwise` than in the first."""

    name: str
    planned: PlannedJob
    otherwise: tuple[str, ...] = ()


def planned_like(
    first: PlannedJob,
    worked: WorkedJob,
    report: Report | None = None,
    stopped: Asked = nobody_asks,
    seconds: float | None = None,
) -> PlannedJob:
    """Another job, planned for as long as the first was, or for so many `seconds`.

    Raises JobError where it cannot be built, or where some part finds no place on a sheet.
    """
    # The planner is loaded only for a job that is planned.
    from ..sheets.plan_search import plan_problems

    worked.needed_sound()
    effort, seed = seconds or first.made.seconds or SECONDS, first.made.seed
    sheets = _alike(first.worked.problems, worked.problems) & first.plans.keys()
    boards = _alike(first.worked.board_problems, worked.board_problems)
    others = {key: problem for key, problem in worked.problems.items() if key not in sheets}
    # Of the seconds only what these would get if all materials were planned: no more than in the first.
    share = effort * _parts_of(others) / max(1, _parts_of(worked.problems))
    found = plan_problems(worked.needed(), others, share, seed, 1, report, stopped=stopped)
    plans = {key: (first if key in sheets else found).plans[key] for key in worked.problems}
    kept = {key: first.board_plans[key] for key in boards}
    planned = worked.with_plan(plans, effort, seed, kept)
    if not planned.made.complete:
        text = "some part of it finds no place on any sheet."
        raise JobError((Finding("not-compared", worked.needed().job.name, text, "Enter larger sheets."),))
    return planned


def _alike(first: Mapping[str, object], now: Mapping[str, object]) -> set[str]:
    """The materials of which exactly the same is to be cut in both jobs."""
    return {key for key, problem in now.items() if first.get(key) == problem}


def _parts_of(problems: Mapping[str, Problem]) -> int:
    return sum(problem.parts for problem in problems.values())


def compared(first: PlannedJob, others: Iterable[tuple[str, PlannedJob]]) -> tuple[ComparedJob, ...]:
    """The first job under its own name, then the others with what is otherwise in them."""
    rest = (ComparedJob(name, planned, tuple(_otherwise(first, planned))) for name, planned in others)
    return (ComparedJob(first.project.job.name, first), *rest)


def comparison_rows(jobs: Iterable[ComparedJob]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """The figures a line each, with a column for each job; lines that say nothing are left out."""
    columns = [dict(_figures(one.planned)) for one in jobs]
    names = dict.fromkeys(name for column in columns for name in column)
    return tuple((name, tuple(column.get(name, "") for column in columns)) for name in names)


def _figures(planned: PlannedJob) -> Iterator[tuple[str, str]]:
    job, costs = planned.project.job, planned.costs
    unpriced = f", {len(costs.unpriced)} not priced" if costs.unpriced else ""
    yield "quote", f"{exact_price(costs.quote, job.money)}{unpriced}"
    yield "bought", exact_price(costs.bought, job.money)
    yield "hours", tenth(costs.hours)
    yield "sheets to buy", f"{sheets_of(planned.purchases)}"
    if planned.board_purchases:
        yield "boards to buy", feet_words(board_feet_of(planned.board_purchases))
    yield "settings", f"{planned.ordered.settings}"
    weight = planned.worked.weight
    yield "weight", "not known" if weight is None else weighed(weight, job.unit)


def comparison_json(jobs: Iterable[ComparedJob]) -> list[dict[str, Any]]:
    """The same as JSON."""
    return [
        {
            "name": one.name,
            "plan": one.planned.plan_name,
            "quote": money_json(one.planned.costs.quote),
            "bought": money_json(one.planned.costs.bought),
            "hours": json_number(one.planned.costs.hours),
            "sheets": sheets_of(one.planned.purchases),
            "board_feet": json_number(board_feet_of(one.planned.board_purchases)),
            "settings": one.planned.ordered.settings,
            "pounds": None if one.planned.worked.weight is None else json_number(one.planned.worked.weight),
            "not_priced": [line.what for line in one.planned.costs.unpriced],
            "otherwise": list(one.otherwise),
        }
        for one in jobs
    ]


def _otherwise(first: PlannedJob, other: PlannedJob) -> Iterator[str]:
    """What a maker would ask: fewer of something, other materials, other sizes, and warnings that are new."""
    before, after = first.project, other.project
    yield from _counted(before, after)
    yield from _materials(before, after)
    yield from _finish(before, after)
    sizes = [
        mark
        for mark, part in after.parts.items()
        if mark in before.parts and after.dimensions(part) != before.dimensions(before.parts[mark])
    ]
    if sizes:
        yield f"{len(sizes)} {'part is' if len(sizes) == 1 else 'parts are'} of another size"
    known = {(one.code, one.place) for one in _warnings(first)}
    new = [one for one in _warnings(other) if (one.code, one.place) not in known]
    yield from (f"{one.place}: {one.text}" for one in new[:MOST_WARNINGS])
    if more := len(new) - MOST_WARNINGS if len(new) > MOST_WARNINGS else 0:
        yield f"{more} more {'warning' if more == 1 else 'warnings'}; “casewright check” lists them"


def _warnings(planned: PlannedJob) -> tuple[Finding, ...]:
    """What is to be minded, without the solid check, which takes longer than the plan."""
    every = (*planned.worked.findings, *planned.doubts)
    return tuple(one for one in every if one.weight is not Weight.NOTE)


def _counted(before: Project, after: Project) -> Iterator[str]:
    """Parts of each kind that there are fewer or more of."""
    was, now = (Counter(part.role for part in project) for project in (before, after))
    for role in dict.fromkeys((*was, *now)):
        if was[role] != now[role]:
            yield f"{now[role]} × {role.value} in place of {was[role]}"


def _materials(before: Project, after: Project) -> Iterator[str]:
    changed: Counter[tuple[str, str]] = Counter()
    for mark, part in after.parts.items():
        if mark in before.parts:
            was, now = _material(before, mark), _material(after, part.mark)
            if was != now:
                changed[was, now] += 1
    for (was, now), count in changed.items():
        yield f"{count} {'part' if count == 1 else 'parts'} of {now} in place of {was}"


def _finish(before: Project, after: Project) -> Iterator[str]:
    """How much more or less there is to finish: a material may get none."""
    unit = after.job.unit
    was, now = (large_area(all_to_finish(project), unit) for project in (before, after))
    if was != now:
        finish = after.job.prices.finish
        none = none_on_faced(after, finish) if finish else ""
        yield f"{now} to finish in place of {was}{none and f'; {none}'}"


def _material(project: Project, mark: str) -> str:
    materials: Mapping[str, Any] = project.job.sheets
    return str(materials[project.parts[mark].material].name)
