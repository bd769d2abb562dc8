"""Clearances measured on the solids, beside the gaps that the closing loops foretell."""

from __future__ import annotations

from fractions import Fraction as F
from random import Random

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from casewright.casework.directions import Axis, Way
from casewright.casework.job import Bay, CaseSpec, Construction
from casewright.casework.parts.features.channel import Channel, ChannelKind
from casewright.casework.project import Project, draw_up
from casewright.errors import JobError
from casewright.solids.bodies import Body, assemble
from casewright.solids.clearance import Clearance, clearance, faces_towards
from samples import BASE, job, spec
from strategies import case_specs


def facing(first: Body, second: Body, way: Way) -> tuple[Clearance, ...]:
    """Every clearance between a face of `first` that looks `way` and one of `second` that looks back.

    Only faces that overlap when seen along the axis, the largest overlap first; a negative gap
    says that `second` reaches into or past `first`.
    """
    found: list[Clearance] = []
    for here in faces_towards(first.shape, way):
        for there in faces_towards(second.shape, way.opposite):
            across = [axis.value for axis in Axis if axis is not way.axis]
            shift = [float(second.corner[axis] - first.corner[axis]) for axis in across]
            area = float((here.outline ^ there.outline.translate((shift[0], shift[1]))).area())
            if area > 0:
                apart = float(second.corner[way.axis.value]) + there.at
                apart -= float(first.corner[way.axis.value]) + here.at
                found.append(Clearance(apart * way.sign, area))
    return tuple(sorted(found, key=lambda clearance: -(clearance.area or 0.0)))


def test_a_panel_in_its_dado_faces_floor_and_walls() -> None:
    """By hand: dado 1/4 deep, play 1/64, groove for the back 1/4 deep in side and bottom."""
    project = draw_up(job(spec(construction=Construction(dado_play=F(1, 64))), construction=Construction()))
    project = project.given({"job.dado_play": F(1, 64)})
    bodies = assemble(project)
    left, bottom = bodies["B1-L"], bodies["B1-B"]
    ends = facing(bottom, left, Way.LEFT)
    assert [found.gap for found in ends] == [0]
    ply, groove = F(23, 32), F(15, 64)
    # The whole end but for the back's groove, which runs out through it.
    assert ends[0].area == pytest.approx(float(24 * ply - groove * F(1, 4)))
    above = facing(bottom, left, Way.UP)
    assert above[0].gap == pytest.approx(1 / 64)
    assert above[0].area == pytest.approx(float((24 - groove) / 4))


def test_the_faces_of_a_side_are_its_own_and_its_features() -> None:
    side = assemble(draw_up(job(spec(bays=BASE[1:]))))["B1-L"].shape
    thick = 23 / 32
    floors = [face.at for face in faces_towards(side, Way.RIGHT)]
    assert floors == pytest.approx([thick - 5 / 16, thick - 1 / 4, thick])  # pin holes, dado and groove, face
    assert [face.at for face in faces_towards(side, Way.LEFT)] == [0]
    assert faces_towards(side, Way.LEFT)[0].outline.area() == pytest.approx(34.5 * 24 - 3 * 4)


def cut_wrong(drawn: Project, random: Random) -> dict[str, F]:
    """Sizes of parts and features as a shop may have made them, up to 1/32 off."""
    made = {f"{part.mark}.{side}" for part in drawn for side in ("length", "width")}
    made |= {
        f"{part.mark}.{feature.name}.{size}"
        for part in drawn
        for feature in part.features
        if isinstance(feature, Channel)
        for size in ("at", "width", "depth")
        if size != "at" or feature.kind is not ChannelKind.RABBET
    }
    return {
        name: drawn.sizes.of(name) + F(random.randint(-31, 31), 1000)
        for name in sorted(made)
        if random.random() < 0.3
    }


@settings(deadline=None, max_examples=60)
@given(case_specs(), st.randoms(use_true_random=False))
def test_loops_leave_the_gaps_measured_on_the_solids_whatever_was_cut_wrong(
    drawn: CaseSpec, random: Random
) -> None:
    try:
        project = draw_up(job(drawn))
    except JobError:
        assume(False)
    built = project.given(cut_wrong(project, random))
    bodies = assemble(built)
    assert len(built.cases["B1"].chains) >= 2
    for chain in built.cases["B1"].chains:
        found = clearance(bodies, chain.mate, built.sizes)
        assert found is not None, chain.name
        assert found.gap == pytest.approx(float(built.sizes.of(chain.gap)), abs=1e-6), chain.name


def test_the_loop_that_fails_is_the_one_that_is_measured_open() -> None:
    """A front stretcher 1/10 short: its own loop opens by 1/10, all others stay closed."""
    project = draw_up(job(spec(bays=BASE)))
    built = project.given({"B1-SF.length": project.sizes.of("B1-SF.length") - F(1, 10)})
    bodies = assemble(built)
    open_by = {
        chain.name: found.gap - float(built.sizes.of(chain.mate.gap))
        for chain in built.cases["B1"].chains
        if (found := clearance(bodies, chain.mate, built.sizes)) is not None
    }
    assert {name: gap for name, gap in open_by.items() if abs(gap) > 1e-6} == pytest.approx(
        {"B1: B1-SF against B1-R": 0.1}
    )


def test_a_pin_level_with_a_dado_of_the_other_bay_still_carries_its_shelf() -> None:
    """Once the dado's wall was taken for the pin. The second hole is 8 up, its pin reaches 8 1/8."""
    made = Construction()
    level = (Bay(adjustable=1), Bay(fixed=(F(65, 8),)))
    project = draw_up(job(spec(height=F(22), construction=made, bays=level), construction=made))
    assert project.sizes.of("B1-A1.hole") == 2
    mate = next(mate for mate in project.cases["B1"].mates if mate.name == "B1: B1-A1 on its pins in B1-D1")
    bodies = assemble(project)
    divider = bodies["B1-D1"].shape
    height = float(project.sizes.of(mate.first.at))
    assert any(abs(face.at - height) < 1e-9 for face in faces_towards(divider, Way.UP))
    found = clearance(bodies, mate, project.sizes)
    assert found is not None and found.gap == pytest.approx(0) and found.area is None
