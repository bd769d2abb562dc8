"""A finding's place leads to the line it is about."""

from __future__ import annotations

import pytest

from casewright.casework.project import draw_up
from casewright.errors import JobError
from casewright.findings import Finding
from casewright.jobfile.read.locate import located
from casewright.jobfile.read.read_job import read_job

TEXT = """\
job = "porch"
unit = "in"
made_of = { case = "ply", back = "ply" }
[materials.ply]
sheet = "birch ply 18"
[[runs]]
name = "north"
opening = 60
left_filler = { width = 1 }
right_filler = { width = 2 }
[[runs.cases]]
mark = "W"
kind = "base"
[[runs.cases]]
mark = "W-3"
kind = "base"
[runs.cases.construction]
toe_height = 5
"""
LINES = TEXT.splitlines()


@pytest.mark.parametrize(
    ("place", "line"),
    [
        ("runs.north.opening", "opening = 60"),
        ("runs.north.left_filler.width", "left_filler = { width = 1 }"),
        ("runs.north.right_filler.width", "right_filler = { width = 2 }"),
        ("cases.W.kind", 'kind = "base"'),
        ("cases.W-3.toe_height", "toe_height = 5"),
        ("cases.W-3.mark", 'mark = "W-3"'),
        ("W-L.dado-bottom", "[[runs.cases]]"),
        ("made_of.back", 'made_of = { case = "ply", back = "ply" }'),
    ],
)
def test_a_place_leads_to_its_line(place: str, line: str) -> None:
    (found,) = located([Finding("any", place, "it is so.")], TEXT)
    assert found.line is not None
    assert LINES[found.line - 1] == line


def test_a_part_of_a_case_marked_with_a_dash_is_found_in_that_case() -> None:
    at_w, at_w3 = (
        located([Finding("any", place, "it is so.")], TEXT)[0].line for place in ("W-L.cup", "W-3-L.cup")
    )
    assert at_w is not None and at_w3 is not None
    assert LINES[at_w] == 'mark = "W"' and LINES[at_w3] == 'mark = "W-3"'


def test_a_case_called_job_may_not_have_a_construction_of_its_own() -> None:
    with pytest.raises(JobError) as refused:
        draw_up(read_job(TEXT.replace('"W-3"', '"job"')))
    assert [finding.code for finding in refused.value.findings] == ["mark-taken"]
    assert located(refused.value.findings, TEXT.replace('"W-3"', '"job"'))[0].line == 15
    plain = TEXT.replace('"W"', '"job"')
    assert "job-L" in draw_up(read_job(plain)).parts
