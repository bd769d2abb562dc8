"""Worktops: where they lie, what they weigh, how they are screwed, and what of that is drawn."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

from casewright.casework.job import CaseKind, Construction, Job, ToeKind, TopKind, Worktop
from casewright.casework.project import Project, draw_up
from casewright.casework.worktops import laid_worktops
from casewright.drawings.kit.scene import Dimension
from casewright.drawings.views.elevation import elevation
from casewright.drawings.views.room import walls
from casewright.workshop.assembly.worktop_step import worktop_step
from casewright.workshop.heavy_loads import heavy_loads
from finding_rows import told
from samples import job, spec

TOP = Worktop(F(3, 2), F(1), F(5))


def topped(top: Worktop = TOP, made: Construction | None = None) -> Project:
    """Two base cases, a tall one, and another base case: 34 1/2 in high, 24 in deep, 36 in wide."""
    made = made or Construction()
    plain: Job = job(
        spec("B1", construction=made),
        spec("B2", construction=made),
        spec("T1", kind=CaseKind.TALL, height=F(84)),
        spec("B3", construction=made),
        construction=made,
    )
    return draw_up(replace(plain, runs=(replace(plain.runs[0], worktop=top),)))


def words(project: Project, mark: str) -> str:
    step = worktop_step(project, mark)
    return step.words if step else ""


def test_it_lies_on_base_cases_side_by_side() -> None:
    """Over 72 in and 36 in, 24 in deep and 1 in in front of that, at 5 lb a square foot."""
    found = laid_worktops(topped())
    assert [one.marks for one in found] == [("B1", "B2"), ("B3",)]
    assert found[0].box.size == (F(72), F(25), F(3, 2)) and found[0].box.high[2] == 36
    assert [one.pounds for one in found] == [F(72 * 25 * 5, 144), F(36 * 25 * 5, 144)]
    assert [one.pounds for one in laid_worktops(topped(Worktop(F(1))))] == [None, None]


def test_the_last_case_under_it_says_when_it_goes_on_and_how() -> None:
    """Stretchers 23/32 in, and two thirds of 1 1/2 in: a screw of 1 23/32 in at most, so 1 1/2 in."""
    project = topped()
    assert [bool(worktop_step(project, mark)) for mark in project.cases] == [False, True, False, True]
    said = words(project, "B2")
    assert said.startswith("Once B1 and B2 stand level and fixed, lay the worktop on")
    assert '1" in front of the cases' in said and '36" above the floor' in said
    assert '#8 × 1 1/2"' in said and "two thirds of the worktop, 1 23/32" in said
    step = worktop_step(project, "B2")
    assert step and step.notes[0].startswith("the worktop 62 lb: ")


def test_a_screw_never_passes_two_thirds_of_the_top() -> None:
    """23/32 in and two thirds of 3/8 in is 31/32 in: 3/4 in is the longest."""
    assert '#8 × 3/4"' in words(topped(Worktop(F(3, 8))), "B3")
    assert "No standard screw stays" in words(topped(Worktop(F(1, 32))), "B3")
    assert "flush with the cases’ fronts" in words(topped(Worktop(F(1))), "B3")


def test_over_a_top_let_in_lower_down_the_screw_passes_packing_too() -> None:
    """A dadoed top 3/4 in below the ends of the sides: 3/4 in of packing is passed as well."""
    said = words(topped(made=Construction(top=TopKind.DADO, top_down=F(3, 4))), "B3")
    assert 'through the case’s top and packing 3/4" thick' in said and '#8 × 2"' in said


def test_its_height_is_drawn_and_counts_in_the_room_below_what_hangs() -> None:
    project = topped(Worktop(F(11, 8)))
    (wall,) = walls(project)
    figures = [one.text for one in elevation(wall).items if isinstance(one, Dimension)]
    assert "35\u20097/8" in figures
    hung = spec(
        "W1", kind=CaseKind.WALL, height=F(30), depth=F(12), construction=Construction(toe=ToeKind.NONE)
    )
    run = replace(project.job.runs[0], name="above", cases=(hung,), opening=F(36), lift=F(35), worktop=None)
    found = told(lambda: draw_up(replace(project.job, runs=(project.job.runs[0], run))))
    (shared,) = [one for one in found if one.code == "runs-share-room"]
    assert 'up to 35 7/8"' in shared.text and "35 7/8" in shared.fix


def test_a_heavy_one_stands_among_what_is_heavy() -> None:
    found = [one.what for one in heavy_loads(topped(), {}, ())]
    assert any(one.startswith("worktop on B1 and B2") for one in found)
