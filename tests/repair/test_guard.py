"""Look-alike sizes are named before the saw starts, and a wrong setting is caught at it."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

from casewright.casework.project import draw_up
from casewright.findings import Weight
from casewright.lengths.length import MM, Mark, Unit
from casewright.repair.prevention.cut_dimension import CutDimension
from casewright.repair.prevention.easily_turned import WrongTurn, easily_turned
from casewright.repair.prevention.saw_check import Likeness, check_at_saw, look_alikes
from samples import job, spec


def test_sizes_an_inch_apart_are_named_with_both_sets_of_parts() -> None:
    project = draw_up(job(spec("B1", width=F(18)), spec("B2", width=F(19))))
    found = [alike for alike in look_alikes(project) if alike.likeness is Likeness.INCH]
    stretchers = next(alike for alike in found if "B1-SF" in alike.first + alike.second)
    assert {"B1-SF", "B2-SF"} <= set(stretchers.first + stretchers.second)
    assert abs(stretchers.sizes[0] - stretchers.sizes[1]) == 1
    assert stretchers.dimension is CutDimension.LENGTH
    assert stretchers.advice.startswith("Cut B2-")


def test_a_job_in_millimetres_speaks_of_a_centimetre() -> None:
    made = job(spec("B1", width=450 * MM), spec("B2", width=460 * MM))
    found = look_alikes(draw_up(replace(made, unit=Unit.MM, mark=Mark.MILLIMETRE)))
    assert Likeness.CENTIMETRE in {alike.likeness for alike in found}
    assert "inch" not in Likeness.CENTIMETRE.value


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


def test_nearly_square_parts_are_named_where_their_grain_matters() -> None:
    project = draw_up(job(spec("B1", width=F(24))))
    square = [one for one in easily_turned(project) if one.how is WrongTurn.GRAIN]
    named = {mark for one in square for mark in one.first}
    sizes = {part.mark: project.dimensions(part)[:2] for part in project}
    assert named == {
        mark
        for mark, (length, width) in sizes.items()
        if abs(length - width) <= F(3, 8) and not project.may_turn(project.parts[mark])
    }
    assert "B1-A1" in named and all("arrow along the grain" in one.advice for one in square)


def test_a_left_and_a_right_are_named_where_no_turn_makes_one_the_other() -> None:
    [pair] = [one for one in easily_turned(draw_up(job(spec("B1")))) if one.how is WrongTurn.HAND]
    assert (pair.first, pair.second) == (("B1-L",), ("B1-R",))
