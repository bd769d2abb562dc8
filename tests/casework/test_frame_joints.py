"""The joints of face frames: what they make of the rails, and that all of them go together as solids."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction as F

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.casework.directions import Axis
from casewright.casework.job import Bay, CaseSpec, FaceFrame, Filler
from casewright.casework.parts.features.channel import ChannelKind
from casewright.casework.parts.features.frame_joints import DowelPair, Mortise, Tenon
from casewright.casework.parts.part import FACE_FRAME, Role
from casewright.casework.project import Project, draw_up
from casewright.errors import JobError
from casewright.solids.bodies import assemble
from casewright.solids.solid_check import check_solids, near_pairs
from framed_jobs import JOINTS, framed
from samples import spec
from strategies import case_specs


def length(project: Project, mark: str) -> F:
    return project.dimensions(project.parts[mark])[0]


# What each end of a rail adds to the room between the stiles.
ADDED: dict[FaceFrame, Callable[[F, F], F]] = {
    FaceFrame.POCKET_SCREWS: lambda stile, tenon: F(0),
    FaceFrame.DOWELS: lambda stile, tenon: F(0),
    FaceFrame.MORTISE_AND_TENON: lambda stile, tenon: tenon,
    FaceFrame.HALF_LAPS: lambda stile, tenon: stile,
}


@settings(max_examples=60, deadline=None)
@given(
    st.sampled_from(JOINTS),
    case_specs("B1"),
    st.sampled_from([F(3, 2), F(7, 4), F(2)]),
    st.sampled_from([F(3, 2), F(2)]),
    st.sampled_from([F(3, 4), F(1)]),
)
def test_rails_stiles_and_joints_come_to_the_width_of_the_frame(
    joint: FaceFrame, one: CaseSpec, stile: F, rail: F, tenon: F
) -> None:
    try:
        project = draw_up(framed(joint, one, frame_stile=stile, frame_rail=rail, frame_tenon=tenon))
    except JobError:
        return
    wide = project.sizes.of(project.cases["B1"].outside)
    added = ADDED[joint](stile, tenon)
    assert length(project, "B1-RA1") == length(project, "B1-RA2") == wide - 2 * stile + 2 * added
    high = length(project, "B1-ST1")
    for part in project:
        if part.role is Role.MULLION:
            assert length(project, part.mark) == high - 2 * rail + 2 * ADDED[joint](rail, tenon)
    assert check_solids(project) == ()


def volume(project: Project) -> float:
    return sum(
        float(body.placed_solid().volume())
        for body in assemble(project).values()
        if body.part.role in FACE_FRAME
    )


@pytest.mark.parametrize("joint", JOINTS)
def test_a_frame_fills_its_outline_but_for_the_room_in_its_joints(joint: FaceFrame) -> None:
    """The wood of the members, measured on their solids, is that of a frame sawn from one board: less what a
    mortise is deeper than its tenon is long, and less the holes that dowels fill."""
    project = draw_up(framed(joint, spec(bays=(Bay(), Bay()))))
    wide, high = project.sizes.of(project.cases["B1"].outside), length(project, "B1-ST1")
    opening = (wide - 2 * F(3, 2)) * (high - 2 * F(3, 2)) - F(3, 2) * (high - 2 * F(3, 2))
    whole = (wide * high - opening) * F(3, 4)
    ends = 6
    missing = {
        FaceFrame.MORTISE_AND_TENON: ends * F(1, 16) * F(1, 4) * 1,
        FaceFrame.DOWELS: ends * 4 * F(314159, 100000) * F(3, 16) ** 2 * F(17, 16),
    }.get(joint, F(0))
    assert volume(project) == pytest.approx(float(whole - missing), rel=1e-6)


def test_a_rail_is_what_the_published_sum_says() -> None:
    """Rail = width - 2 stiles + 2 tongues: 14 in, 2 1/2 in, 3/8 in give 9 3/4 in (a cutter seller's page, of
    doors; the sum is the same for any tongue)."""
    made = framed(FaceFrame.MORTISE_AND_TENON, spec(width=F(14)), frame_stile=F(5, 2), frame_tenon=F(3, 8))
    assert length(draw_up(made), "B1-RA1") == F(39, 4)


def test_a_mortise_is_as_a_magazine_lays_it_out() -> None:
    """In stock 3/4 x 2 in: 1 1/2 in long, 1/4 in wide, a third of the thickness, 1 to 1 3/8 in deep, 1/16 in
    deeper than the tenon is long (WOOD magazine)."""
    project = draw_up(framed(FaceFrame.MORTISE_AND_TENON, spec(), frame_stile=F(2), frame_rail=F(2)))
    of = project.sizes.of
    (mortise, _) = (one for one in project.parts["B1-ST1"].features if isinstance(one, Mortise))
    (tenon, _) = (one for one in project.parts["B1-RA1"].features if isinstance(one, Tenon))
    assert (of(mortise.long), of(mortise.width)) == (F(3, 2), F(3, 4) / 3)
    assert F(1) <= of(mortise.depth) <= F(11, 8)
    assert of(mortise.depth) - of(tenon.long) == F(1, 16)
    assert (of(mortise.cheek), of(tenon.cheek), of(tenon.width)) == (F(1, 4), F(1, 4), F(1, 4))
    assert of(mortise.at) == of(tenon.shoulder) == F(1, 4)


def test_dowels_are_two_to_a_joint_and_half_as_thick_as_the_stock() -> None:
    """Two, so that the rail cannot turn (WOOD magazine, October 2019, p. 53); half the thickness (a trade
    adviser); 3/4 to 1 1/4 in into each piece, the figures of two pages, with 1/16 in for the glue."""
    project = draw_up(framed(FaceFrame.DOWELS, spec()))
    of = project.sizes.of
    for mark in ("B1-RA1", "B1-ST1"):
        pairs = [one for one in project.parts[mark].features if isinstance(one, DowelPair)]
        assert len(pairs) == 2
        for pair in pairs:
            assert of(pair.diameter) == F(3, 4) / 2 and of(pair.setback) == F(3, 8)
            assert F(3, 4) <= of(pair.depth) - F(1, 16) <= F(5, 4)
            assert of(pair.second) - of(pair.first) == F(3, 4)


@settings(max_examples=25, deadline=None)
@given(case_specs("B1"), st.sampled_from([F(3, 2), F(2)]))
def test_the_holes_of_a_dowel_are_in_one_line(one: CaseSpec, rail: F) -> None:
    """Every hole in an end meets one of the same size in an edge, mouth to mouth."""
    try:
        project = draw_up(framed(FaceFrame.DOWELS, one, frame_rail=rail))
    except JobError:
        return
    mouths: dict[tuple[F, ...], list[tuple[str, F, F]]] = {}
    for part in project:
        corner = project.corner(part)
        for bore in (
            bore for one in part.features if one.bench_joint for bore in one.bores(part, project.sizes)
        ):
            at = tuple(low + place for low, place in zip(corner, bore.mouth, strict=True))
            mouths.setdefault(at, []).append((bore.into.name, bore.radius, bore.depth))
    assert mouths
    for met in mouths.values():
        (way, radius, depth), (other, *same) = met
        assert {way, other} in ({"LEFT", "RIGHT"}, {"UP", "DOWN"}) and same == [radius, depth]


def test_half_laps_take_half_of_each_and_the_upright_lies_over_the_level() -> None:
    """Half the thickness of each (Noyes, joints 14 and 15)."""
    project = draw_up(framed(FaceFrame.HALF_LAPS, spec(bays=(Bay(), Bay()))))
    for part in (part for part in project if part.role in FACE_FRAME):
        for lap in part.channels:
            assert lap.kind is ChannelKind.LAP and project.sizes.of(lap.depth) == F(3, 8)
            assert lap.face.word == ("front" if part.role is Role.RAIL else "back")
    assert len(project.parts["B1-RA1"].channels) == 3


@settings(max_examples=25, deadline=None)
@given(st.sampled_from(JOINTS), case_specs("B1", F(30)), st.sampled_from([F(24), F(36)]))
def test_one_frame_over_two_cases_covers_them_from_end_to_end(
    joint: FaceFrame, one: CaseSpec, second: F
) -> None:
    """Rails run through, a mullion covers each divider and the pair of sides between: nothing overlaps."""
    made = framed(
        joint,
        one,
        replace(one, mark="B2", width=second),
        share=True,
        frame_stile=F(7, 4),
        frame_mullion=F(7, 4),
    )
    try:
        project = draw_up(made)
    except JobError:
        return
    both = sum((project.sizes.of(case.outside) for case in project.cases.values()), F(0))
    assert length(project, "B1-RA1") == both - F(7, 2) + 2 * ADDED[joint](F(7, 4), F(1))
    assert not [part for part in project if part.case == "B2" and part.role in FACE_FRAME]
    assert check_solids(project) == ()
    standing = [part for part in project if part.role is Role.DIVIDER or part.mark == "B1-R"]
    backed = sorted(
        project.corner(part)[0]
        + project.sizes.of(part.thickness) * (F(1, 2) if part.role is Role.DIVIDER else 1)
        for part in standing
    )
    mullions = [part for part in project if part.role is Role.MULLION]
    assert sorted(project.corner(part)[0] + F(7, 8) for part in mullions) == backed


def test_a_neighbour_that_was_measured_moves_the_frame() -> None:
    project = draw_up(framed(FaceFrame.POCKET_SCREWS, spec("B1"), spec("B2"), share=True))
    wider = project.given({"B2.inside": project.sizes.of("B2.inside") + F(1, 16)})
    assert length(wider, "B1-RA1") - length(project, "B1-RA1") == F(1, 16)


@pytest.mark.parametrize("joint", JOINTS)
def test_a_stile_at_a_wall_is_wider_by_the_gap_and_its_scribe(joint: FaceFrame) -> None:
    made = framed(joint, spec())
    run = replace(made.runs[0], gap=F(1, 2), opening=F(37), left_scribe=F(3, 8))
    project = draw_up(replace(made, runs=(run,)))
    left, right = (project.parts[f"B1-ST{number}"] for number in (1, 2))
    assert project.dimensions(left)[1] == F(3, 2) + F(1, 2) + F(3, 8)
    assert project.dimensions(right)[1] == F(3, 2)
    side = project.corner(project.parts["B1-L"])[0]
    assert side - project.corner(left)[0] == F(7, 8)
    assert check_solids(project) == ()
    assert project.given({"B1-ST1.scribe": F(1, 2)}).dimensions(left)[1] == F(5, 2)


def test_a_filler_beside_a_frame_of_its_neighbour_stands_flush_with_it() -> None:
    made = framed(FaceFrame.DOWELS, spec("B1"), spec("B2"), share=True)
    run = replace(made.runs[0], right=Filler(F(2), F(1, 2), "ply"), opening=F(74))
    project = draw_up(replace(made, runs=(run,)))
    filler, stile = project.parts["B2-FR"], project.parts["B1-ST2"]
    assert project.corner(filler)[1] == project.corner(stile)[1]
    assert project.corner(filler)[0] == project.corner(stile)[0] + project.sizes.of(stile.size(Axis.X))
    assert check_solids(project) == () and not any(
        {one.part.mark, other.part.mark} == {"B2-FR", "B1-ST2"}
        for one, other in near_pairs(list(assemble(project).values()))
    )
