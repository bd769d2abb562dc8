"""Putting a case together: every fixed part in a step, every screw counted once, sizes from the ledger."""

from __future__ import annotations

import re
from collections import Counter

import pytest

from casewright.casework.parts.part import Role
from casewright.drawings.kit.lettering import lettered
from casewright.packet.pages.assembly_steps import assembly_steps
from casewright.packet.pages.buying import buying
from casewright.packet.pages.sheet_pages import buying_page
from casewright.workshop.assembly.joining import joinings
from casewright.workshop.hardware import screw_count
from drawings.shown_jobs import plans, project, project_mm

LOOSE = (Role.ADJUSTABLE_SHELF, Role.FILLER)


@pytest.mark.parametrize("mark", list(project().cases))
def test_each_fixed_part_is_brought_in_once(mark: str) -> None:
    steps = assembly_steps(project(), mark)
    assert steps[0].title == "dry fit"
    brought = Counter(part for step in steps for part in step.marks)
    fixed = [part.mark for part in project().cases[mark].parts if part.role not in LOOSE]
    assert brought == Counter(fixed)


@pytest.mark.parametrize("mark", list(project().cases))
def test_the_dry_fit_is_measured_against_the_ledger(mark: str) -> None:
    notes = " · ".join(assembly_steps(project(), mark)[0].notes)
    assert lettered(project().sizes.of(f"{mark}.inside"), project().job.mark) in notes


@pytest.mark.parametrize("mark", list(project().cases))
def test_screws_said_joint_by_joint_add_up(mark: str) -> None:
    """Joints that are told in one phrase must still come to the number of screws before it."""
    for step, joining in zip(assembly_steps(project(), mark)[1:], joinings(project(), mark), strict=True):
        for note in step.notes:
            found = re.match(r"(\d+) screws [^:]*: (.*)", note)
            if not found:
                continue
            told = 0
            for phrase in found[2].split("; "):
                each, through, into = re.match(r"(\d+) each through (.*) into (.*)", phrase).groups()
                told += int(each) * len(through.split(", ")) * len(into.split(", "))
            assert told == int(found[1])
        numbers = [re.match(r"(\d+) screws", note) for note in step.notes]
        said = sum(int(number[1]) for number in numbers if number)
        assert sum(len(joint.places) for joint in joining.screws) == said


def test_the_hardware_list_counts_every_screw() -> None:
    counted = screw_count(project(), project().cases)
    page = buying_page(project(), plans(), buying(project(), plans()))
    hardware = page["hardware"]
    assert isinstance(hardware, list)
    listed = sum(int(line["count"]) for line in hardware if "screws" in line["name"])
    joints = (j for case in project().cases for step in joinings(project(), case) for j in step.screws)
    assert listed == counted.total() == sum(len(joint.places) for joint in joints)


def test_glue_is_told_in_the_shops_own_unit() -> None:
    (case,) = project_mm().cases
    joining = next(step for step in joinings(project_mm(), case) if step.glue)
    note = next(note for step in assembly_steps(project_mm(), case) for note in step.notes if "glue" in note)
    # 1 square inch is 6.4516 square centimetres exactly.
    assert f"{round(float(joining.glue) * 6.4516)} cm²" in note
