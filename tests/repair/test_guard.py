"""Look-alike sizes are named before the saw starts, and a wrong setting is caught at it."""

from __future__ import annotations

from fractions import Fraction as F

from casewright.casework.project import draw_up
from casewright.findings import Weight
from casewright.repair.prevention.cut_dimension import CutDimension
from casewright.repair.prevention.saw_check import Likeness, check_at_saw, look_alikes
from samples import job, spec


def test_sizes_an_inch_apart_are_named_with_both_sets_of_parts() -> None:
    project = draw_up(job(spec("B1", width=F(18)), spec("B2", width=F(19))))
    found = [alike for alike in look_alikes(project) if alike.likeness is Likeness.MARK_OFF]
    stretchers = next(alike for alike in found if "B1-SF" in alike.first + alike.second)
    assert {"B1-SF", "B2-SF"} <= set(stretchers.first + stretchers.second)
    assert abs(stretchers.sizes[0] - stretchers.sizes[1]) == 1
    assert stretchers.dimension is CutDimension.LENGTH
    assert stretchers.advice.startswith("Cut B2-")


def test_sizes_that_nobody_confuses_are_left_alone() -> None:
    project = draw_up(job(spec("B1", width=F(18)), spec("B2", width=F(30))))
    for alike in look_alikes(project):
        assert alike.sizes[0] != alike.sizes[1]
        assert abs(alike.sizes[0] - alike.sizes[1]) <= 1 or alike.likeness is Likeness.SWAPPED


def test_digits_the_other_way_round_are_named() -> None:
    project = draw_up(job(spec("B1", width=F(21) + F(23, 16)), spec("B2", width=F(12) + F(23, 16))))
    swapped = [alike for alike in look_alikes(project) if alike.likeness is Likeness.SWAPPED]
    assert any({alike.sizes[0], alike.sizes[1]} == {F(21), F(12)} for alike in swapped)


def test_the_saw_is_checked_against_the_plan_and_against_the_neighbours() -> None:
    project = draw_up(job(spec("B1", width=F(18)), spec("B2", width=F(19))))
    length = project.dimensions(project.parts["B1-SF"])[0]
    right = check_at_saw(project, "B1-SF", CutDimension.LENGTH, length + F(1, 100))
    assert (right.code, right.weight) == ("right", Weight.NOTE)
    other = check_at_saw(project, "B1-SF", CutDimension.LENGTH, length + 1)
    assert other.code == "other-part" and "B2-" in other.fix
    off = check_at_saw(project, "B1-SF", CutDimension.LENGTH, length - 1)
    assert off.code == "mark-off" and '1"' in off.fix
    wrong = check_at_saw(project, "B1-SF", CutDimension.LENGTH, length + F(3, 16))
    assert wrong.code == "wrong-size" and '3/16"' in wrong.fix
