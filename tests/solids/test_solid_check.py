"""The solid check passes what fits, in every construction, and sees what does not."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from itertools import combinations

import pytest
from hypothesis import HealthCheck, assume, given, settings

from casewright.casework.job import BackKind, CaseSpec, Construction, Filler, Run
from casewright.casework.parts.features.channel import Channel
from casewright.casework.parts.part import Role
from casewright.casework.project import Project, draw_up
from casewright.errors import JobError
from casewright.findings import Finding, Weight
from casewright.solids.bodies import assemble
from casewright.solids.solid_check import check_solids, examine, near_pairs
from samples import BASE, job, spec
from strategies import case_specs


def codes(findings: tuple[Finding, ...]) -> set[str]:
    assert all(finding.text and finding.fix and finding.place for finding in findings)
    return {finding.code for finding in findings}


@settings(deadline=None, max_examples=60, suppress_health_check=[HealthCheck.filter_too_much])
@given(case_specs())
def test_every_construction_fits_is_seated_and_has_the_size_asked_for(drawn: CaseSpec) -> None:
    try:
        project = draw_up(job(drawn))
    except JobError:  # dados from both faces of a divider may be refused
        assume(False)
    seen = examine(project, assemble(project))
    assert seen.findings == ()
    assert seen.parts == len(project.parts)
    housed = any(isinstance(feature, Channel) for part in project for feature in part.features)
    assert (seen.pairs > 0) == housed
    assert len(seen.joints) == len(project.cases["B1"].mates)
    assert all(joint.measured is not None for joint in seen.joints)
    held = [joint.mate for joint in seen.joints if joint.measured is not None and joint.measured.area]
    # A box without back, strips and toe kick has the four joints of its corners; none has fewer.
    assert len(held) >= 4
    fast = {part.mark for part in project if part.role is not Role.ADJUSTABLE_SHELF}
    assert fast <= {surface.part for mate in held for surface in (mate.first, mate.second)}
    assert [outside.asked for outside in seen.outsides] == [drawn.width, drawn.depth, drawn.height]


def test_cases_of_a_run_touch_and_do_not_interfere() -> None:
    cases = (spec("B1", bays=BASE), spec("B2", depth=F(20)), spec("B3", width=F(24)))
    filler = Filler(F(1), F(1, 2), "ply")
    project = draw_up(job(*cases, opening=F(98), left=filler, right=filler))
    seen = examine(project, assemble(project))
    assert seen.findings == ()
    assert {outside.case for outside in seen.outsides} == {"B1", "B2", "B3"}


BASE_CASE = draw_up(job(spec(bays=BASE)))
MADE = {name: BASE_CASE.sizes.of(name) for name in BASE_CASE.sizes.ledger}

AS_BUILT = [
    ("bottom cut short", {"B1-B.length": -F(1, 8)}, {"outside-size"}),
    ("side cut short", {"B1-L.length": -F(1, 8), "B1-K.length": 0}, {"not-seated"}),
    ("stretcher cut long", {"B1-SF.length": F(1, 8)}, {"parts-interfere", "not-seated"}),
    ("stretcher cut short", {"B1-SF.length": -F(1, 8)}, {"not-seated"}),
    (
        "dado cut too deep for a bottom already cut",
        {"B1-L.dado-bottom.depth": F(1, 16), "B1-B.length": 0, "B1-SF.length": 0},
        {"parts-interfere", "not-seated", "outside-size"},
    ),
    ("dado cut too narrow", {"B1-D1.dado-F11.width": -F(1, 64)}, {"parts-interfere", "not-seated"}),
    ("notch cut too deep for its kick", {"B1-R.notch-toe.in": F(1, 4)}, set()),
]


@pytest.mark.parametrize(("words", "off", "expected"), AS_BUILT, ids=[words for words, _, _ in AS_BUILT])
def test_what_was_cut_wrong_is_seen(words: str, off: dict[str, F], expected: set[str]) -> None:
    built = BASE_CASE.given({name: MADE[name] + by for name, by in off.items()})
    found = codes(check_solids(built))
    assert expected <= found
    assert bool(found) == bool(expected)


def moved(project: Project, mark: str, x: F = F(0), y: F = F(0), z: F = F(0)) -> set[str]:
    bodies = assemble(project)
    return codes(examine(project, {**bodies, mark: bodies[mark].shifted(x, y, z)}).findings)


def test_a_part_out_of_its_place_is_seen() -> None:
    assert moved(BASE_CASE, "B1-F11", z=F(1, 16)) == {"parts-interfere", "not-seated"}
    assert moved(BASE_CASE, "B1-SB", y=-F(1, 100)) == {"not-seated"}
    assert moved(BASE_CASE, "B1-R", x=F(1, 1000)) == {"not-seated", "outside-size"}
    assert moved(BASE_CASE, "B1-SB", z=F(30)) >= {"not-seated", "outside-size"}


def test_a_part_whose_face_lies_beside_what_it_should_touch_is_seen() -> None:
    """Its height is right and its end in the right plane, yet nothing is there to meet it."""
    assert "no-contact" in moved(BASE_CASE, "B1-SF", y=-F(5))


def test_a_solid_without_its_dado_is_seen() -> None:
    bodies = assemble(BASE_CASE)
    plain = replace(bodies["B1-L"], shape=replace(bodies["B1-L"].shape, cuts=()))
    found = examine(BASE_CASE, {**bodies, "B1-L": plain})
    assert codes(found.findings) >= {"parts-interfere", "nothing-to-meet"}
    assert {(overlap.first, overlap.second) for overlap in found.overlaps} == {
        ("B1-L", "B1-B"),
        ("B1-L", "B1-K"),
        ("B1-L", "B1-F11"),
    }
    housed = next(overlap for overlap in found.overlaps if overlap.second == "B1-B")
    assert housed.volume == pytest.approx(float(F(1, 4) * F(23, 32) * 24 - F(1, 4) ** 2 * F(15, 64)))
    assert sorted(housed.size) == pytest.approx([1 / 4, 23 / 32, 24])


def test_a_shelf_on_pins_must_lie_on_its_pins() -> None:
    bodies = assemble(BASE_CASE)
    unbored = {mark: replace(body, shape=replace(body.shape, bores=())) for mark, body in bodies.items()}
    found = examine(BASE_CASE, unbored).findings
    assert codes(found) == {"nothing-to-meet"}
    assert {finding.place.split(", ")[1] for finding in found} == {"B1-A1", "B1-A2", "B1-A3"}


def test_a_fixed_shelf_at_the_height_of_a_strip_is_seen() -> None:
    made = Construction(back=BackKind.APPLIED, strips=1)
    tall = spec(height=F(40), construction=made, bays=(replace(BASE[1], adjustable=0, fixed=(F(31),)),))
    found = check_solids(draw_up(job(tall)))
    assert [(finding.code, finding.place, finding.weight) for finding in found] == [
        ("parts-interfere", "B1-F11, B1-M1", Weight.REFUSE)
    ]
    assert '34 9/16" x 23/32" x 23/32"' in found[0].text


def on_one_wall(lift: F) -> Project:
    base = job(spec("B1"))
    above = Run("above", F(36), (spec("W1", height=F(30), depth=F(12)),), lift=F(60))
    drawn = draw_up(replace(base, runs=(*base.runs, above)))
    return drawn.given({drawn.runs[1].lift.name: lift})


def test_wall_cases_hung_into_base_cases_are_seen() -> None:
    assert check_solids(on_one_wall(F(54))) == ()
    assert codes(check_solids(on_one_wall(F(30)))) == {"parts-interfere"}


def test_the_sweep_finds_the_pairs_that_trying_all_would_find_and_few_others() -> None:
    project = draw_up(job(*(spec(f"B{n}", bays=BASE) for n in range(1, 13))))
    bodies = list(assemble(project).values())
    found = {frozenset((one.part.mark, other.part.mark)) for one, other in near_pairs(bodies)}
    every = list(combinations(bodies, 2))
    share_room = {
        frozenset((one.part.mark, other.part.mark))
        for one, other in every
        if all(
            one.corner[axis] < other.far_corner[axis] and other.corner[axis] < one.far_corner[axis]
            for axis in range(3)
        )
    }
    assert found == share_room
    assert 12 < len(found) < len(every) / 50
