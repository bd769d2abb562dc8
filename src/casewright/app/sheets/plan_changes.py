"""Whether the plan of record still stands for a job, and what has changed since it was made."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from ...casework.project import Project
from ...lengths.length import show
from ...planner.again import at_other_prices, keep_plan
from ...planner.plan import Piece, Plan
from ...planner.problem import Item, Problem
from ...planner.verify.verify import verify
from ...record.plan_of_record import PlanOfRecord, problem_fingerprint

MOST_NAMED = 4
"""Parts named in one sentence; the others are counted."""


def plans_for_now(
    project: Project, problems: Mapping[str, Problem], record: PlanOfRecord
) -> tuple[Mapping[str, Plan], tuple[str, ...]]:
    """The plans of record for the job as it is now, and what of the job they do not meet, a sentence each.

    A plan stands while the independent checker finds nothing wrong with it, so that a changed name or limit
    leaves it alone; where only prices have changed, its cuts stand and its money is counted anew and
    the number of sheets stays proved.
    """
    plans, said = dict(record.plans), []
    for material, problem in problems.items():
        if record.problems.get(material) == problem_fingerprint(problem):
            continue
        name = project.job.sheets[material].name
        plan = record.plans.get(material)
        if plan is None:
            said.append(f"{name} has no plan yet, for {_named([item.name for item in problem.items])}.")
        elif wrong := verify(problem, plan):
            only_prices = {finding.code for finding in wrong} == {"bound"}
            plans[material] = (at_other_prices if only_prices else keep_plan)(problem, plan)
            if plans[material].sheets != plan.sheets:
                said += _differences(project, name, problem, plan)
    return plans, tuple(said)


def _differences(project: Project, name: str, problem: Problem, plan: Plan) -> Iterator[str]:
    cut = {piece.item or "": piece for _, piece in plan.parts()}
    asked = {item.name: item for item in problem.items}
    if new := [mark for mark in asked if mark not in cut]:
        yield f"{_named(new)} {_is(new)} not in the plan of {name}."
    if gone := [mark for mark in cut if mark not in asked]:
        yield f"{_named(gone)} {_is(gone)} in the plan of {name}, but no longer in the job."
    other = [mark for mark, item in asked.items() if mark in cut and not _same_size(item, cut[mark])]
    if other:
        first = other[0]
        now, then = _size(project, asked[first]), _size(project, cut[first])
        more = f", and {_named(other[1:])} differ too" if other[1:] else ""
        yield f"{first} of {name} is {now}, in the plan {then}{more}."
    if not (new or gone or other):
        yield f"The sheets, rack or saws for {name} are not those of the plan."


def _same_size(item: Item, piece: Piece) -> bool:
    lies = (piece.width, piece.length) if piece.turned else (piece.length, piece.width)
    return lies == (item.length, item.width)


def _size(project: Project, of: Item | Piece) -> str:
    length, width = of.length, of.width
    if isinstance(of, Piece) and of.turned:
        length, width = width, length
    return f"{_text(project, length)} × {_text(project, width)}"


def _text(project: Project, length: Fraction) -> str:
    return show(length, project.job.mark).marked


def _named(marks: list[str]) -> str:
    first, more = marks[:MOST_NAMED], len(marks) - MOST_NAMED
    names = ", ".join(first)
    return f"{names} and {more} more" if more > 0 else names


def _is(marks: list[str]) -> str:
    return "is" if len(marks) == 1 else "are"
