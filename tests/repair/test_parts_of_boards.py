"""Parts of solid wood put right: whatever is spoiled after whatever steps, each way is a plan that can be
cut, no wood is used twice, and a board that is begun stays as it is.

The judges here are `board_faults`, which shares nothing with the search, and rectangles on the boards.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations, pairwise
from random import Random
from typing import Any

import pytest

from casewright.app.jobs.worked_job import PlannedJob, open_job
from casewright.app.repair.mishap import Mishap, RepairTask, repair_task
from casewright.app.sheets.made_already import MadeAlready
from casewright.boards.board_faults import board_plan_faults
from casewright.boards.board_plan import BoardPlan, CutBoard
from casewright.boards.cut_once_more import BoardsInHand
from casewright.repair.boards_begun import crosscuts_made
from casewright.repair.find_ways import ways
from casewright.repair.ways.way import BuyBoard, MillAgain, Option
from casewright.workshop.boards.board_problems import board_problems
from casewright.workshop.boards.board_work import board_of_step
from casewright.workshop.work import work
from loft_job import LOFT
from parlor_job import PARLOR
from planned_once import planned_once

MORE_AT_HAND = """
[[materials.maple.boards.at_hand]]
name = "B"
length = 40
width = 4

[[materials.maple.boards.at_hand]]
name = "C"
length = 60
width = [3, 4]

[made_of]"""

JOBS = {"loft": LOFT, "parlor": PARLOR, "more boards": LOFT.replace("\n[made_of]", MORE_AT_HAND)}


def planned(name: str) -> PlannedJob:
    return planned_once(JOBS[name], 0.2)


def of_boards(job: PlannedJob) -> list[str]:
    return [part.mark for part in job.project if part.material in job.board_plans]


def asked(name: str, told: Mishap, steps: frozenset[str] = frozenset()) -> RepairTask:
    return repair_task(planned(name), told, MadeAlready(steps=steps))


def steps_in_turn(job: PlannedJob, draw: Random) -> list[str]:
    """The steps of the job in an order that they may be done in, drawn."""
    left = [one.key for one in job.work.operations]
    done: list[str] = []
    while left:
        ready = [key for key in left if not {*job.work.by_key[key].after} & {*left}]
        key = draw.choice(ready[:12])
        left.remove(key)
        done.append(key)
    return done


def rectangles(one: CutBoard) -> Iterator[tuple[str, tuple[object, ...]]]:
    for length in one.lengths:
        for strip in length.strips:
            for part in strip.parts:
                yield (
                    part.name,
                    (part.x, part.x + part.length, strip.y, strip.y + strip.width),
                )


def share_wood(one: tuple, other: tuple) -> bool:  # type: ignore[type-arg]
    return bool(one[0] < other[1] and other[0] < one[1] and one[2] < other[3] and other[2] < one[3])


def wood_used_twice(plan: BoardPlan) -> list[tuple[str, str]]:
    found = []
    for board in plan.boards:
        for (name, room), (other, elsewhere) in combinations(rectangles(board), 2):
            if share_wood(room, elsewhere):
                found.append((name, other))
    return found


def begun_numbers(task: RepairTask, material: str) -> frozenset[int]:
    """The boards that a step was done on, or that a part came of that is cut or no good."""
    cut = {*task.facts.spoiled, *task.facts.finished}
    missing = {part.mark for part in task.facts.to_make(task.project)} - task.facts.planned
    plan = task.boards[material]
    by_step = {at[1] for key in task.done if (at := board_of_step(key)) and at[0] == material}
    by_part = {one.number for one in plan.boards if one.marks & (cut | missing)}
    return frozenset(by_step | by_part)


def judge(name: str, task: RepairTask, option: Option) -> None:
    after = open_job(JOBS[name]).with_plan({**task.plans}, boards={**task.boards, **option.boards})
    for material, plan in option.boards.items():
        problem = after.worked.board_problems[material]
        assert board_plan_faults(problem, plan) == [], (option.why, material)
        assert not plan.unplaced and not wood_used_twice(plan)
        was = {one.number: one for one in task.boards[material].boards}
        now = {one.number: one for one in plan.boards}
        for number in begun_numbers(task, material):
            before = dict(_strips(was[number]))
            there = dict(_strips(now[number]))
            assert now[number].board == was[number].board
            # Every strip that was planned is there, under its number, with its parts where they were.
            for at, strip in before.items():
                assert there[at][:3] == strip[:3]
                assert there[at][3][: len(strip[3])] == strip[3]
        for number, board in now.items():
            if number in was and number not in begun_numbers(task, material):
                assert board == was[number], "a board that is cut otherwise has a new number"
        used = [one.board.name for one in plan.boards if not one.to_buy]
        assert len(used) == len({*used})
        bought = len(plan.to_buy) - len(task.boards[material].to_buy)
        assert bought <= sum(isinstance(one, BuyBoard) for one in option.actions)
    # What the plan of record says next is this very plan, and its steps can all be done in some order.
    assert after.board_plans == {**task.boards, **option.boards}
    keys = [one.key for one in after.work.operations]
    assert len(keys) == len({*keys})
    for mark in (one.mark for one in option.actions if isinstance(one, MillAgain)):
        assert any(key.endswith(f" {mark} crosscut") for key in keys)


def _strips(board: CutBoard) -> Iterator[tuple[int, Any]]:
    for number, length, strip in board.strips_in_turn():
        yield number, (length.x, strip.y, strip.width, [(one.name, one.x) for one in strip.parts])


@pytest.mark.parametrize("seed", range(24))
def test_whatever_is_spoiled_every_way_can_be_cut(seed: int) -> None:
    draw = Random(seed)
    name = draw.choice(list(JOBS))
    job = planned(name)
    turn = steps_in_turn(job, draw)
    done = frozenset(turn[: draw.randrange(len(turn))]) if seed % 4 else frozenset[str]()
    marks = draw.sample(of_boards(job), draw.choice((1, 1, 2, 3)))
    told = Mishap(spoiled=marks[:1], lost=marks[1:])
    task = asked(name, told, done)
    found = ways(task.project, task.facts)
    assert found.options
    for option in found.options:
        judge(name, task, option)
        milled = {one.mark for one in option.actions if isinstance(one, MillAgain)}
        assert milled == {*marks}
    prices = [option.cost.price for option in found.options]
    assert all(one <= other for one, other in pairwise(prices))


@pytest.mark.parametrize("seed", range(12))
def test_what_is_put_right_may_be_spoiled_again(seed: int) -> None:
    """Three mishaps one after another, the first part among them each time, with work done between."""
    draw = Random(1000 + seed)
    name = draw.choice(list(JOBS))
    job = planned(name)
    first, *others = draw.sample(of_boards(job), 3)
    done: frozenset[str] = frozenset()
    for mark in (first, draw.choice(others), first):
        left = [key for key in steps_in_turn(job, draw) if key not in done]
        done |= {*left[: draw.randrange(len(left) + 1)]}
        task = repair_task(job, Mishap(lost=[mark]), MadeAlready(steps=done))
        found = ways(task.project, task.facts).options
        assert found
        for option in found:
            judge(name, task, option)
        option = draw.choice(found)
        before = {one.key: one for one in job.work.operations}
        job = open_job(JOBS[name]).with_plan(job.plans, boards={**task.boards, **option.boards})
        steps = job.work.by_key
        for key in done & steps.keys():
            # What was ticked still means the same cut; only parts that are made anew have left it.
            assert (steps[key].kind, steps[key].setting) == (before[key].kind, before[key].setting)
            assert {*before[key].parts} - {*steps[key].parts} <= {mark}
        done = frozenset(key for key in done & steps.keys() if steps[key].parts != (mark,))
    spent = [
        part
        for _, _, strip in job.board_plans[job.project.parts[first].material].strips()
        for part in strip.parts
        if part.spent and part.of_part == first
    ]
    assert len(spent) >= 2


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("loft", Mishap(spoiled=["B1-ST1:30 x 1 1/2"])),
        ("loft", Mishap(spoiled=["B1-L:34 1/4 x 23 1/4"], through=["maple board 1"])),
        ("loft", Mishap(spoiled=["B1-B:26 1/4 x 23"], cut=["B1-RA1"])),
        ("parlor", Mishap(spoiled=["B1-DO1L:28 x 2 1/4"])),
        ("parlor", Mishap(spoiled=["B2-L:34 1/4 x 23 1/4", "B1-DO1P"], through=["panel board 1"])),
    ],
)
def test_where_a_size_changes_every_part_still_comes_out_of_its_board(name: str, told: Mishap) -> None:
    task = repair_task(planned(name), told)
    for option in ways(task.project, task.facts).options:
        problems = board_problems(option.project)
        for material, plan in {**task.boards, **option.boards}.items():
            assert board_plan_faults(problems[material], plan) == [], option.why
            assert not wood_used_twice(plan)
            now = {one.number: one for one in plan.boards}
            for number in begun_numbers(task, material):
                was = dict(_strips(task.boards[material].numbered(number)))
                assert {at: strip[:3] for at, strip in was.items()}.items() <= {
                    at: strip[:3] for at, strip in _strips(now[number])
                }.items()


def test_a_board_first_cut_in_a_later_round_is_begun_by_the_step_that_cuts_it() -> None:
    """At hand or bought once the rest is planed: the plan's work has no step of the first round for it."""
    job = planned("loft")
    (material,) = job.board_plans
    plan = job.board_plans[material]
    later = replace(
        plan.boards[-1],
        lengths=tuple(
            replace(length, strips=tuple(replace(strip, later=1) for strip in length.strips))
            for length in plan.boards[-1].lengths
        ),
    )
    after = replace(plan, boards=(*plan.boards[:-1], later))
    numbers = frozenset({plan.boards[0].number, later.number})
    keys = list(crosscuts_made({material: BoardsInHand(after, numbers)}))
    steps = work(job.project, job.plans, job.worked.joinings, {material: after}).by_key
    assert len(keys) == 2 and keys[0] != keys[1] and all(key in steps for key in keys)
