"""The frame of a door as it is drawn: the groove in the edges of stiles and rails is seen and measured."""

from __future__ import annotations

from fractions import Fraction as F
from typing import Any

from casewright.casework.front_choices import DoorKind, Front, FrontKind
from casewright.casework.job import Bay, Construction
from casewright.casework.parts.cut_alike import cut_alike
from casewright.casework.parts.part import Role
from casewright.casework.project import Project, draw_up
from casewright.drawings.kit.pens import HEAVY, HIDDEN
from casewright.drawings.kit.scene import Dimension, DimensionAxis, Shape, Words
from casewright.drawings.views.joint_drawing import joint_scene, joint_sections
from casewright.drawings.views.part_drawing import part_scenes
from casewright.packet.pages.part_cards import joint_cards, worked_cards
from samples import job, spec


def framed_door() -> Project:
    made = Construction(door=DoorKind.FRAME_AND_PANEL)
    one = spec(width=F(20), bays=(Bay(fronts=(Front(FrontKind.DOOR),)),), construction=made)
    return draw_up(job(one, construction=made))


def test_a_groove_in_an_edge_is_a_broken_line_as_deep_as_it_is() -> None:
    project = framed_door()
    stile = next(part for part in project if part.role is Role.DOOR_STILE and "-DO1L" in part.mark)
    depth = float(project.sizes.of(stile.feature("groove-panel").sizes[2].form))
    for scene in part_scenes(project, stile):
        (groove,) = scene.shapes("groove-panel")
        ys = [y for _, y in groove.points]
        assert groove.pen is HIDDEN and max(ys) - min(ys) == depth
        words = [item.text for item in scene if isinstance(item, Words) and "groove" in item.text]
        assert words and all("deep" in text and text.endswith(" from the front face") for text in words)
        # It is measured from a face, which has no line of its own on that face.
        heavy = [item for item in scene if isinstance(item, Shape) and item.pen is HEAVY]
        assert not [line for line in heavy if line.name in ("front", "back")]


def test_the_section_of_a_groove_in_an_edge_has_both_faces_and_how_far_in_it_begins() -> None:
    project = framed_door()
    stile = next(part for part in project if part.role is Role.DOOR_STILE)
    (joint,) = (one for one in joint_sections(project).values() if stile.mark in one.marks)
    groove = stile.feature("groove-panel").channel
    assert groove is not None
    of = project.sizes.of
    lines = [item for item in joint_scene(joint, project.rule) if isinstance(item, Dimension)]
    spans = {(item.low, item.high) for item in lines if item.axis is DimensionAxis.ACROSS}
    near, far = of(groove.at), of(groove.at) + of(groove.width)
    assert spans == {(0, float(near)), (float(near), float(far)), (0, float(of(stile.thickness)))}
    (deep,) = (item for item in lines if item.axis is DimensionAxis.UP)
    assert deep.high - deep.low == float(of(groove.depth))


def test_a_card_says_that_the_groove_is_in_the_edge() -> None:
    project = framed_door()
    cards: Any = joint_cards(project)["joints"]
    assert [card["kind"] for card in cards.values()].count("groove in the edge") == 1
    every: Any = worked_cards(project, cut_alike(project))
    stiles = [card for card in every if "stile" in card["words"]]
    assert stiles and all(card["cuts"] for card in stiles)
