"""Twelve bays and eleven fixed shelves: no two parts or sizes share a name, and everything stays joined."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from casewright.casework.job import BackKind, Bay, CaseSpec, Construction
from casewright.casework.parts.features.pin_row import PinRow
from casewright.casework.parts.part import Role
from casewright.casework.project import Project, draw_up
from casewright.casework.size_names import tag
from casewright.jobfile.read.read_job import read_job
from casewright.jobfile.write.write_job import write_job
from casewright.workshop.holes.boring import level_findings
from samples import job, spec

SHELVES = Bay(fixed=(F(6),) * 11)
# Bay 1 has its eleventh clear height, bay 11 its first: written without a break both would be 111.
BAYS = (Bay(fixed=(F(6),) * 10 + (F(16),), adjustable=1), *(SHELVES,) * 9, Bay(fixed=(F(60),), adjustable=1))


def tall(mark: str = "B12") -> CaseSpec:
    return spec(mark, width=F(300), height=F(96), bays=(*BAYS, Bay(adjustable=3)))


@pytest.fixture(scope="module")
def project() -> Project:
    return draw_up(job(tall(), spec("W-3", width=F(24)), spec("W", width=F(24))))


def test_every_part_and_size_has_a_name_of_its_own(project: Project) -> None:
    case = project.cases["B12"]
    assert len(case.parts) == len({part.mark for part in case.parts})
    assert {"B12-F1-11", "B12-F11", "B12-F11-1", "B12-D11", "B12-F10-11"} <= set(project.parts)
    assert "B12-F111" not in project.parts
    of = project.sizes.of
    assert of(case.below(1, 11)) == F(16) and of(case.below(11, 1)) == F(60)
    assert of(case.below(1, 1)) == F(6)
    assert {room.bay: room.level for room in case.on_pins} == {1: 11, 11: 1, 12: 1}


def test_every_loop_still_closes(project: Project) -> None:
    for case in project.cases.values():
        for chain in case.chains:
            assert project.sizes.of(chain.gap) == project.sizes.of(chain.mate.gap), chain.name


def test_the_rows_of_bay_one_and_bay_eleven_are_told_apart(project: Project) -> None:
    rows = {
        (row.serves, row.name)
        for part in project.parts.values()
        for row in part.features
        if isinstance(row, PinRow) and part.case == "B12"
    }
    assert ((1, 11), "pins-1-11-right-front") in rows and ((11, 1), "pins-11-1-right-front") in rows
    assert level_findings(project) == ()


def test_a_case_marked_with_a_dash_is_not_taken_for_a_part_of_another(project: Project) -> None:
    assert project.parts["W-3-L"].case == "W-3" and project.parts["W-L"].case == "W"
    assert project.sizes.of(project.cases["W-3"].inside) == project.sizes.of("W-3.inside")


def test_the_job_reads_back_from_its_file(project: Project) -> None:
    again = draw_up(read_job(write_job(project.job)))
    assert list(again.parts) == list(project.parts)
    assert again.sizes.values == project.sizes.values


def test_strips_are_lettered_from_the_left_and_one_alone_is_not() -> None:
    made = Construction(back=BackKind.RABBET, strips=1)
    for bays, ends in ((1, [""]), (2, ["a", "b"]), (54, ["a", "b", "z", "aa", "ab", "az", "ba", "bb"])):
        cells = (Bay(),) * bays
        drawn = draw_up(job(spec(width=F(200), bays=cells, construction=made), construction=made))
        strips = [part.mark for part in drawn.parts.values() if part.role is Role.MOUNTING_STRIP]
        assert len(strips) == bays
        assert [mark for mark in strips if mark.removeprefix("B1-M1") in ends] == [f"B1-M1{e}" for e in ends]


def test_places_are_written_in_the_fewest_strokes() -> None:
    assert [tag(1, 1), tag(9, 9), tag(1, 11), tag(11, 1)] == ["11", "99", "1-11", "11-1"]
    tags = [tag(bay, level) for bay in range(1, 40) for level in range(1, 40)]
    assert len(tags) == len(set(tags))
