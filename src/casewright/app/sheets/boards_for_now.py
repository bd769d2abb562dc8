"""Whether the board plans of record still stand for a job, and what has changed since they were made."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction

from ...boards.board_faults import board_plan_faults
from ...boards.board_plan import BoardPlan
from ...boards.board_problem import BoardProblem
from ...boards.glue_up import as_planned
from ...boards.keep_boards import BegunBoards, keep_boards, plan_around
from ...boards.plan_boards import plan_cost
from ...casework.project import Project
from ...record.plan_of_record import PlanOfRecord, problem_fingerprint
from ..jobs.worked_job import WorkedJob
from .plan_changes import named_marks, new_and_gone


def boards_for_now(
    project: Project, problems: Mapping[str, BoardProblem], record: PlanOfRecord
) -> tuple[Mapping[str, BoardPlan], tuple[str, ...]]:
    """The board plans of record for the job as it is now, and what of the job they do not meet, a sentence
    each.

    A plan stands while the judge finds nothing wrong with it and no board has come to hand that it might use
    in place of one to buy. A material without a plan is cut up anew.
    """
    boards: dict[str, BoardPlan] = {}
    said: list[str] = []
    for material, problem in problems.items():
        plan = record.boards.get(material)
        if plan is None:
            continue
        boards[material] = plan
        if record.problems.get(material) == problem_fingerprint(problem):
            continue
        changes = list(_differences(project.job.sheets[material].name, problem, plan))
        said += changes
        if not changes:  # what was proved was proved of another list of parts
            boards[material] = replace(plan, bound=Fraction(0), bound_boards=0)
    return boards, tuple(said)


def boards_again(
    worked: WorkedJob, before: Mapping[str, BoardPlan], begun: Mapping[str, BegunBoards]
) -> dict[str, BoardPlan]:
    """The boards planned anew from the plans `before`. Boards that are `begun` stay as they are; where some
    are, it is the plan that the shop works by that is held against the new one."""
    problems = worked.board_problems
    new = {
        material: plan_around(problem, begun[material]) if material in begun else worked.board_plans[material]
        for material, problem in problems.items()
    }
    return no_worse_boards(problems, new, {**before, **{key: one.plan for key, one in begun.items()}})


def no_worse_boards(
    problems: Mapping[str, BoardProblem], new: Mapping[str, BoardPlan], before: Mapping[str, BoardPlan]
) -> dict[str, BoardPlan]:
    """The new plans; a plan from before stays where, carried over to the parts as they are now, it takes no
    more than the new one. So does one with wood that is spent: a new one would use that wood again."""
    carried = {
        material: keep_boards(problems[material], before[material]) for material in new.keys() & before
    }

    def stays(material: str, plan: BoardPlan) -> bool:
        kept = carried.get(material)
        return kept is not None and (before[material].has_spent or plan_cost(kept) <= plan_cost(plan))

    return {
        material: replace(carried[material], bound=plan.bound, bound_boards=plan.bound_boards)
        if stays(material, plan)
        else plan
        for material, plan in new.items()
    }


def _differences(name: str, problem: BoardProblem, plan: BoardPlan) -> Iterator[str]:
    made = [(strip, part) for _, _, strip in plan.strips() for part in strip.wanted]
    sizes = {part.name: (part.length, strip.width) for strip, part in made}
    wanted = {part.name: part for part in as_planned(problem, plan).parts}
    marks = [part.name for part in problem.parts]
    known = [*dict.fromkeys(part.of_part for _, part in made), *plan.unplaced]
    moved = list(new_and_gone(name, marks, known))
    yield from moved
    small = [
        mark
        for mark, (length, width) in sizes.items()
        if mark in wanted
        and (length < problem.rough_length(wanted[mark]) or width < problem.rough_width(wanted[mark]))
    ]
    if small:
        yield f"{named_marks(small)} of {name} no longer {_come(small)} out of the rough size of the plan."
    unused = [board.name for board in problem.at_hand if board not in [one.board for one in plan.boards]]
    if unused and (plan.to_buy or plan.unplaced):
        yield f"The plan of {name} has boards to buy, and does not use those at hand: {named_marks(unused)}."
    elif not (moved or small) and (board_plan_faults(problem, plan) or plan.unplaced):
        yield f"The boards, allowances or saws for {name} are not those of the plan."


def _come(marks: list[str]) -> str:
    return "comes" if len(marks) == 1 else "come"
