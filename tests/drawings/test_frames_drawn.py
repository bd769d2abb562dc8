"""Face frames as they are drawn: over the cases they cover, and each joint where it is cut."""

from __future__ import annotations

from fractions import Fraction as F
from typing import Any

import pytest

from casewright.casework.job import Bay, FaceFrame
from casewright.casework.parts.cut_alike import cut_alike
from casewright.casework.parts.features.channel import ChannelKind
from casewright.casework.parts.part import FACE_FRAME, Role
from casewright.casework.project import Project, draw_up
from casewright.drawings.kit.pens import HIDDEN
from casewright.drawings.kit.scene import Scene, Shape, Words
from casewright.drawings.views.elevation import elevation
from casewright.drawings.views.joint_drawing import joint_sections
from casewright.drawings.views.part_dimensions import edge_distances
from casewright.drawings.views.part_drawing import part_scenes
from casewright.drawings.views.part_view import FaceView
from casewright.drawings.views.part_words import names_in_full
from casewright.drawings.views.room import walls
from casewright.packet.pages.part_cards import worked_cards
from framed_jobs import JOINTS, framed
from samples import spec


def drawn(joint: FaceFrame) -> Project:
    return draw_up(framed(joint, spec("B1"), spec("B2", bays=(Bay(), Bay())), share=True))


def seen_at(scene: Scene, x: float, y: float) -> str:
    """The name of what is drawn last at a place: what a looker sees there."""
    found = ""
    for item in scene:
        if isinstance(item, Shape) and item.name and item.closed and len(item.points) == 4:
            (left, low), (right, high) = min(item.points), max(item.points)
            if left < x < right and low < y < high:
                found = item.name
    return found


@pytest.mark.parametrize("joint", JOINTS)
def test_a_frame_over_two_cases_is_seen_over_both_and_uprights_over_rails(joint: FaceFrame) -> None:
    project = drawn(joint)
    (wall,) = walls(project)
    scene = elevation(wall)
    wide = float(sum(project.sizes.of(case.outside) for case in project.cases.values()))
    upright = {0.75: "B1-ST1", wide - 0.75: "B1-ST2", 36.0: "B1-MU1"}
    for x, mark in upright.items():
        assert seen_at(scene, x, 20.0) == mark
    assert seen_at(scene, 18.0, 34.0) == seen_at(scene, 60.0, 34.0) == "B1-RA2"
    # At a corner the stile is seen, whatever reaches under it; a mullion only where it is lapped over.
    assert seen_at(scene, 0.75, 34.0) == "B1-ST1"
    over = "B1-MU1" if joint is FaceFrame.HALF_LAPS else "B1-RA2"
    assert seen_at(scene, 36.0, 33.5) == over


def test_joints_in_ends_and_edges_are_broken_lines_where_they_are_cut() -> None:
    for joint in (FaceFrame.DOWELS, FaceFrame.MORTISE_AND_TENON):
        project = drawn(joint)
        for part in (part for part in project if part.role in FACE_FRAME):
            (scene,) = part_scenes(project, part)
            for feature in part.features:
                shapes = scene.shapes(feature.name)
                assert shapes and all(shape.pen is HIDDEN for shape in shapes)
    project = drawn(FaceFrame.MORTISE_AND_TENON)
    (scene,) = part_scenes(project, project.parts["B1-ST1"])
    (mortise,) = scene.shapes("lower-joint")
    assert (min(mortise.points)[0], max(mortise.points)[0]) == (0.25, 1.25)


def test_laps_are_measured_to_their_shoulders() -> None:
    """The shoulder is what the sled's stop is set by, at both ends; between, both walls from the left end."""
    project = drawn(FaceFrame.HALF_LAPS)
    rail = project.parts["B1-RA1"]
    view = FaceView(rail, rail.lie.worked, project.sizes)
    places = {(place.edge.word, place.distance) for place in edge_distances(view, names_in_full(project))}
    assert {("left", F(3, 2)), ("right", F(3, 2))} <= places
    laps = {project.sizes.of(lap.at) for lap in rail.channels} - {F(0)}
    assert {("left", at) for at in laps} <= places and len(laps) == 2
    (scene,) = part_scenes(project, rail)
    ends = [item.text for item in scene if isinstance(item, Words) and item.turn]
    assert sorted(text for text in ends if "END" in text) == ["LEFT END", "RIGHT END"]
    assert rail.role is Role.RAIL


def test_a_lap_has_no_section_at_full_size() -> None:
    """It is as wide as a rail; at full size it would leave no room on the page for what is cut."""
    project = drawn(FaceFrame.HALF_LAPS)
    assert joint_sections(project)
    assert not [one for one in joint_sections(project).values() if one.cut.kind is ChannelKind.LAP]
    cards: Any = worked_cards(project, cut_alike(project))
    (lapped,) = (card for card in cards if "B1-RA1" in card["marks"])
    (cut,) = lapped["cuts"]
    assert cut.startswith("half lap \u00b7 1") and "3/8 deep" in cut
