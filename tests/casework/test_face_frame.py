"""A face frame: its place over the box and its sizes, from the box as it stands."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casework.placed_boxes import boxes
from casewright.casework.job import Bay, CaseSpec, Construction, FaceFrame, Job, ToeKind
from casewright.casework.parts.part import FACE_FRAME, Role
from casewright.casework.project import draw_up
from casewright.errors import JobError
from samples import job, spec
from strategies import case_specs


def framed(one: CaseSpec, **made: Any) -> Job:
    construction = replace(one.construction, frame=FaceFrame.POCKET_SCREWS, **made)
    return job(replace(one, construction=construction), construction=construction)


@settings(max_examples=60, deadline=None)
@given(case_specs("B1"), st.sampled_from([F(1), F(3, 2), F(2)]), st.sampled_from([F(1), F(7, 4)]))
def test_the_frame_lies_on_the_front_of_its_box(one: CaseSpec, stile: F, rail: F) -> None:
    """By the places of the blanks alone: nothing overlaps, the box is covered to its edges, fronts are in one
    plane and the whole is as deep as was asked."""
    try:
        project = draw_up(framed(one, frame_stile=stile, frame_rail=rail))
    except JobError:
        return
    at = boxes(project)
    members = [part for part in project if part.role in FACE_FRAME]
    left, right, bottom = at["B1-L"], at["B1-R"], at["B1-B"]
    front, thick = left.low[1], project.sizes.of(members[0].thickness)
    for part in members:
        assert (at[part.mark].low[1], at[part.mark].high[1]) == (front - thick, front)
        for other in members:
            both = [at[part.mark].shared(at[other.mark], axis) for axis in list(type(part.lie.length))]
            assert other is part or not all(both), (part.mark, other.mark)
    assert (at["B1-ST1"].low[0], at["B1-ST2"].high[0]) == (left.low[0], right.high[0])
    assert at["B1-ST1"].high[2] == at["B1-RA2"].high[2] == left.high[2]
    assert at["B1-RA1"].high[2] == bottom.high[2] and at["B1-RA1"].low[2] == at["B1-ST1"].low[2]
    assert (at["B1-RA1"].low[0], at["B1-RA1"].high[0]) == (at["B1-ST1"].high[0], at["B1-ST2"].low[0])
    for part in (part for part in members if part.role is Role.MULLION):
        number = part.mark.removeprefix("B1-MU")
        divider, mullion = at[f"B1-D{number}"], at[part.mark]
        assert mullion.low[0] + mullion.high[0] == divider.low[0] + divider.high[0]
        assert (mullion.low[2], mullion.high[2]) == (at["B1-RA1"].high[2], at["B1-RA2"].low[2])
    assert -(front - thick) == project.sizes.of(project.cases["B1"].depth)


@settings(max_examples=30, deadline=None)
@given(case_specs("B1"))
def test_behind_the_frame_stands_a_shallower_case(one: CaseSpec) -> None:
    """All but the frame is what a job asks for whose depth and toe kick are less by its thickness."""
    thick = draw_up(job()).sizes.of("ply.thickness")
    made = one.construction
    shallow = replace(made, toe_depth=made.toe_depth - thick)
    bare = job(replace(one, depth=one.depth - thick, construction=shallow), construction=shallow)
    try:
        project, box = draw_up(framed(one)), draw_up(bare)
    except JobError:
        return
    for part in box:
        same = project.parts[part.mark]
        assert project.dimensions(same) == box.dimensions(part)
        sizes = [project.sizes.of(size.form) for feature in same.features for size in feature.sizes]
        assert sizes == [box.sizes.of(size.form) for feature in part.features for size in feature.sizes]


def test_a_box_that_was_measured_drives_its_frame() -> None:
    project = draw_up(framed(spec(bays=(Bay(), Bay()))))
    wider = project.given({"B1.inside": project.sizes.of("B1.inside") + F(1, 16)})
    grown = {
        mark: wider.dimensions(part)[0] - project.dimensions(part)[0]
        for mark, part in project.parts.items()
        if part.role in FACE_FRAME
    }
    assert grown == {"B1-ST1": 0, "B1-ST2": 0, "B1-RA1": F(1, 16), "B1-RA2": F(1, 16), "B1-MU1": 0}
    taller = project.given({"B1-L.length": project.sizes.of("B1-L.length") + F(1, 16)})
    assert taller.dimensions(project.parts["B1-ST1"])[0] - project.dimensions(project.parts["B1-ST1"])[
        0
    ] == F(1, 16)


@pytest.mark.parametrize("toe", [ToeKind.NOTCH, ToeKind.PLINTH])
def test_stiles_stand_past_the_sides_by_what_is_asked(toe: ToeKind) -> None:
    made = framed(spec(construction=Construction(toe=toe)), frame_past=F(1, 4))
    run = replace(made.runs[0], gap=F(1, 4), opening=F(73, 2))
    at = boxes(draw_up(replace(made, runs=(run,))))
    assert at["B1-L"].low[0] - at["B1-ST1"].low[0] == at["B1-ST2"].high[0] - at["B1-R"].high[0] == F(1, 4)
