"""Cases go together in an order that can be done, with joints that hold."""

from __future__ import annotations

import itertools
from dataclasses import replace
from fractions import Fraction as F
from math import isclose

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casework.solid_jobs import solid
from casewright.casework.directions import Axis
from casewright.casework.extents import case_diagonal, part_extent
from casewright.casework.job import BackKind, Bay, BottomJoint, CaseKind, Construction, ToeKind, TopKind
from casewright.casework.parts.features.channel import Channel
from casewright.casework.parts.part import Role
from casewright.casework.project import Project, draw_up
from casewright.findings import Weight
from casewright.lengths.length import MM, Unit
from casewright.packet.pages.assembly_steps import assembly_steps
from casewright.workshop.assembly.butt_joints import contact
from casewright.workshop.assembly.join_wording import IN_THE_MIDDLE, screw_groups
from casewright.workshop.assembly.joining import Stage, dry_fit_measures, glue_ups
from casewright.workshop.assembly.screws import PENETRATION, drill, screw_places, screw_through
from casewright.workshop.assembly.unscrewed import no_screw_findings
from casewright.workshop.operations import OperationKind
from casewright.workshop.work import shop_findings, work
from drawings import shown_jobs
from samples import BASE, job, spec
from strategies import constructions


def drawn(made: Construction) -> Project:
    return draw_up(job(spec("B1", construction=made, bays=BASE), construction=made))


@settings(deadline=None, max_examples=60)
@given(constructions)
def test_every_part_is_joined_once_but_for_what_stays_loose(made: Construction) -> None:
    project = drawn(made)
    joined = [mark for joining in glue_ups(project, "B1") for mark in joining.parts]
    loose = {m for m, part in project.parts.items() if part.role is Role.ADJUSTABLE_SHELF}
    assert len(joined) == len(set(joined)) and set(joined) | loose == set(project.parts)


@settings(deadline=None, max_examples=60)
@given(constructions)
def test_nothing_has_to_be_pushed_into_a_case_that_is_closed(made: Construction) -> None:
    """A part housed on its left and on its right joins no later than the second of the two; a back
    in grooves on all four sides joins no later than what closes them."""
    project = drawn(made)
    when = {mark: number for number, joining in enumerate(glue_ups(project, "B1")) for mark in joining.parts}
    housed: dict[str, set[str]] = {}
    for mate in project.cases["B1"].mates:
        if mate.axis is Axis.X and {mate.first.part, mate.second.part} <= set(when):
            for part, into in ((mate.first, mate.second), (mate.second, mate.first)):
                owner = project.parts[into.part]
                inside = project.sizes.of(into.at) != project.sizes.of(owner.end(mate.axis, into.looks))
                if inside:
                    housed.setdefault(part.part, set()).add(into.part)
    assert made.bottom is BottomJoint.BUTT or housed["B1-B"] == {"B1-L", "B1-R"}
    for mark, holders in housed.items():
        # A back goes in from above under stretchers, from behind into rabbets.
        free = mark == "B1-K" and (made.top is TopKind.STRETCHERS or made.back is BackKind.RABBET)
        if len(holders) == 2 and not free:
            assert when[mark] <= max(when[holder] for holder in holders), mark


def test_a_back_open_above_slides_in_and_an_applied_one_comes_last() -> None:
    stages = [joining.stage for joining in glue_ups(drawn(Construction()), "B1")]
    assert stages.index(Stage.BACK) == stages.index(Stage.SHELL) + 1
    applied = glue_ups(drawn(Construction(back=BackKind.APPLIED)), "B1")
    assert applied[-1].stage is Stage.BACK and applied[-1].diagonal is not None


def test_the_glue_of_a_dado_is_its_floor_and_both_walls() -> None:
    """By hand: a bottom 24 in deep and 23/32 thick in a dado 1/4 deep."""
    project = drawn(Construction(back=BackKind.APPLIED))
    depth = project.sizes.of("B1-B.width")
    area = sum(
        contact(project, mate)
        for mate in project.cases["B1"].mates
        if {mate.first.part, mate.second.part} == {"B1-B", "B1-L"} and "flush" not in mate.name
    )
    assert area == depth * (F(23, 32) + 2 * F(1, 4))


def test_the_diagonal_is_pythagoras() -> None:
    project = drawn(Construction())
    width, height = F(36), F(69, 2)
    assert isclose(case_diagonal(project, project.cases["B1"]) ** 2, width**2 + height**2)


def test_what_to_measure_dry_is_in_the_ledger_and_decides_the_back() -> None:
    project = drawn(Construction())
    measures = dry_fit_measures(project, "B1")
    names = {measure.name for measure in measures}
    assert {"B1.inside", "B1-L.groove-back.depth"} <= names
    for measure in measures:
        assert measure.expected == project.sizes.of(measure.name)
        channel = measure.name.split(".")
        if len(channel) == 3:
            assert isinstance(project.parts[channel[0]].feature(channel[1]), Channel)
    wider = project.given({"B1.inside": project.sizes.of("B1.inside") + F(1, 32)})
    assert wider.sizes.of("B1-K.width") == project.sizes.of("B1-K.width") + F(1, 32)


@pytest.mark.parametrize(
    ("thickness", "unit", "size", "length"),
    [
        (F(23, 32), Unit.INCH, "#8", F(7, 4)),
        (F(7, 32), Unit.INCH, "#6", F(5, 4)),
        (MM * 18, Unit.MM, "4", MM * 45),
        (MM * 6, Unit.MM, "3.5", MM * 30),
    ],
)
def test_a_screw_goes_six_diameters_in(thickness: F, unit: Unit, size: str, length: F) -> None:
    """NDS: least penetration 6 D; by hand 23/32 + 6 x 0.164 = 1.70, 7/32 + 6 x 0.138 = 1.05,
    18 + 6 x 4 = 42 mm, 6 + 6 x 3.5 = 27 mm."""
    screw = screw_through(thickness, unit)
    assert screw is not None and (screw.size, screw.length) == (size, length)
    assert screw.length - thickness >= PENETRATION * screw.diameter
    assert screw.pilot < screw.diameter < screw.clearance
    assert screw_through(F(3), unit) is None


def test_a_drill_is_said_by_its_own_size_never_by_the_rules_marks() -> None:
    """A pilot of 7/64 in, brought to a rule of 1/32 in, was printed as 1/8 in."""
    screws = [(screw_through(thick, unit), unit) for unit in Unit for thick in (F(1, 4), F(3, 4))]
    pilots = [drill(screw.pilot, unit) for screw, unit in screws if screw]
    assert pilots == ["1/16", "7/64", "2 mm", "2.5 mm"]


@given(st.fractions(F(1), F(96), max_denominator=32))
def test_screws_are_never_further_apart_than_the_spacing(run: F) -> None:
    places = screw_places(run)
    assert len(places) >= 2 and places[0] == run - places[-1] > 0
    assert all(0 < b - a <= 6 for a, b in itertools.pairwise(places))


def test_butt_joints_are_screwed_and_housed_ones_are_not() -> None:
    project = drawn(Construction())
    screwed = {(s.through, s.into) for joining in glue_ups(project, "B1") for s in joining.screws}
    assert ("B1-L", "B1-SF") in screwed and ("B1-L", "B1-B") not in screwed
    butt = drawn(replace(Construction(), bottom=BottomJoint.BUTT))
    screwed = {(s.through, s.into) for joining in glue_ups(butt, "B1") for s in joining.screws}
    assert ("B1-L", "B1-B") in screwed


def test_a_butt_joint_too_thick_for_any_screw_is_said_where_it_is_made() -> None:
    """A screw of 3 in, the longest, goes 3 - 6 x 0.164 = 2.016 in deep at most (NDS, 6 D behind it)."""
    assert screw_through(F(2), Unit.INCH) is not None and screw_through(F(65, 32), Unit.INCH) is None
    thin = drawn(replace(Construction(), bottom=BottomJoint.BUTT))
    assert no_screw_findings(thin) == ()
    thick = thin.given({"ply.thickness": F(65, 32)})
    joints = [joint for joining in glue_ups(thick, "B1") for joint in joining.unscrewed]
    assert ("B1-L", "B1-B") in {(joint.through, joint.into) for joint in joints}
    screwed = {joint.through for joining in glue_ups(thick, "B1") for joint in joining.screws}
    assert all(thick.sizes.of(thick.parts[mark].thickness) < 2 for mark in screwed)
    found = {finding.place: finding for finding in no_screw_findings(thick)}
    assert set(found) == {joint.through for joint in joints}
    assert found["B1-L"].weight is Weight.WARN and "B1-B" in found["B1-L"].text
    assert set(found.values()) <= set(shop_findings(thick))
    notes = [note for step in assembly_steps(thick, "B1", glue_ups(thick, "B1")) for note in step.notes]
    assert any(note.startswith("no screw goes through B1-L into B1-B") for note in notes)


def test_only_what_a_case_has_is_fitted_between_its_sides() -> None:
    """A wall case has strips and no toe kick: nobody is told to look for one."""
    base = {one.stage for one in glue_ups(draw_up(job(spec("B1", bays=BASE))), "B1")}
    assert {Stage.STRIPS, Stage.TOE_KICK} <= base
    hung = draw_up(
        job(spec("W1", kind=CaseKind.WALL, construction=Construction(toe=ToeKind.NONE), bays=BASE))
    )
    wall = {one.stage for one in glue_ups(hung, "W1")}
    assert Stage.STRIPS in wall and Stage.TOE_KICK not in wall


def divided() -> Project:
    """A wall case of two bays whose strips are cut at the divider, as its back in rabbets wants them."""
    made = Construction(top=TopKind.DADO, toe=ToeKind.NONE, back=BackKind.RABBET, strips=2)
    bays = (Bay(adjustable=1), Bay(adjustable=1))
    return draw_up(
        job(spec("W1", kind=CaseKind.WALL, height=F(30), depth=F(12), construction=made, bays=bays))
    )


def test_every_straight_screw_can_be_driven() -> None:
    """No part joined so far stands against the face that a straight screw is driven from, at its place."""
    project, joined = divided(), set[str]()
    turned = 0
    for joining in glue_ups(project, "W1"):
        boxes = {mark: part_extent(project, project.parts[mark]) for mark in {*joined, *joining.parts}}
        order = {joint.into: number for number, joint in enumerate(joining.screws)}
        for number, joint in enumerate(joining.screws):
            board, met = boxes[joint.through], boxes[joint.into]
            axis = project.parts[joint.through].lie.worked.axis
            if joint.behind:
                turned += 1
                assert boxes[joint.behind].shared(boxes[joint.through], Axis.Z) > 0
                continue
            near = met.low[axis.value] >= board.high[axis.value]
            for mark, box in boxes.items():
                later = mark in joining.parts and order.get(mark, 0) > number
                against = (
                    box.high[axis.value] == board.low[axis.value]
                    if near
                    else box.low[axis.value] == board.high[axis.value]
                )
                covers = against and all(box.shared(met, other) for other in Axis if other is not axis)
                assert later or not covers, (joint, mark)
        joined |= set(joining.parts)
    assert turned == 2, "the second strip at each of two heights"


def test_a_screw_that_would_stand_under_a_divider_is_put_beside_it() -> None:
    """The toe kick is screwed through the bottom, on which a divider stands in the middle."""
    project = draw_up(job(spec("B1", width=F(36), bays=(Bay(), Bay()))))
    (joint,) = [
        joint
        for joining in glue_ups(project, "B1")
        for joint in joining.screws
        if (joint.through, joint.into) == ("B1-B", "B1-TK")
    ]
    kick, divider = (part_extent(project, project.parts[mark]) for mark in ("B1-TK", "B1-D1"))
    low, high = (at - kick.low[0] for at in (divider.low[0], divider.high[0]))
    assert all(at <= low - F(1, 2) or at >= high + F(1, 2) for at in joint.places)
    assert any(high < at < high + 1 for at in joint.places) or any(low - 1 < at < low for at in joint.places)


def test_clamps_are_those_on_at_once() -> None:
    """By hand, 24 in deep: a bottom takes two, two stretchers one each at their own height; a bottom in the
    dados of sides counts in the glue-up that closes it, though it came in with the dividers."""
    plain = {one.stage: one.clamps for one in glue_ups(drawn(Construction()), "B1")}
    fixed = sum(part.role is Role.FIXED_SHELF for part in drawn(Construction()).parts.values())
    assert plain[Stage.SHELL].number >= 4 + 2 * fixed and plain[Stage.SHELL].cauls
    assert plain[Stage.TOE_KICK].number == 1 and not plain[Stage.TOE_KICK].cauls
    hung = {one.stage: one.clamps.number for one in glue_ups(divided(), "W1")}
    assert hung[Stage.INSIDE] == 2 and hung[Stage.SHELL] == 4 and hung[Stage.STRIPS] == 2


def test_what_closes_a_case_waits_for_its_back() -> None:
    """In every order that can be worked: whatever the joint, no glue closes a case before its back is cut."""
    made = work(shown_jobs.project(), shown_jobs.plans())
    order = [operation.key for operation in made.operations]
    for case in shown_jobs.project().cases.values():
        cuts = [one.key for one in made.by_part[f"{case.mark}-K"] if one.kind is not OperationKind.JOIN]
        assert cuts and max(map(order.index, cuts)) < order.index(f"{case.mark} shell")


@pytest.mark.parametrize("bays", [(Bay(fixed=(F(10),)),), (Bay(fixed=(F(10),)), Bay(fixed=(F(10),)))])
def test_a_solid_back_in_grooves_is_screwed_at_the_middle_of_its_width_only(bays: tuple[Bay, ...]) -> None:
    """Screws across its width would split it as it moves: each stands on the one line that stays where it is.
    A back of plywood has a row of them."""
    for material, single in (("thin-oak", True), ("thin", False)):
        project = draw_up(solid({"back": material}, bays=bays))
        back = part_extent(project, project.parts["B1-K"])
        screwed = [
            joint
            for joining in glue_ups(project, "B1")
            for joint in joining.screws
            if joint.through == "B1-K"
        ]
        assert screwed and all((len(joint.places) == 1) is single for joint in screwed)
        middle = (back.low[Axis.X.value] + back.high[Axis.X.value]) / 2
        for joint in screwed if single else ():
            into = part_extent(project, project.parts[joint.into])
            assert into.low[Axis.X.value] < middle < into.high[Axis.X.value]
            if into.high[Axis.X.value] - into.low[Axis.X.value] > 2:
                start = max(into.low[Axis.X.value], back.low[Axis.X.value])
                assert start + joint.places[0] == middle


def test_the_single_screw_says_where_it_goes() -> None:
    project = draw_up(solid({"back": "thin-oak"}))
    (step,) = (one for one in glue_ups(project, "B1") if one.stage is Stage.BACK)
    assert [group.how for group in screw_groups(step)] == [IN_THE_MIDDLE]
    assert [group.number for group in screw_groups(step)] == [2]
    alone = draw_up(replace(solid(), sheet_of={"B1-K": "thin-oak"}))
    (step,) = (one for one in glue_ups(alone, "B1") if one.stage is Stage.BACK)
    assert [group.how for group in screw_groups(step)] == [IN_THE_MIDDLE]
