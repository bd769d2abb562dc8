"""What is in sight is one notion: fit and repairs agree on it, and a back's face has a rule of its own."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from casewright.casework.directions import Way
from casewright.casework.hidden_sides import is_hidden, shows_front_edge
from casewright.casework.job import BackKind, CaseKind, Construction, ToeKind
from casewright.casework.project import Project, draw_up
from casewright.tolerance.chains.gaps import gaps_of
from casewright.tolerance.chains.roles import GapRole, Sight
from samples import BASE, job, spec


def drawn(back: BackKind, kind: CaseKind = CaseKind.BASE) -> Project:
    made = replace(Construction(), back=back)
    return draw_up(job(spec(bays=BASE, kind=kind, construction=made)))


@pytest.mark.parametrize("back", [BackKind.GROOVE, BackKind.RABBET])
@pytest.mark.parametrize("kind", [CaseKind.BASE, CaseKind.WALL])
def test_a_gap_that_is_seen_is_at_parts_whose_front_is_seen(back: BackKind, kind: CaseKind) -> None:
    project = drawn(back, kind)
    gaps = [gap for gap in gaps_of(project) if gap.parts]
    seen = [gap for gap in gaps if gap.sight is not Sight.CONCEALED]
    assert len(seen) > 5
    for gap in seen:
        assert not any(is_hidden(project, project.parts[mark], Way.FRONT) for mark in gap.parts)
    matters = [gap for gap in gaps if gap.role not in (GapRole.CONCEALED, GapRole.OVERHANG)]
    for gap in matters:
        shown = all(shows_front_edge(project, project.parts[mark]) for mark in gap.parts)
        assert shown == (gap.sight is not Sight.CONCEALED), gap.name


def test_a_back_s_face_is_seen_inside_the_case_and_no_gap_at_its_edges() -> None:
    project = drawn(BackKind.GROOVE)
    back, side = project.parts["B1-K"], project.parts["B1-L"]
    assert not is_hidden(project, back, Way.FRONT) and is_hidden(project, back, Way.BACK)
    assert not shows_front_edge(project, back) and shows_front_edge(project, side)
    assert {gap.sight for gap in gaps_of(project) if "B1-K" in gap.parts} == {Sight.CONCEALED}


@pytest.mark.parametrize(
    ("kind", "toe", "lift", "hangs"),
    [
        (CaseKind.BASE, ToeKind.NOTCH, F(0), False),
        (CaseKind.BASE, ToeKind.NONE, F(40), True),
        (CaseKind.WALL, ToeKind.NONE, F(0), True),
        (CaseKind.WALL, ToeKind.NOTCH, F(0), False),
    ],
)
def test_what_is_seen_from_below_and_what_is_to_be_hung_are_the_same_cases(
    kind: CaseKind, toe: ToeKind, lift: F, hangs: bool
) -> None:
    """Regression: the bottom of a base case hung over a bench was out of sight, and a wall case that stands
    on its toe kick was to be given strips to hang by."""
    made = replace(Construction(), toe=toe, strips=0)
    project = draw_up(job(spec(kind=kind, construction=made, height=F(30), depth=F(12)), lift=lift))
    for mark in ("B1-B", "B1-L"):
        assert is_hidden(project, project.parts[mark], Way.DOWN) is not hangs
    told = [one for one in project.findings if one.code == "nothing-to-hang-by"]
    assert bool(told) is hangs


def test_a_rear_stretcher_is_out_of_sight_and_a_front_one_is_not() -> None:
    project = drawn(BackKind.GROOVE)
    assert not shows_front_edge(project, project.parts["B1-SB"])
    assert shows_front_edge(project, project.parts["B1-SF"])
