"""What is said of a plan of record once it is made: what to buy, what moved and what that saves."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ...lengths.quantities import with_cents
from ...planner.again import Moves, keep_plan, moves
from ...planner.begun import NOTHING_BEGUN, Begun, same_cuts
from ...planner.plan import Plan
from ...record.plan_of_record import PlanOfRecord
from ...shop.materials import SheetGood
from ...workshop.boards.board_wording import feet_words
from ...workshop.sheets.purchases import Bought, saved_by_moving
from ..jobs.worked_job import PlannedJob


def to_buy(planned: PlannedJob) -> str:
    """The sheets to buy and what comes from the rack, in a phrase."""
    bought = [f"buy {one.sheets} of {one.name}" for one in planned.purchases if one.sheets]
    bought += [f"buy {feet_words(one.feet)} of {one.name}" for one in planned.board_purchases if one.feet]
    rack = [f"{count} of {name}" for one in planned.purchases for name, count in one.offcuts]
    return ", ".join([*bought, *(["from the rack " + ", ".join(rack)] if rack else [])])


def moved_words(before: PlanOfRecord, planned: PlannedJob, begun: Mapping[str, Begun]) -> tuple[str, ...]:
    """What the new plan gains or costs, and what of the paper no longer holds, material by material."""
    said: list[str] = []
    for material, plan in planned.made.plans.items():
        if material not in before.plans:
            continue
        name, old = planned.project.job.sheets[material].name, before.plans[material]
        now, then, moved = plan.figures, old.figures, moves(old, plan)
        if now.sheets != then.sheets:
            said.append(f"{name}: {now.sheets} sheets and rack pieces in place of {then.sheets}.")
            if now.sheets > then.sheets and not planned.made.seconds:  # nothing was searched
                said.append("Planning again may find fewer.")
        elif moved.other_sheet and now.settings < then.settings:
            said.append(f"{name}: {now.settings} fence settings in place of {then.settings}.")
        if moved.other_sheet:
            alone = keep_plan(planned.made.problems[material], old, begun=begun.get(material, NOTHING_BEGUN))
            job = planned.project.job
            said += _bought(job.sheets[material], alone, plan, job.money)
        said += _moves_text(name, moved)
        said += _paper_text(name, old, plan)
    said += board_news(before, planned)
    return tuple(said) or ("No sheet is cut otherwise.",)


def board_news(before: PlanOfRecord, planned: PlannedJob) -> Iterator[str]:
    """Which boards are cut otherwise than in the plan before, material by material."""
    for material, plan in planned.board_plans.items():
        name, old = planned.project.job.sheets[material].name, before.boards.get(material)
        if old is None:
            yield f"{name}: its boards are kept with the plan from now on."
            continue
        was = {one.number: one for one in old.boards}
        other = [one.number for one in plan.boards if was.get(one.number) != one]
        gone = sorted(was.keys() - {one.number for one in plan.boards})
        if other:
            yield f"{name}: cut otherwise or new, so print again: {_boards(other)}."
        if gone:
            yield f"{name}: no longer cut: {_boards(gone)}; the others keep their numbers."


def _bought(good: SheetGood, alone: Plan, plan: Plan, sign: str) -> list[str]:
    """What moving parts buys against the plan that leaves `alone` what it can."""
    what = f"{good.name}: moving parts"
    if alone.unplaced:
        return [f"{what} gives every part a place."]
    saved = saved_by_moving(good, alone, plan)
    if saved <= Bought.nothing():
        return []
    money = f"{sign}{with_cents(saved.money)}"
    sheets = f"{saved.sheets} {'sheet' if saved.sheets == 1 else 'sheets'}, {money}"
    return [f"{what} saves {sheets if saved.sheets > 0 else f'{money} of offcuts'}."]


def _moves_text(name: str, moved: Moves) -> list[str]:
    """The moves on the sheets of one material, a sentence a kind."""
    kinds = (
        ("to another sheet", moved.other_sheet),
        ("to another place on the same sheet", moved.same_sheet),
        ("new", moved.new),
        ("no longer cut", moved.gone),
    )
    return [f"{name}, {what} ({len(marks)}): {', '.join(marks)}." for what, marks in kinds if marks]


def _paper_text(name: str, old: Plan, new: Plan) -> list[str]:
    """Which sheets of one material are cut otherwise than on paper, and which are cut no more."""
    was = {sheet.number: sheet for sheet in old.sheets}
    other = [sheet for sheet in new.sheets if was.get(sheet.number) != sheet]
    less = [one.number for one in other if one.number in was and same_cuts(one, was[one.number])]
    otherwise = [one.number for one in other if one.number not in less]
    unused = sorted(was.keys() - {sheet.number for sheet in new.sheets})
    said = []
    if otherwise:
        said.append(f"{name}: cut otherwise, so print again: {_numbers(otherwise)}.")
    if less:
        said.append(f"{name}: cut as before, with a part left over, so print again: {_numbers(less)}.")
    if unused:
        said.append(f"{name}: no longer cut: {_numbers(unused)}; the others keep their numbers.")
    return said


def _boards(numbers: list[int]) -> str:
    return f"{'board' if len(numbers) == 1 else 'boards'} {', '.join(map(str, numbers))}"


def _numbers(numbers: list[int]) -> str:
    return f"{'sheet' if len(numbers) == 1 else 'sheets'} {', '.join(map(str, numbers))}"
