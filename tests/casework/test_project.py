"""A drawn-up job closes on itself, however its cases are put together."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.casework.directions import Way
from casewright.casework.job import BackKind, Bay, BottomJoint, CaseSpec, Construction, Filler, TopKind
from casewright.casework.parts.features.channel import Channel
from casewright.casework.parts.features.notch import Notch
from casewright.casework.parts.part import Hand
from casewright.casework.project import draw_up
from casewright.errors import JobError
from casewright.sizes.affine import NOTHING, total
from samples import BASE, job, spec
from strategies import constructions


@settings(deadline=None, max_examples=60)
@given(constructions, st.fractions(F(18), F(48), max_denominator=32))
def test_every_loop_closes_with_the_gap_its_joint_asks_for(made: Construction, width: F) -> None:
    project = draw_up(job(spec("B1", construction=made, width=width, bays=BASE), construction=made))
    case = project.cases["B1"]
    assert not case.placement.loose
    assert len(case.chains) > 5
    for chain in case.chains:
        assert project.sizes.of(chain.gap) == project.sizes.of(chain.mate.gap), chain.name
        assert chain.gap.names
    assert project.sizes.of(case.outside) == width


def test_a_loop_is_told_link_by_link_and_a_part_it_only_touches_is_no_link() -> None:
    case = draw_up(job(spec(bays=BASE))).cases["B1"]
    for chain in case.chains:
        assert total(link.step for link in chain.links) == chain.gap
        through = [link for link in chain.links if link.mate is None]
        assert through and all(link.step != NOTHING and link.part for link in through), chain.name
        assert any(link.mate for link in chain.links), chain.name


def test_a_shelf_lies_on_its_pins() -> None:
    """The first hole is 6 up, the holes 2 apart and 1/4 wide: a shelf lies on the upper side of its pin."""
    project = draw_up(job())
    floor = project.corner(project.parts["B1-B"])[2] + F(23, 32)
    above = project.corner(project.parts["B1-A1"])[2] - floor - 6
    assert above % 2 == F(1, 8)
    assert above == project.sizes.of("B1-A1.hole") + F(1, 8) and above // 2 == 4


def test_a_left_out_width_takes_what_the_opening_leaves() -> None:
    project = draw_up(
        job(
            spec("B1", width=F(24)),
            spec("B2", width=None),
            spec("B3", width=None),
            opening=F(97),
            left=Filler(F(1), F(1, 2), "ply"),
        )
    )
    widths = [project.sizes.of(f"{mark}.width") for mark in ("B1", "B2", "B3")]
    assert widths == [F(24), F(36), F(36)]
    assert project.sizes.of(project.runs[0].spare) == 0


def test_shared_widths_lie_on_the_rule_and_keep_their_sum() -> None:
    project = draw_up(job(*(spec(f"B{n}", width=None) for n in range(1, 8)), opening=F(100)))
    widths = [project.sizes.of(f"B{n}.width") for n in range(1, 8)]
    assert sum(widths) == 100
    assert all((width * 32).denominator == 1 for width in widths)
    assert max(widths) - min(widths) == F(1, 32)


def test_kick_height_is_where_the_dado_for_the_bottom_begins() -> None:
    """Common practice, no source: the notch's upper line is the dado's lower edge."""
    project = draw_up(job())
    left = project.parts["B1-L"]
    dado, notch = left.feature("dado-bottom"), left.feature("notch-toe")
    assert isinstance(dado, Channel) and isinstance(notch, Notch)
    assert dado.edge is Way.DOWN and project.sizes.of(dado.at) == 4
    assert project.sizes.of(notch.second) == project.sizes.of(dado.at)


def test_dados_are_set_to_the_measured_sheet_not_to_its_name() -> None:
    project = draw_up(job())
    dado = project.parts["B1-L"].feature("dado-bottom")
    assert isinstance(dado, Channel)
    assert project.sizes.of(dado.width) == F(23, 32)
    measured = project.given({"ply.thickness": F(71, 100)})
    assert measured.sizes.of(dado.width) == F(71, 100)


def test_the_right_side_is_the_left_one_in_a_mirror() -> None:
    project = draw_up(job(spec(bays=BASE[1:])))
    left, right = project.parts["B1-L"], project.parts["B1-R"]
    assert (left.hand, right.hand) == (Hand.LEFT, Hand.RIGHT)
    assert left.lie.worked is right.lie.worked.opposite
    compared = 0
    for feature in left.features:
        if isinstance(feature, Channel):
            twin = right.feature(feature.name)
            assert isinstance(twin, Channel)
            assert twin.face is feature.face.opposite and twin.edge is feature.edge
            a, b = feature.cut(left), twin.cut(right)
            thick = project.sizes.of(left.thickness)
            assert project.sizes.of(a.y.low) == project.sizes.of(b.y.low)
            assert project.sizes.of(a.z.high) == project.sizes.of(b.z.high)
            assert project.sizes.of(a.x.low) == thick - project.sizes.of(b.x.high)
            compared += 1
    assert compared == 2


def test_one_changed_input_works_out_only_what_depends_on_it() -> None:
    project = draw_up(job(*(spec(f"B{n}", bays=BASE) for n in range(1, 11))))
    changed = project.given({"B3.depth": F(23)})
    assert 5 < changed.sizes.worked < len(project.sizes.ledger) / 20
    again = draw_up(job(*(spec(f"B{n}", bays=BASE, depth=F(23) if n == 3 else F(24)) for n in range(1, 11))))
    assert dict(changed.sizes.values) == dict(again.sizes.values)


REFUSED = [
    ("toe-too-tall", spec(construction=Construction(toe_height=F(40)))),
    ("dado-too-deep", spec(construction=Construction(dado_depth=F(3, 4)))),
    ("shelves-too-high", spec(bays=(replace(BASE[0], fixed=(F(20), F(20))),))),
    ("not-positive", spec(width=F(-3))),
    ("no-room-inside", spec(construction=Construction(strips=0, back_inset=F(30)))),
    ("no-size", spec(construction=Construction(shelf_play=F(40)))),
    ("pins-too-deep", spec(construction=Construction(pin_depth=F(2)))),
    ("shelves-in-one-place", spec(height=F(22), bays=(Bay(adjustable=3),))),
    ("no-height-for-shelf", spec(height=F(22), bays=(Bay(fixed=(F(6),), adjustable=2),))),
    ("groove-at-the-edge", spec(construction=Construction(strips=0, back_inset=F(0)))),
    ("stretchers-too-wide", spec(depth=F(10), construction=Construction(stretcher_width=F(5)))),
]


@pytest.mark.parametrize(("code", "refused"), REFUSED, ids=[code for code, _ in REFUSED])
def test_impossible_cases_are_refused_by_name(code: str, refused: CaseSpec) -> None:
    with pytest.raises(JobError) as raised:
        draw_up(job(refused, opening=F(36), construction=refused.construction))
    assert code in {finding.code for finding in raised.value.findings}
    assert all(finding.text and finding.fix for finding in raised.value.findings)


def test_both_sides_of_a_butted_case_are_held_at_one_height() -> None:
    """Once the right side hung in the air: nothing but fixed shelves tied it to the left."""
    made = Construction(bottom=BottomJoint.BUTT, top=TopKind.STRETCHERS, back=BackKind.NONE, strips=0)
    project = draw_up(job(spec(construction=made, bays=(Bay(),)), construction=made))
    assert not project.cases["B1"].placement.loose
    assert project.corner(project.parts["B1-R"])[2] == project.corner(project.parts["B1-L"])[2]


def test_a_top_let_in_at_the_very_edge_lies_in_a_rabbet() -> None:
    """Once it lay in a dado without an upper wall."""
    made = Construction(top=TopKind.DADO, top_down=F(0))
    left = draw_up(job(construction=made)).parts["B1-L"]
    assert [feature.name for feature in left.features].count("rabbet-top") == 1


def test_shelves_on_pins_pass_the_strips_that_stand_before_the_back() -> None:
    """Once a shelf at the height of the middle strip ran into it."""
    widths = {}
    for back in (BackKind.APPLIED, BackKind.GROOVE):
        project = draw_up(job(spec(construction=Construction(back=back, strips=3))))
        shelf = project.sizes.of("B1-A1.width")
        widths[back] = project.sizes.of("B1.inside_depth") - shelf - F(1, 4)
    assert widths == {BackKind.APPLIED: F(23, 32), BackKind.GROOVE: 0}


def test_pin_holes_from_both_faces_of_a_divider_must_not_run_into_one_another() -> None:
    """Once the usual depth of 3/8 was bored from both faces of a divider 23/32 thick."""
    two_bays = (Bay(adjustable=1), Bay(adjustable=1))
    assert draw_up(job(spec(bays=two_bays))).findings == ()
    deep = Construction(pin_depth=F(3, 8))
    for bays, seen in ((two_bays, {"pins-meet"}), (two_bays[:1], set())):
        found = draw_up(job(spec(bays=bays, construction=deep), construction=deep)).findings
        assert {finding.code for finding in found} == seen
    # A fixed shelf 10 up lifts the second row's holes by 10 23/32 over the first one's: 23/32 past a hole.
    past = (Bay(adjustable=1), Bay(fixed=(F(10),), adjustable=1))
    assert draw_up(job(spec(bays=past, construction=deep), construction=deep)).findings == ()


def test_parts_of_the_marks_named_may_be_given_up() -> None:
    marks = frozenset({"B1-B", "B9-L"})
    project = draw_up(replace(job(), optional=marks))
    assert project.parts["B1-B"].optional and not project.parts["B1-L"].optional
    assert not project.parts["B1-A1"].optional, "a shelf on pins was ordered like any other part"
    (finding,) = project.findings
    assert (finding.code, finding.place) == ("no-such-part", "optional") and "B9-L" in finding.text


@pytest.mark.parametrize(
    ("measured", "part", "axis"),
    [
        ("B1-L.groove-back.depth", "B1-K", "width"),
        ("B1-R.groove-back.depth", "B1-K", "width"),
        ("B1-B.groove-back.depth", "B1-K", "length"),
        ("B1-T.groove-back.depth", "B1-K", "length"),
        ("B1-L.rabbet-top.depth", "B1-T", "length"),
        ("B1-R.rabbet-top.depth", "B1-T", "length"),
        ("B1-L.dado-bottom.depth", "B1-B", "length"),
        ("B1-R.dado-bottom.depth", "B1-B", "length"),
    ],
)
def test_a_depth_as_cut_goes_into_the_part_that_must_fit_it(measured: str, part: str, axis: str) -> None:
    """Each channel counts for itself: what one side's groove lacks, its fellow does not make up."""
    made = Construction(top=TopKind.RABBET)
    project = draw_up(job(spec("B1", construction=made), construction=made))
    shallow = project.given({measured: project.sizes.of(measured) - F(1, 32)})
    assert shallow.sizes.of(f"{part}.{axis}") == project.sizes.of(f"{part}.{axis}") - F(1, 32)


def test_bays_and_dividers_fill_the_case_from_side_to_side() -> None:
    """36 in outside: 34 9/16 inside, less two dividers of 23/32 leaves 33 1/8 for three bays; each divider
    stands against the back."""
    bays = (Bay(width=F(10)), Bay(), Bay())
    project = draw_up(job(spec(bays=bays)))
    widths = [project.sizes.of(f"B1.bay{n}") for n in (1, 2, 3)]
    assert widths == [F(10), F(370, 32), F(370, 32)] and sum(widths) == F(33) + F(1, 8)
    for number, before in ((1, F(10)), (2, F(10) + F(23, 32) + F(370, 32))):
        divider = project.parts[f"B1-D{number}"]
        assert project.corner(divider)[0] == F(23, 32) + before
        front_to_back = project.corner(divider)[1] + project.sizes.of(divider.width)
        assert front_to_back == project.corner(project.parts["B1-K"])[1]
    assert [mate.name for mate in project.cases["B1"].mates if "B1-D1" in mate.name and "B1-K" in mate.name]
