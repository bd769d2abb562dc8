"""Edged parts: the finished case is the same as a bare one, and only the panels are cut smaller."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.casework.directions import Way
from casewright.casework.edge_strips import edge_strips
from casewright.casework.extents import part_extent
from casewright.casework.job import Bay, CaseSpec, Construction, Edged, EdgesOf, Job, ToeKind
from casewright.casework.parts.part import Part, Role
from casewright.casework.project import Project, draw_up
from casewright.errors import JobError
from casewright.shop.edging import Edging, PutOn
from samples import job, spec
from strategies import case_specs

STRIP = Edging("maple", "maple strip", F(1, 4), F(96), F(7, 8))
EVERYTHING = Edged("maple", "maple")
FRONTS = {
    Role.LEFT_SIDE,
    Role.RIGHT_SIDE,
    Role.BOTTOM,
    Role.TOP,
    Role.FRONT_STRETCHER,
    Role.DIVIDER,
    Role.FIXED_SHELF,
    Role.ADJUSTABLE_SHELF,
}
"""The parts whose front edges are seen when the doors are open."""


def edged(one: CaseSpec, strip: Edging = STRIP, covered: Edged = EVERYTHING, **single: EdgesOf) -> Job:
    made = job(replace(one, edged=covered), construction=one.construction)
    marks = {mark.replace("_", "-"): edges for mark, edges in single.items()}
    return replace(made, edging={strip.key: strip}, edging_of=marks)


def drawn(made: Job) -> Project | None:
    try:
        return draw_up(made)
    except JobError:
        return None


def worked(project: Project, part: Part) -> tuple[object, ...]:
    """What the bench sees of a part that is edged first: its worked sizes and the places of its features."""
    sizes = [
        (feature.name, feature.edges, *(project.sizes.of(size.form) for size in feature.sizes))
        for feature in part.features
    ]
    x, y, z = project.corner(part)
    return (
        part.mark,
        *project.worked(part),
        (x, y - project.sizes.of(project.cases[part.case].front_strip), z),
        *sizes,
    )


def gaps(project: Project) -> list[F]:
    return [project.sizes.of(chain.gap) for chain in project.cases["B1"].chains]


@settings(max_examples=60, deadline=None)
@given(case_specs("B1"), st.sampled_from([F(1, 8), F(1, 4), F(19, 25)]))
def test_a_part_edged_first_is_worked_as_if_it_were_one_piece(one: CaseSpec, thick: F) -> None:
    bare = drawn(job(one, construction=one.construction))
    covered = drawn(edged(one, replace(STRIP, thickness=thick)))
    if bare is None or covered is None:
        assert bare is covered or covered is None
        return
    for mark, part in covered.parts.items():
        assert worked(covered, part) == worked(bare, bare.parts[mark])
        length, width, thickness = bare.dimensions(bare.parts[mark])
        taken = thick if part.role in FRONTS else F(0)
        assert covered.dimensions(part) == (length, width - taken, thickness)
    gaps = [
        [project.sizes.of(chain.gap) for chain in project.cases["B1"].chains] for project in (bare, covered)
    ]
    assert gaps[0] == gaps[1]


@settings(max_examples=60, deadline=None)
@given(case_specs("B1"), st.sampled_from([F(1, 8), F(1, 4)]))
def test_a_case_edged_last_is_a_shallower_one_with_a_strip_in_front(one: CaseSpec, thick: F) -> None:
    strip = replace(STRIP, thickness=thick, put_on=PutOn.AFTER_GLUE_UP)
    made = one.construction
    shallow = replace(
        made, toe_depth=made.toe_depth - thick, shelf_setback=max(F(0), made.shelf_setback - thick)
    )
    if made.shelf_setback < thick or made.toe_depth < thick:
        return
    bare = drawn(job(replace(one, depth=one.depth - thick, construction=shallow), construction=shallow))
    covered = drawn(edged(one, strip))
    if bare is None or covered is None:
        return
    for mark, part in covered.parts.items():
        assert worked(covered, part) == worked(bare, bare.parts[mark])
        # A loose shelf is edged by itself, whenever its case gets its strip.
        alone = part.role is Role.ADJUSTABLE_SHELF
        assert covered.worked(part)[1] - covered.dimensions(part)[1] == (thick if alone else 0)


def test_backs_stand_in_one_plane_whatever_is_glued_over_the_fronts() -> None:
    strip = replace(STRIP, put_on=PutOn.AFTER_GLUE_UP)
    covered, bare = replace(spec("B1"), edged=Edged("maple")), spec("B2")
    project = draw_up(replace(job(covered, bare), edging={"maple": strip}))

    def reach(mark: str) -> tuple[F, F]:
        box = part_extent(project, project.parts[mark])
        return box.low[1], box.high[1]

    assert reach("B1-L")[1] == reach("B2-L")[1] == 0
    assert reach("B1-L")[0] - strip.thickness == reach("B2-L")[0], "finished fronts are in one plane too"


def test_thin_edging_takes_nothing_off() -> None:
    bare, veneered = draw_up(job()), draw_up(edged(spec(), replace(STRIP, taken_off=False)))
    assert [veneered.dimensions(part) for part in veneered] == [bare.dimensions(part) for part in bare]
    assert len(edge_strips(veneered)) == len(edge_strips(draw_up(edged(spec())))) > 0


def test_single_parts_choose_their_own_edges() -> None:
    own = EdgesOf(front="maple", left="maple", right="maple")
    project = draw_up(edged(spec(), covered=Edged(shelf="maple"), B1_A1=own, B1_L=EdgesOf(lower="maple")))
    bare = draw_up(job())
    length, width, _ = bare.dimensions(bare.parts["B1-A1"])
    assert project.dimensions(project.parts["B1-A1"])[:2] == (length - F(1, 2), width - F(1, 4))
    side = project.parts["B1-L"]
    assert [edge.way for edge in side.edges] == [Way.DOWN]
    assert project.dimensions(side)[0] == bare.dimensions(bare.parts["B1-L"])[0] - F(1, 4)
    # Strips along the grain cover the ends of those across it.
    found = {strip.edge.way: strip.length for strip in edge_strips(project) if strip.part.mark == "B1-A1"}
    assert found == {Way.FRONT: length, Way.LEFT: width - F(1, 4), Way.RIGHT: width - F(1, 4)}


@pytest.mark.parametrize("put_on", PutOn)
def test_strips_are_as_long_as_the_edge_that_is_seen_when_they_go_on(put_on: PutOn) -> None:
    bays = (Bay(fixed=(F(10),)), Bay())
    made = edged(spec(bays=bays, construction=Construction(toe=ToeKind.NOTCH)), replace(STRIP, put_on=put_on))
    project = draw_up(made)
    found = {strip.part.mark: strip.length for strip in edge_strips(project)}
    of, case = project.sizes.of, project.cases["B1"]
    if put_on is PutOn.BEFORE_JOINTS:
        whole = {mark: project.worked(project.parts[mark])[0] for mark in found}
        assert found == whole
        return
    # A glued case, measured between its parts: a side down to its notch, a bottom from side to side.
    assert found["B1-L"] == F(69, 2) - F(4)
    assert found["B1-B"] == found["B1-SF"] == of(case.inside)
    assert found["B1-F11"] == of(case.bay(1))
    assert found["B1-D1"] == of(case.clear)


def test_a_case_that_is_measured_moves_the_panels_under_the_edging() -> None:
    project = draw_up(edged(spec()))
    shelf = project.parts["B1-A1"]
    thicker = project.given({"maple.thickness": F(5, 16)})
    assert project.dimensions(shelf)[1] - thicker.dimensions(shelf)[1] == F(1, 16)
    assert thicker.worked(shelf) == project.worked(shelf)
