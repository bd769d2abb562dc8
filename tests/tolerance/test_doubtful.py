"""A reading that is a slip of the hand is asked about, and any that a cut may give is not."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casewright.casework.project import Project, draw_up
from casewright.lengths.length import Mark, Unit, parse_length
from casewright.tolerance.as_built.doubtful import DoubtfulReading, doubt_reading
from samples import SHEETS, job

INCHES = draw_up(job())
METRIC = draw_up(replace(job(), unit=Unit.MM, mark=Mark.HALF_MILLIMETRE))


def asked(project: Project, name: str, said: str, *others: str) -> DoubtfulReading | None:
    unit = project.job.unit
    earlier = [("ply.thickness", parse_length(one, unit)) for one in others]
    return doubt_reading(project, name, parse_length(said, unit), said, earlier)


@pytest.mark.parametrize(
    ("project", "name", "said", "text", "meant"),
    [
        (INCHES, "B1-L.length", "345", '34 1/2" was planned; 345 is ten times that.', "34 1/2"),
        (INCHES, "B1-L.length", "3.45", '34 1/2" was planned; 3.45 is a tenth of that.', "34 1/2"),
        (INCHES, "B1-L.length", "3447", "3447 is a hundred times that", "34.47"),
        (INCHES, "B1-L.length", "876.5", "876.5 is that in millimetres", "876.5 mm"),
        (METRIC, "B1-L.length", "34 1/2 in", "", ""),
        (METRIC, "B1-L.length", "34.5", "34.5 is that in inches", "34.5 in"),
        (INCHES, "B1-L.length", "80", "80 is more than twice that", ""),
        (INCHES, "B1-L.length", "17", "17 is less than half of that", ""),
        (INCHES, "B1.rising", "498.5", '49 7/8" was planned; 498.5 is ten times that.', "49.85"),
        (METRIC, "ply.thickness", "1.76", "cannot be a sheet of birch ply, sold as 19.05 mm", "17.6"),
        (METRIC, "ply.thickness", "0.695", "cannot be a sheet of birch ply", "0.695 in"),
        (INCHES, "ply.thickness", "17.6", "cannot be a sheet of birch ply", "17.6 mm"),
        (METRIC, "B1-L.thickness", "1.76", "cannot be a sheet of birch ply", "17.6"),
        (METRIC, "ply.thickness", "40", "cannot be a sheet of birch ply", ""),
    ],
)
def test_a_slip_is_told_with_what_was_likely_meant(
    project: Project, name: str, said: str, text: str, meant: str
) -> None:
    found = asked(project, name, said)
    if not text:
        assert found is None
        return
    assert found is not None and text in found.text and found.meant == meant and found.said == said
    if meant:  # what is offered raises no question of its own
        assert asked(project, name, meant) is None and f"Did you mean {meant}?" == found.finding.fix


def test_a_thickness_that_stands_apart_from_two_others_is_asked_about() -> None:
    found = asked(METRIC, "ply.thickness", "18.6", "17.6", "17.7")
    assert found is not None and "stands apart: the middle reading of birch ply is 17.70 mm" in found.text
    assert asked(METRIC, "ply.thickness", "18.6", "17.6") is None  # of two no one knows which is right
    assert asked(METRIC, "ply.thickness", "17.9", "17.6", "17.7") is None
    assert asked(METRIC, "B1-L.thickness", "18.6", "17.6", "17.7") is not None  # a part of the same sheet
    assert asked(METRIC, "B1-K.thickness", "5.5", "17.6", "17.7") is None  # and one of another


def test_the_readings_in_the_job_file_are_others_of_the_same_sheet() -> None:
    ply = replace(SHEETS["ply"], readings=(F("0.695"), F("0.697")))
    project = draw_up(replace(job(), sheets={**SHEETS, "ply": ply}))
    assert asked(project, "ply.thickness", "0.74") is not None
    assert asked(project, "ply.thickness", "0.70") is None


def test_a_small_size_a_little_off_and_a_size_of_no_job_raise_no_question() -> None:
    depth = INCHES.sizes.of("B1-L.groove-back.depth")
    assert doubt_reading(INCHES, "B1-L.groove-back.depth", depth + F(1, 8)) is None
    assert doubt_reading(INCHES, "B1-L.breadth", F(3)) is None


@given(st.sampled_from(sorted(INCHES.sizes.ledger)), st.fractions(F(-1, 8), F(1, 8)))
def test_no_size_read_as_a_saw_may_leave_it_is_asked_about(name: str, off: F) -> None:
    value = INCHES.sizes.of(name) + (off / 20 if name.endswith(".thickness") else off)
    assert doubt_reading(INCHES, name, value) is None
