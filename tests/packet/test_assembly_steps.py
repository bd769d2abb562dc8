"""Putting a case together: every fixed part in a step, every screw counted once, sizes from the ledger."""

from __future__ import annotations

import csv
import re
from collections import Counter
from dataclasses import replace
from fractions import Fraction as F
from io import StringIO
from typing import Any

import pytest

from casewright.casework.parts.part import Role
from casewright.casework.project import Project, draw_up
from casewright.drawings.kit.lettering import dimension_text
from casewright.lengths.quantities import weighed
from casewright.packet.csv_tables import buying_csv
from casewright.packet.pages.assembly_steps import AssemblyStep, assembly_steps
from casewright.packet.pages.buying_page import buying_page
from casewright.shop.machines import Carry
from casewright.workshop.assembly.joining import glue_ups
from casewright.workshop.hardware import hardware
from casewright.workshop.sheets.purchases import buying_list
from drawings.shown_jobs import plans, project, project_mm


def steps_of(project: Project, mark: str) -> tuple[AssemblyStep, ...]:
    return assembly_steps(project, mark, glue_ups(project, mark))


@pytest.mark.parametrize("mark", list(project().cases))
def test_each_part_is_brought_in_once(mark: str) -> None:
    steps = steps_of(project(), mark)
    assert steps[0].title == "dry fit"
    brought = Counter(part for step in steps for part in step.marks)
    assert brought == Counter(part.mark for part in project().cases[mark].parts)


@pytest.mark.parametrize("mark", list(project().cases))
def test_the_back_is_cut_before_any_glue_and_loose_things_come_last(mark: str) -> None:
    titles = [step.title for step in steps_of(project(), mark)]
    glued = [titles.index(joining.stage.value) for joining in glue_ups(project(), mark)]
    moved = titles.index("hanging" if mark.startswith("W") else "standing")
    assert titles[0] == "dry fit" and min(glued) > 0 and max(glued) < moved
    dry, *_ = steps_of(project(), mark)
    assert dry.notes == (f"then cut {mark}-K to that width, and try it before any glue",)
    words, planned = dry.measures[-1]
    assert words.startswith(f"{mark}-K wide: room + depths \u2212 ")
    assert planned == dimension_text(project().sizes.of(f"{mark}-K.width"), project().rule)
    assert all(titles.index(loose) > moved for loose in ("fillers", "loose shelves") if loose in titles)


def test_a_case_is_lifted_without_what_is_loose_and_by_two_over_the_shops_limit() -> None:
    """B1 by hand: its parts without shelf and filler at 2 lb the square foot, as blanks."""
    drawn = project()
    (note,) = next(step for step in steps_of(drawn, "B1") if step.title == "standing").notes
    kept = [part for part in drawn.cases["B1"].parts if part.role not in (Role.ADJUSTABLE_SHELF, Role.FILLER)]
    areas = (length * width for length, width, _ in map(drawn.dimensions, kept))
    pounds = sum(areas, F(0)) * 2 / 144
    assert note.startswith(weighed(pounds, drawn.job.unit))
    for alone, who in ((pounds, "one lifts it"), (pounds - 1, "two lift it"), (pounds / 2, " for two)")):
        carry = Carry(alone, drawn.job.shop.carry.length)
        other = draw_up(replace(drawn.job, shop=replace(drawn.job.shop, carry=carry)))
        (note,) = next(step for step in steps_of(other, "B1") if step.title == "standing").notes
        assert note.endswith(who)


@pytest.mark.parametrize("mark", list(project().cases))
def test_the_dry_fit_is_measured_against_the_ledger(mark: str) -> None:
    planned = [figure for _, figure in steps_of(project(), mark)[0].measures]
    assert planned[0] == dimension_text(project().sizes.of(f"{mark}.inside"), project().rule)


@pytest.mark.parametrize("mark", list(project().cases))
def test_screws_said_joint_by_joint_add_up(mark: str) -> None:
    """Joints that are told in one phrase must still come to the number of screws before it."""
    told_of = {step.title: step for step in steps_of(project(), mark)}
    for joining in glue_ups(project(), mark):
        step = told_of[joining.stage.value]
        for note in step.notes:
            found = re.match(r"(\d+) screws [^:]*: (.*)", note)
            if not found:
                continue
            told = 0
            for phrase in found[2].split("; "):
                words = re.match(r"(\d+) each through (.*) into (.*)", phrase)
                assert words
                each, through, into = words.groups()
                told += int(each) * len(through.split(", ")) * len(into.split(", "))
            assert told == int(found[1])
        numbers = [re.match(r"(\d+) screws", note) for note in step.notes]
        said = sum(int(number[1]) for number in numbers if number)
        assert sum(len(joint.places) for joint in joining.screws) == said


def test_the_hardware_list_counts_every_screw() -> None:
    glued = [step for case in project().cases for step in glue_ups(project(), case)]
    counted = hardware(project(), glued)
    page: Any = buying_page(project(), plans(), buying_list(project(), plans()), counted)
    listed = sum(int(line["count"]) for line in page["hardware"] if "screws" in line["name"])
    joints = (joint for step in glued for joint in step.screws)
    assert listed == sum(count for _, count in counted.screws) == sum(len(j.places) for j in joints)


def test_the_table_for_buying_counts_every_screw_too() -> None:
    glued = [step for case in project().cases for step in glue_ups(project(), case)]
    table = buying_csv(project(), buying_list(project(), plans()), hardware(project(), glued)).decode()
    rows = list(csv.DictReader(StringIO(table)))
    counted = sum(int(row["count"]) for row in rows if row["what"].startswith("wood screws"))
    assert counted == sum(len(joint.places) for step in glued for joint in step.screws) > 0


def test_glue_is_told_in_the_shops_own_unit() -> None:
    (case,) = project_mm().cases
    joining = next(step for step in glue_ups(project_mm(), case) if step.glue)
    note = next(note for step in steps_of(project_mm(), case) for note in step.notes if "glue for" in note)
    # 1 square inch is 6.4516 square centimetres exactly.
    assert f"{round(float(joining.glue) * 6.4516)} cm²" in note
