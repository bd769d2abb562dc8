"""Whether the plan of record still stands for a job, and what has changed since it was made."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping

from ...casework.project import Project
from ...errors import RecordError
from ...findings import Finding
from ...planner.again import at_other_prices, keep_plan
from ...planner.begun import Begun, LeftToCut, left_to_cut
from ...planner.plan import Piece, Plan
from ...planner.plan_wording import GRAIN_BROKEN
from ...planner.problem import Problem
from ...planner.verify.verify import verify
from ...record.plan_of_record import PlanOfRecord, problem_fingerprint
from .begun_work import BegunWork, size_words

MOST_NAMED = 4
"""Parts named in one sentence; the others are counted."""


def refuse_plan_of_another(project: Project, record: PlanOfRecord, where: str) -> None:
    """Refuse a plan of another name with hardly a part of this job: it lies beside the wrong file."""
    if project.job.name == record.job:
        return
    cut = [piece for plan in record.plans.values() for _, piece in plan.parts()]
    known = sum(_is_cut_so(project, piece) for piece in cut)
    if 4 * known < len(cut):
        text = f"is the plan of another job, “{record.job}”."
        fix = "Move it away, or name this job's own plan with --plan FILE."
        raise RecordError((Finding("plan-of-another", where, text, fix),))


def _is_cut_so(project: Project, piece: Piece) -> bool:
    """Whether the job has a part of this mark and size."""
    part = project.parts.get(piece.item or "")
    return part is not None and {*project.dimensions(part)[:2]} == {piece.length, piece.width}


def plans_for_now(
    project: Project, problems: Mapping[str, Problem], record: PlanOfRecord, work: BegunWork
) -> tuple[Mapping[str, Plan], tuple[str, ...]]:
    """The plans of record for the job as it is now, and what of the job they do not meet, a sentence each.

    A plan stands while it has every sheet that is begun and the independent checker finds nothing wrong with
    the rest, so that a changed name or limit leaves it alone; where only prices have changed, its cuts stand,
    its money is counted anew and the number of sheets stays proved.
    """
    plans, said = dict(record.plans), []
    for material, problem in problems.items():
        plan, begun = record.plans.get(material), work.of(project, material)
        left = left_to_cut(problem, begun)
        as_made = record.problems.get(material) == problem_fingerprint(problem)
        if as_made and (plan is None or not _cut_otherwise(left, plan)):
            continue
        name = project.job.sheets[material].name
        if plan is None:
            said.append(f"{name} has no plan yet, for {named_marks([item.name for item in problem.items])}.")
        elif not _stands(left, plan):
            plans[material] = _for_now(problem, plan, left, begun)
            if plans[material].sheets != plan.sheets:
                said += _differences(project, name, left, plan, begun.made)
    return plans, tuple(said)


def _stands(left: LeftToCut, plan: Plan) -> bool:
    if not left.sheets:
        return not verify(left.whole, plan)
    return left.holds(plan) and not verify(left.problem, left.rest_of(plan))


def _for_now(problem: Problem, plan: Plan, left: LeftToCut, begun: Begun) -> Plan:
    """The plan carried over; where nothing is begun and only prices have changed, with what was proved."""
    only_prices = not left.sheets and {finding.code for finding in verify(problem, plan)} == {"bound"}
    return at_other_prices(problem, plan) if only_prices else keep_plan(problem, plan, begun=begun)


def _cut_otherwise(left: LeftToCut, plan: Plan) -> list[int]:
    """The numbers of the begun sheets that the plan does not have as they are."""
    has = {sheet.number: sheet for sheet in plan.sheets}
    return [sheet.number for sheet in left.sheets if has.get(sheet.number) != sheet]


def _differences(
    project: Project, name: str, left: LeftToCut, plan: Plan, made: frozenset[str]
) -> Iterator[str]:
    problem = left.whole
    cut = {piece.item or "": piece.as_part for _, piece in plan.parts()}
    asked = {item.name: (item.length, item.width) for item in problem.items}
    moved = list(new_and_gone(name, asked, cut))
    yield from moved
    there = [mark for mark in asked if mark in cut and mark not in made]
    other = [mark for mark in there if asked[mark] != cut[mark]]
    if other:
        first = other[0]
        now, then = size_words(project, *asked[first]), size_words(project, *cut[first])
        more = f", and {named_marks(other[1:])} differ too" if other[1:] else ""
        yield f"{first} of {name} is {now}, in the plan {then}{more}."
    if moved or other:
        return
    if begun := _cut_otherwise(left, plan):
        numbers = ", ".join(map(str, begun))
        yield f"{name}: begun in the shop as handed out, but cut otherwise by this plan: sheet {numbers}."
    elif broken := [one for one in verify(left.problem, left.rest_of(plan)) if one.code == GRAIN_BROKEN]:
        yield from (f"In the plan of {name} {one.text}" for one in broken)
    else:
        yield f"The sheets, rack or saws for {name} are not those of the plan."


def named_marks(marks: list[str]) -> str:
    """The first few by their marks, the others by their number."""
    first, more = marks[:MOST_NAMED], len(marks) - MOST_NAMED
    names = ", ".join(first)
    return f"{names} and {more} more" if more > 0 else names


def new_and_gone(name: str, asked: Collection[str], cut: Collection[str]) -> Iterator[str]:
    """Which parts that are asked for a plan does not cut, and which it cuts that are not, a sentence each."""
    if new := [mark for mark in asked if mark not in cut]:
        yield f"{named_marks(new)} {_is_or_are(new)} not in the plan of {name}."
    if gone := [mark for mark in cut if mark not in asked]:
        yield f"{named_marks(gone)} {_is_or_are(gone)} in the plan of {name}, but no longer in the job."


def _is_or_are(marks: list[str]) -> str:
    return "is" if len(marks) == 1 else "are"
