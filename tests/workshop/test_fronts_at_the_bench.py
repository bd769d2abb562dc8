"""Doors at the bench: cut after the dry fit, bored for their hinges, glued up flat, hung last."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from typing import Any

import pytest

from casework.solid_jobs import STOCK
from casewright.casework.front_choices import DoorKind, Front, FrontKind, FrontLie
from casewright.casework.job import Bay, Construction, FaceFrame, FittedWith, Job
from casewright.casework.parts.part import FRAMED_DOOR, FRONTS, Role
from casewright.casework.project import draw_up
from casewright.jobfile.catalogue import packaged_catalogue
from casewright.shop.hinges import plate_line
from casewright.workshop.assembly.joining import Stage, glue_ups
from casewright.workshop.batch_wording import BatchWriter
from casewright.workshop.channels.proving_words import proving_words
from casewright.workshop.hardware import HingeBought, hardware
from casewright.workshop.operations import Guide, Operation, OperationKind
from casewright.workshop.order.batches import order
from samples import job, spec
from workshop.worked_on_a_plan import worked

HINGES = {
    key: replace(packaged_catalogue().hinges[like], key=key)
    for key, like in (("cup", "full overlay"), ("half", "half overlay"), ("inset", "inset"))
}
DOOR, PAIR = Front(FrontKind.DOOR), Front(FrontKind.TWO_DOORS)


def doored(*fronts: Front, hinge: str = "cup", width: F = F(20), inside: Any = None, **made: Any) -> Job:
    construction = Construction(**made)
    one = spec(width=width, bays=(Bay(fronts=fronts, **(inside or {})),), construction=construction)
    plain = job(replace(one, fitted=FittedWith(hinge)), construction=construction)
    return replace(plain, hinges=HINGES)


@pytest.mark.parametrize("door", DoorKind)
def test_doors_are_cut_after_the_dry_fit_and_hung_last(door: DoorKind) -> None:
    project, done = worked(doored(PAIR, door=door))
    fronts = {part.mark for part in project if part.role in FRONTS}
    place = {step.key: number for number, step in enumerate(done.operations)}
    cuts = [step for step in done.operations if step.sizes and fronts >= {*step.parts}]
    assert cuts and all(place[step.key] > place["B1 dry fit"] for step in cuts)
    stages = [one.stage for one in glue_ups(project, "B1")]
    assert stages[-1] is Stage.FRONTS and (Stage.DOORS in stages) is (door is DoorKind.FRAME_AND_PANEL)
    bores = [step for step in done.operations if step.kind is OperationKind.BORE and step.feature == "cups"]
    assert len(bores) == 2 and all(place[step.key] < place["B1 hanging doors and fronts"] for step in bores)


def test_each_plate_is_level_with_its_cup_and_as_far_back_as_its_maker_says() -> None:
    project = draw_up(doored(DOOR))
    side, door = project.parts["B1-L"], project.parts["B1-DO1"]
    (cups,) = door.feature("cups").rows(project.sizes)
    plates = [feature for feature in side.features if feature.name.startswith("plate-")]
    rows = [row for feature in plates for row in feature.rows(project.sizes)]
    assert len(rows) == cups.number == 2
    up = [project.corner(door)[2] + hole for hole in cups.holes]
    assert [(row.first + row.last) / 2 for row in rows] == up
    assert {row.setback for row in rows} == {plate_line(HINGES["cup"], F(0))} == {37 / F("25.4")}
    # One maker's geometry: a cup 3 mm from the edge laps 3/4 in without a plate, and the plate takes 3 mm.
    lap = project.sizes.of("B1-L.thickness") - F(1, 16)
    edge = cups.setback - HINGES["cup"].cup / 2
    reach = HINGES["cup"].reach
    assert lap == reach + edge - HINGES["cup"].plate


@pytest.mark.parametrize(
    ("height", "width", "hinges"), [(F(30), F(15), 2), (F(60), F(15), 4), (F(84), F(18), 5)]
)
def test_a_door_has_the_hinges_that_the_charts_ask_for(height: F, width: F, hinges: int) -> None:
    """To 40, 60, 80 and 100 in high 2, 3, 4 and 5: a hinge maker's quick reference."""
    made = doored(DOOR, width=width)
    one = replace(made.runs[0].cases[0], height=height)
    project = draw_up(replace(made, runs=(replace(made.runs[0], cases=(one,)),)))
    found = hardware(project, ())
    door = project.sizes.of(project.parts["B1-DO1"].length)
    chart = next(number for number, most in ((2, 40), (3, 60), (4, 80), (5, 100)) if door < most)
    assert found.hinges == ((HingeBought("cup hinge, full overlay", None), max(chart, found.hinges[0][1])),)
    assert found.hinges[0][1] >= chart and found.hinges[0][1] in (chart, hinges)


def test_plates_keep_clear_of_shelves_and_pins() -> None:
    """The shelf is where the lower plate would be: both hinges move, and the door's cups with them."""
    plain = draw_up(doored(DOOR))
    project = draw_up(doored(DOOR, inside={"fixed": (F(5, 2),)}))
    first = [one.sizes.of("B1-DO1.cups.first") for one in (project, plain)]
    assert 0 < abs(first[0] - first[1]) <= 1
    assert not [one for one in project.findings if one.code == "plate-at-a-shelf"]


def test_the_frame_of_a_door_is_cut_on_the_sled_and_glued_flat_without_its_panel() -> None:
    project, done = worked(doored(PAIR, door=DoorKind.FRAME_AND_PANEL))
    tongues = [step for step in done.operations if step.kind is OperationKind.TONGUE]
    rails = [part for part in project if part.role is Role.DOOR_RAIL]
    assert len(tongues) == 4 * len(rails) and {step.setting.guide for step in tongues} == {Guide.STOP}
    (glued,) = [one for one in glue_ups(project, "B1") if one.stage is Stage.DOORS]
    assert {project.parts[mark].role for mark in glued.parts} == FRAMED_DOOR
    # Eight shoulders, each as large as its rail's end less the tongue's thickness is thick.
    thick, wide = project.sizes.of(rails[0].thickness), project.sizes.of(rails[0].width)
    assert 0 < glued.glue <= 8 * thick * wide
    (hung,) = [one for one in glue_ups(project, "B1") if one.stage is Stage.FRONTS]
    assert hung.parts == ("B1-DO1L", "B1-DO2R") and not hung.glue and not hung.screws


def test_nothing_is_bored_behind_a_face_frame_but_the_doors() -> None:
    lap: dict[str, Any] = {"fronts": FrontLie.PARTIAL_OVERLAY, "front_lap": F(3, 4)}
    project = draw_up(doored(PAIR, frame=FaceFrame.POCKET_SCREWS, **lap))
    bored = {part.mark for part in project for one in part.features if "hinge" in one.kind_words}
    assert bored == {"B1-DO1", "B1-DO2"}


def test_doors_in_a_frame_are_cut_and_hung_once_it_is_on() -> None:
    project, done = worked(doored(PAIR, frame=FaceFrame.POCKET_SCREWS, fronts=FrontLie.INSET, hinge="inset"))
    place = {step.key: number for number, step in enumerate(done.operations)}
    fronts = {part.mark for part in project if part.role in FRONTS}
    cuts = [step for step in done.operations if step.sizes and fronts >= {*step.parts}]
    # What the frame is cut from after them on the same sheet cannot wait for it.
    waiting = [step for step in cuts if "B1 face frame" in step.after]
    assert waiting and all(place[step.key] > place["B1 face frame"] for step in waiting)
    last = {mark: max(place[step.key] for step in cuts if mark in step.parts) for mark in fronts}
    assert any(at > place["B1 face frame"] for at in last.values())
    assert place["B1 hanging doors and fronts"] > place["B1 face frame"]


def test_a_groove_in_the_middle_of_an_edge_is_cut_from_both_faces_on_one_setting() -> None:
    """A maker turns the piece instead of moving the fence: an error in its distance then changes the width
    of the groove and not its place. Common practice, no source."""
    project, done = worked(doored(DOOR, door=DoorKind.FRAME_AND_PANEL))
    passes: dict[str, list[Operation]] = {}
    for step in done.operations:
        if step.feature == "groove-panel":
            passes.setdefault(step.piece, []).append(step)
    assert len(passes) == 4
    for piece, (first, second) in passes.items():
        part, groove = project.parts[piece], project.parts[piece].feature("groove-panel").channel
        assert groove is not None
        assert first.setting == second.setting and first.setting.distance == project.sizes.of(groove.at)
        assert [step.hold.against for step in (first, second)] == ["front face", "rear face"]
        assert first.hold.down == second.hold.down and first.hold.leads != second.hold.leads
        # The second cut's far side from the front face is the far wall of the groove.
        far = project.sizes.of(part.thickness) - second.setting.distance
        assert far == project.sizes.of(groove.at) + project.sizes.of(groove.width)
    batches = [one for one in order(done.operations).batches if one.operations[0].feature == "groove-panel"]
    (text,) = (BatchWriter(project).batch_text(one) for one in batches)
    assert any(hint.startswith("Two passes on this setting") for hint in text.hints)
    assert not any("move the fence" in hint for hint in text.hints)
    step = batches[0].operations[0]
    assert "of the same sheet" in proving_words(project, step)
    sawn = replace(project, job=replace(project.job, sheets=dict.fromkeys(project.job.sheets, STOCK["oak"])))
    assert "planed with the parts" in proving_words(sawn, step)
