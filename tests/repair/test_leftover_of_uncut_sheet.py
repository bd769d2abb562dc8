"""What the plan leaves of a sheet that is not cut yet is offered before any part gets another place."""

from __future__ import annotations

from dataclasses import replace

import pytest

from casewright.app.jobs.worked_job import PlannedJob
from casewright.app.repair.mishap import Mishap, RepairTask, repair_task
from casewright.planner.verify.verify import verify
from casewright.repair.find_ways import ways
from casewright.repair.plans_after import plans_after
from casewright.repair.ways.way import NewPlaces, Option, WayKind
from casewright.workshop.operations import cut_key
from planned_once import planned_once
from web_bench import JOB


@pytest.fixture(scope="module")
def larder() -> PlannedJob:
    return planned_once(JOB, 0.5)


def first_recut(task: RepairTask) -> Option | None:
    return ways(task.project, task.facts).best_of(WayKind.RECUT)


def leaves_room(planned: PlannedJob, mark: str) -> bool:
    """Whether an offcut-to-be of a sheet that the part is not on would hold it as it lies in the plan, with
    an inch to spare for edges that are sawn by hand."""
    part = planned.project.parts[mark]
    length, width, _ = planned.project.dimensions(part)
    return any(
        piece.length >= length + 1 and piece.width >= width + 1
        for sheet in planned.plans[part.material].sheets
        if mark not in [one.item for one in sheet.parts]
        for piece in sheet.offcuts
    )


def test_a_leftover_of_an_uncut_sheet_comes_before_new_places(larder: PlannedJob) -> None:
    roomy = [mark for mark in larder.project.parts if leaves_room(larder, mark)]
    assert len(roomy) > 3
    for mark in roomy:
        option = first_recut(repair_task(larder, Mishap(spoiled=[mark])))
        assert option is not None, mark
        assert not any(isinstance(one, NewPlaces) for one in option.actions), (mark, option.why)


def test_its_sheet_is_cut_on_after_all_planned_cuts_and_keeps_every_one(larder: PlannedJob) -> None:
    seen = 0
    for mark, part in larder.project.parts.items():
        task = repair_task(larder, Mishap(spoiled=[mark]))
        option = first_recut(task)
        names = {one.blank.name: one.sheet for one in task.facts.left_over}
        if option is None or not {*option.plans} or {*_bins(option)} - {*names}:
            continue
        before = larder.plans[part.material]
        after = plans_after(task.project, task.plans, task.done, task.facts, option)[part.material]
        # What the planner says of its own plan holds for this one too: the judge is told of it again.
        told = replace(after, findings=before.findings)
        assert verify(larder.made.problems[part.material], told) == (), mark
        assert [one.number for one in after.sheets] == [one.number for one in before.sheets]
        for was, now in zip(before.sheets, after.sheets, strict=True):
            assert now.cuts[: len(was.cuts)] == was.cuts
            cut_on = was.number in {names[one] for one in _bins(option)}
            assert cut_on or now.cuts == was.cuts
        seen += 1
    assert seen > 3


def test_what_is_left_of_a_sheet_that_is_lost_is_lost_too(larder: PlannedJob) -> None:
    task = repair_task(larder, Mishap(spoiled=["B1-L"]))
    within = next(one.within for one in task.facts.left_over)
    gone = task.facts.without([within])
    assert all(one.within != within for one in gone.left_over)
    assert len(gone.left_over) < len(task.facts.left_over)


def test_a_leftover_that_is_cut_off_is_an_offcut_and_no_leftover(larder: PlannedJob) -> None:
    every = {
        cut_key(key, sheet.number, cut.order)
        for key, plan in larder.plans.items()
        for sheet in plan.sheets
        for cut in sheet.cuts
    }
    names = [f"{key} {sheet.number}" for key, plan in larder.plans.items() for sheet in plan.sheets]
    task = repair_task(larder, Mishap(spoiled=["B1-L"], sheets=names))
    assert {*task.done} >= every and not task.facts.left_over


def _bins(option: Option) -> list[str]:
    return [sheet.bin for plan in option.plans.values() for sheet in plan.sheets]


DOORS = """
job = "Doors"
unit = "in"
money = "$"

[materials.ply]
sheet = "hardwood ply 3/4"
price = 82

[materials.faces]
sheet = "hardwood ply 3/4"
name = "face ply"
price = 95

[hinges.cup]
like = "full overlay"
from_end = 3

[fitted_with]
hinge = "cup"

[made_of]
case = "ply"
back = "ply"
front = "faces"

[[runs]]
name = "wall"
opening = 144

[[runs.cases]]
mark = "B1"
kind = "base"
width = 18

[[runs.cases.bays]]
fixed = [SHELF]
fronts = [{ kind = "door" }]
"""

MORE_DOORS = "".join(
    f"""
[[runs.cases]]
mark = "B{number}"
kind = "base"

[[runs.cases.bays]]
fronts = [{{ kind = "two doors" }}]
"""
    for number in range(2, 7)
)


def mirrored(shelf: str) -> tuple[RepairTask, tuple[Option, ...]]:
    planned = planned_once(DOORS.replace("SHELF", shelf) + MORE_DOORS, 0.5)
    task = repair_task(planned, Mishap(wrong=["B1-DO1:mirrored"]))
    return task, ways(task.project, task.facts).options


def test_a_mirrored_door_is_turned_where_its_hinges_stand_alike_from_both_ends() -> None:
    _, options = mirrored("10")
    assert options[0].kind is WayKind.TURN


def test_one_whose_hinges_were_moved_for_a_shelf_is_cut_again_alone() -> None:
    """Its cups stand nearer to one end, so that it does not serve turned; no other door need be cut anew."""
    task, options = mirrored("2.5")
    door = task.project.parts["B1-DO1"]
    (cups,) = door.features
    first, pitch = (task.project.sizes.of(size.form) for size in cups.sizes[1:3])
    assert 2 * first + pitch != task.project.dimensions(door)[0], "else it serves turned end for end"
    assert [(one.mark, type(one).__name__) for one in options[0].actions] == [("B1-DO1", "CutAgain")]  # type: ignore[union-attr]


def test_a_door_that_nothing_is_bored_into_is_no_other_of_its_pair() -> None:
    text = DOORS.replace("SHELF", "10").replace('hinge = "cup"', "")
    planned = planned_once(text + MORE_DOORS, 0.5)
    task = repair_task(planned, Mishap(wrong=["B1-DO1:mirrored"]))
    assert all(option.why[:9] != "Each part" for option in ways(task.project, task.facts).options)
