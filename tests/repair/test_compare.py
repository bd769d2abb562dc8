"""What becomes of a finished part when the job changes: each reason for making it again is seen alone."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from casewright.casework.inputs import with_input
from casewright.casework.project import Project, draw_up
from casewright.repair.facts import AsCut
from casewright.repair.ways.still_right import Verdict, judge
from samples import job, spec

BEFORE = draw_up(job(spec("B1", width=F(24))))


def changed(**inputs: F) -> Project:
    made = BEFORE.job
    for name, value in inputs.items():
        made = with_input(made, f"B1.{name}", value)
    return draw_up(made)


def cut(mark: str, worked: bool = False) -> AsCut:
    length, width, _ = BEFORE.dimensions(BEFORE.parts[mark])
    return AsCut(length, width, worked)


@pytest.mark.parametrize(
    ("inputs", "mark", "verdict"),
    [
        ({}, "B1-L", Verdict.RIGHT),
        ({"height": F(34)}, "B1-L", Verdict.TRIM),  # shorter
        ({"height": F(35)}, "B1-L", Verdict.REMAKE),  # longer than it is
        ({"depth": F(25)}, "B1-L", Verdict.REMAKE),  # wider than it is, no longer
        ({"depth": F(23)}, "B1-L", Verdict.TRIM),
        ({"stretcher_width": F(5)}, "B1-SF", Verdict.REMAKE),
        ({"stretcher_width": F(5)}, "B1-L", Verdict.RIGHT),
    ],
)
def test_size_alone_decides_while_nothing_is_cut_into_it(
    inputs: dict[str, F], mark: str, verdict: Verdict
) -> None:
    assert judge(BEFORE, changed(**inputs), mark, cut(mark)) is verdict


def test_a_worked_part_must_keep_every_feature_where_it_is() -> None:
    higher = changed(toe_height=F(9, 2))
    assert judge(BEFORE, higher, "B1-L", cut("B1-L")) is Verdict.RIGHT
    assert judge(BEFORE, higher, "B1-L", cut("B1-L", worked=True)) is Verdict.REMAKE


def test_a_worked_part_is_trimmed_only_where_nothing_is_measured_from() -> None:
    """The sides' dado and notch are measured from the lower end, the groove from the rear edge, the notch
    and the front pins from the front one: length may come off above, width nowhere."""
    shorter, shallower = changed(height=F(34)), changed(depth=F(23))
    assert judge(BEFORE, shorter, "B1-L", cut("B1-L", worked=True)) is Verdict.TRIM
    assert judge(BEFORE, shallower, "B1-L", cut("B1-L", worked=True)) is Verdict.REMAKE


def test_another_sheet_makes_another_part() -> None:
    thicker = BEFORE.given({"ply.thickness": F(3, 4)})
    length, width, _ = thicker.dimensions(thicker.parts["B1-TK"])
    assert judge(BEFORE, thicker, "B1-TK", AsCut(length, width)) is Verdict.REMAKE


def test_a_part_that_is_no_longer_asked_for_is_not_right() -> None:
    without = draw_up(
        replace(BEFORE.job, runs=(replace(BEFORE.job.runs[0], cases=(spec("B2", width=F(24)),)),))
    )
    assert judge(BEFORE, without, "B1-L", cut("B1-L")) is Verdict.REMAKE
