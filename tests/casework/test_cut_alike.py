"""Parts cut alike: every part in one group, equals together and no others, on one list for everybody."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from fractions import Fraction as F

from hypothesis import given, settings
from hypothesis import strategies as st

from casework.drawer_jobs import SLIDES, with_drawers
from casewright.casework.front_choices import DrawerBottom, DrawerJoint
from casewright.casework.job import Bay, Construction, TopKind
from casewright.casework.parts.cut_alike import cut_alike, within_case
from casewright.casework.parts.part import Hand, Role
from casewright.casework.project import draw_up
from samples import job, spec


@settings(deadline=None)
@given(st.lists(st.sampled_from([F(24), F(30), F(36)]), min_size=1, max_size=4), st.integers(0, 3))
def test_groups_hold_every_part_once_and_only_equals(widths: list[F], shelves: int) -> None:
    specs = [spec(f"B{n}", width=width, bays=(Bay(adjustable=shelves),)) for n, width in enumerate(widths, 1)]
    proj = draw_up(job(*specs))
    found = cut_alike(proj)
    assert Counter(mark for group in found for mark in group.marks) == Counter(list(proj.parts))
    for group in found:
        assert len({proj.dimensions(part) for part in group.parts}) == 1
        assert len({part.material for part in group.parts}) == 1
        assert len({len(part.features) for part in group.parts}) == 1
    sides = [group for group in found if group.first.hand is not Hand.NONE]
    # Cases differ in width only, so all their sides are alike: one group, half of it left.
    assert len(sides) == 1 and len(sides[0].of_hand(Hand.LEFT)) == len(widths) == sides[0].count / 2


def test_sides_bored_unlike_are_no_pair() -> None:
    """Regression: with shelves in one bay only, left and right side differ and need a drawing each."""
    proj = draw_up(job(spec(bays=(Bay(adjustable=2), Bay()))))
    sides = [group for group in cut_alike(proj) if group.first.hand is not Hand.NONE]
    assert [group.count for group in sides] == [1, 1]
    assert all(group.pair is None for group in sides)


def test_one_size_worked_otherwise_is_another_line() -> None:
    """Regression: the list of the terminal put sides with other dados and other holes on one line."""
    proj = draw_up(job(spec("B1", bays=(Bay(adjustable=1),)), spec("B2", bays=(Bay(fixed=(F(10),)),))))
    sides = [group for group in cut_alike(proj) if group.first.hand is not Hand.NONE]
    assert [group.marks for group in sides] == [("B1-L", "B1-R"), ("B2-L", "B2-R")]
    assert len({(group.length, group.width, group.thickness) for group in sides}) == 1


def test_drawer_sides_dovetailed_at_other_heights_are_not_cut_alike() -> None:
    """Regression: over a bottom that slides in, the back's tails begin above its groove; the sides were on
    one line with those of a box whose back is as high as they are."""
    slid_in, joint = DrawerBottom.SLID_IN, DrawerJoint.THROUGH_DOVETAILS
    low = with_drawers(SLIDES["side mount"], drawer_bottom=slid_in, drawer_joint=joint)
    (one,) = low.runs[0].cases
    full = replace(
        one, mark="B2", construction=replace(one.construction, drawer_bottom=DrawerBottom.ALL_ROUND)
    )
    two = replace(low, runs=(replace(low.runs[0], opening=F(72), cases=(one, full)),))
    proj = draw_up(two)
    sides = [group for group in cut_alike(proj) if group.first.role is Role.DRAWER_SIDE]
    assert [group.marks for group in sides] == [("B1-DL1", "B1-DR1"), ("B2-DL1", "B2-DR1")]
    assert len({(group.length, group.width, group.thickness) for group in sides}) == 1


def test_a_group_says_what_its_parts_are_in_few_words() -> None:
    proj = draw_up(job(spec("B1", construction=replace(Construction(), top=TopKind.STRETCHERS))))
    words = {mark: group.words for group in cut_alike(proj) for mark in group.marks}
    assert words["B1-L"] == words["B1-R"] == "side"
    assert words["B1-SF"] == words["B1-SB"] and words["B1-SF"].startswith("stretcher")
    uneven = draw_up(job(spec(bays=(Bay(adjustable=2), Bay()))))
    assert {g.words for g in cut_alike(uneven) if g.first.hand is not Hand.NONE} == {
        "left side",
        "right side",
    }


def test_the_list_goes_by_material_then_the_longest_and_a_case_has_its_share_of_it() -> None:
    proj = draw_up(job(spec("B1"), spec("B2", width=F(24))))
    groups = cut_alike(proj)
    assert [g.material for g in groups] == sorted((g.material for g in groups), key=["ply", "thin"].index)
    for material in ("ply", "thin"):
        sizes = [(-g.length, -g.width) for g in groups if g.material == material]
        assert sizes == sorted(sizes)
    for case in proj.cases.values():
        marks = [mark for group in within_case(groups, case.mark) for mark in group.marks]
        assert sorted(marks) == sorted(part.mark for part in case.parts)
