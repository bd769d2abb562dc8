"""The picture of a step shows the edge, the cut and the holes where the setting puts them."""

from __future__ import annotations

import re
from io import StringIO

import pytest
from ezdxf.filemanagement import read

from casewright.casework.project import draw_up
from casewright.drawings.drawing_files import stick_dxf, stick_svg
from casewright.drawings.kit.pages import fit_to_room, full_size
from casewright.drawings.kit.scene import Disc, Words
from casewright.drawings.kit.svg import svg
from casewright.drawings.views.step_drawing import step_scene, stick_scene
from casewright.workshop.holes.boring import story_sticks
from casewright.workshop.operations import Machine
from casewright.workshop.work import work
from samples import job
from workshop.test_work import FULL_JOB, planned


def test_the_cut_lies_the_fence_s_distance_from_the_heavy_edge() -> None:
    project, _, done = planned(FULL_JOB)
    scene = step_scene(project, done.by_key["B1-L dado-bottom"])
    assert scene is not None
    (cut,), (fence,) = scene.shapes("cut"), scene.shapes("fence")
    assert max(x for x, _ in cut.points) == -4.0 and {x for x, _ in fence.points} == {0.0}
    assert min(x for x, _ in cut.points) == -4.0 - 23 / 32
    words = [item.text for item in scene if isinstance(item, Words)]
    assert "lower end" in words and "inside face down" in words and any("first" in word for word in words)


def test_holes_are_drawn_at_their_setback_and_every_picture_can_be_set() -> None:
    project, _, done = planned(FULL_JOB)
    seen = 0
    for step in done.operations:
        scene = step_scene(project, step)
        if scene is None:
            assert step.setting.machine not in (Machine.TABLE_SAW, Machine.DRILL)
            continue
        seen += 1
        assert svg(fit_to_room(scene, 320, 240)).startswith(b"<?xml")
        if step.setting.machine is Machine.DRILL:
            discs = [item for item in scene if isinstance(item, Disc)]
            assert len(discs) == step.holes
            assert {disc.centre[0] for disc in discs} == {-float(step.setting.distance)}
    assert seen > 20


def test_a_story_stick_prints_at_full_size() -> None:
    project = draw_up(job())
    assert work(project, {}).operations
    stick = story_sticks(project)[0]
    scene = stick_scene(stick, project.rule)
    holes = [item for item in scene if isinstance(item, Disc)]
    assert [disc.centre[0] for disc in holes] == [float(mark) for mark in stick.marks]
    placed = full_size(scene)
    (outline,) = scene.shapes("stick")
    assert max(x for x, _ in outline.points) / placed.point == pytest.approx(72 * float(stick.length))


def test_a_story_stick_is_a_drawing_file_at_full_size() -> None:
    project = draw_up(job())
    stick = story_sticks(project)[0]
    drawing = read(StringIO(stick_dxf(project, stick).decode()))
    circles = sorted(entity.dxf.center.x for entity in drawing.modelspace() if entity.dxftype() == "CIRCLE")
    assert circles == pytest.approx([float(mark) for mark in stick.marks])
    wide = re.search(rb'width="([0-9.]+)pt"', stick_svg(project, stick))
    assert wide is not None and float(wide[1]) >= 72 * float(stick.length)
