"""Which sizes of a job may give way to a part as it was cut, and how much of that shows."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from casewright.casework.front_choices import Front, FrontKind
from casewright.casework.inputs import Sort, with_input
from casewright.casework.job import Bay, Filler, Job
from casewright.casework.project import Project, draw_up
from casewright.jobfile.read.read_job import read_job
from casewright.repair.facts import AsCut
from casewright.repair.price import Seen
from casewright.repair.ways import free_sizes
from casewright.repair.ways.free_sizes import (
    SizeChange,
    draw_up_or_none,
    fix_shared_widths,
    size_changes,
    with_shared_fixed,
)
from example_files import EXAMPLES
from samples import job, spec

SHORT = F(1, 4)


def two_cases() -> Job:
    return job(spec("B1"), spec("B2"), opening=F(74), left=Filler(F(2), F(1, 2), "ply"))


def changes(mark: str, length: F = F(0), width: F = F(0)) -> list[SizeChange]:
    """What may change when a part comes out so much longer and wider than drawn."""
    project = draw_up(two_cases())
    long, wide, _ = project.dimensions(project.parts[mark])
    return list(size_changes(project, mark, AsCut(long + length, wide + width)))


def said(change: SizeChange) -> dict[str, F]:
    return {one.name: one.new - one.old for one in change.inputs}


def test_how_much_an_inch_shows_is_our_judgement() -> None:
    assert free_sizes.IN_SIGHT == {
        Sort.WIDTH: 2,
        Sort.HEIGHT: 3,
        Sort.DEPTH: 2,
        Sort.FILLER: 1,
        Sort.BAY: 1,
        Sort.SHELF: 1,
    }
    assert free_sizes.CONSTRUCTION_IN_SIGHT == {"toe_height": 1, "toe_depth": 1}


def test_a_side_too_short_lowers_every_case_of_its_run_that_was_level_with_it() -> None:
    (lower,) = changes("B1-L", length=-SHORT)
    assert said(lower) == {"B1.height": -SHORT, "B2.height": -SHORT}
    assert lower.in_sight == 2 * SHORT * 3


def test_a_side_too_narrow_takes_every_case_back() -> None:
    found = [said(change) for change in changes("B1-L", width=-SHORT)]
    assert {"B1.depth": -SHORT, "B2.depth": -SHORT} in found


def test_a_bottom_too_short_makes_its_case_narrower_and_a_neighbour_or_the_filler_wider() -> None:
    found = [(said(change), change.in_sight) for change in changes("B1-B", length=-SHORT)]
    assert ({"B1.width": -SHORT, "B2.width": SHORT}, 2 * SHORT * 2) in found
    filler = next((name, shows) for name, shows in found if any("filler" in one for one in name))
    assert set(filler[0].values()) == {-SHORT, SHORT} and filler[1] == SHORT * (2 + 1)


def test_in_a_case_whose_bays_are_all_given_one_of_them_takes_up_the_change() -> None:
    """Else the bays would no longer add up, and no changed width could be drawn."""

    def with_bays(*bays: Bay) -> Project:
        filler = Filler(F(2), F(1, 2), "ply")
        return draw_up(job(spec("B1", bays=bays), spec("B2"), opening=F(74), left=filler))

    rest = with_bays(Bay(F(12)), Bay()).sizes.of("B1.bay2")
    project = with_bays(Bay(F(12)), Bay(rest))
    length, width, _ = project.dimensions(project.parts["B1-B"])
    found = list(size_changes(project, "B1-B", AsCut(length - SHORT, width)))
    for number in (1, 2):
        taken = {"B1.width": -SHORT, "B2.width": SHORT, f"B1.bay{number}": -SHORT}
        (change,) = (one for one in found if said(one) == taken)
        after = draw_up(change.apply(project.job))
        assert after.dimensions(after.parts["B1-B"])[0] == length - SHORT


@pytest.mark.parametrize(("narrow", "seen"), [(F(1, 2), Seen.NOTHING), (F(9, 16), Seen.DESIGN)])
def test_a_shelf_set_far_back_is_another_shelf_than_was_ordered(narrow: F, seen: Seen) -> None:
    found = changes("B1-A1", width=-narrow)
    back = [change.seen for change in found if said(change) == {"B1.shelf_setback": narrow}]
    assert back == [seen]


def test_a_part_off_in_both_directions_or_in_none_changes_nothing() -> None:
    assert changes("B1-L", length=-SHORT, width=-SHORT) == []
    assert changes("B1-L") == []


def test_shared_widths_are_written_out_before_one_is_changed() -> None:
    shared = draw_up(job(spec("B1", width=None), spec("B2", width=None), opening=F(61)))
    written = fix_shared_widths(shared)
    assert [case.width for case in written.runs[0].cases] == [
        shared.sizes.of("B1.width"),
        shared.sizes.of("B2.width"),
    ]


@pytest.mark.parametrize(("height", "stands"), [(F(69, 2), True), (F(3), False)])
def test_a_job_that_cannot_be_built_is_no_way(height: F, stands: bool) -> None:
    """3 in is lower than the toe kick."""
    assert (draw_up_or_none(job(spec(height=height))) is not None) is stands


def test_doors_below_a_drawer_follow_their_case_when_it_is_made_lower() -> None:
    """The drawer keeps its height, as it was given; what shares the rest takes what that is then."""
    closed = Bay(fronts=(Front(FrontKind.TWO_DOORS), Front(FrontKind.DRAWER, F(6))))
    project = draw_up(job(spec("B1", bays=(closed,))))
    lower = with_input(fix_shared_widths(project), "B1.height", F(67, 2))
    after = draw_up(lower)
    high = {mark: project.sizes.of(project.parts[mark].length) for mark in ("B1-DO1", "B1-DO2")}
    assert {mark: after.sizes.of(after.parts[mark].length) + 1 for mark in high} == high
    assert after.sizes.of(after.parts["B1-DF1"].width) == 6


@pytest.mark.parametrize("name", ["pottery-studio", "ferry-canteen", "school-workshop"])
def test_shared_widths_fixed_in_place_are_those_of_the_job_drawn_up_with_them(name: str) -> None:
    """Every part and feature comes out of the same inputs by the same factors."""
    project = draw_up(read_job((EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")))
    assert project.shared
    fixed, drawn = with_shared_fixed(project), draw_up(fix_shared_widths(project))
    assert fixed.job == drawn.job and fixed.parts.keys() == drawn.parts.keys()
    for mark, part in drawn.parts.items():
        same = fixed.parts[mark]
        forms = [part.length, part.width, *(size.form for one in part.features for size in one.sizes)]
        others = [same.length, same.width, *(size.form for one in same.features for size in one.sizes)]
        for form, other in zip(forms, others, strict=True):
            assert drawn.sizes.ledger.expand(form) == fixed.sizes.ledger.expand(other), mark
            assert drawn.sizes.of(form) == fixed.sizes.of(other), mark
    for run, other_run in zip(drawn.runs, fixed.runs, strict=True):
        assert run.run == other_run.run
        assert [case.spec for case in run.cases] == [case.spec for case in other_run.cases]
