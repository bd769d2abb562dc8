"""Places to tap on a part's drawing lie where the feature or the edge is drawn."""

from __future__ import annotations

from xml.etree import ElementTree as ET

import pytest

from casewright.app.jobs.worked_job import open_job
from casewright.app.repair.report_form import part_form
from casewright.app.repair.spoiled_report import Report
from web_bench import JOB

Box = tuple[float, float, float, float]


def places(mark: str) -> dict[tuple[str, str], list[Box]]:
    form = part_form(open_job(JOB).needed(), None, Report(mark))
    assert form is not None
    found: dict[tuple[str, str], list[Box]] = {}
    for one in ET.fromstring(form.drawing.svg).iter("rect"):
        x, y, wide, tall = (float(one.attrib[name]) for name in ("x", "y", "width", "height"))
        assert one.findtext("title")
        key = (one.attrib["data-tap"], one.attrib["data-value"])
        found.setdefault(key, []).append((x, y, x + wide, y + tall))
    return found


@pytest.mark.parametrize("mark", ["B1-L", "B1-R", "B2-D1", "B1-B", "B1-K"])
def test_every_feature_and_every_side_of_a_face_can_be_tapped(mark: str) -> None:
    project = open_job(JOB).needed()
    part = project.parts[mark]
    found = places(mark)
    assert {value for kind, value in found if kind == "feature"} == {one.name for one in part.features}
    sides = {value for kind, value in found if kind == "side"}
    assert len([one for one in sides if one.endswith(" end")]) == 2
    assert len([one for one in sides if one.endswith(" edge")]) == 2


def test_a_side_lies_where_its_features_say() -> None:
    """The dado for the bottom is near the lower end, the groove for the back along the rear edge."""
    found = places("B1-L")
    [dado], [groove] = found["feature", "dado-bottom"], found["feature", "groove-back"]
    [lower], [upper] = found["side", "lower end"], found["side", "upper end"]
    [rear], [front] = found["side", "rear edge"], found["side", "front edge"]
    assert abs(dado[0] - lower[2]) < abs(dado[2] - upper[0])
    assert abs(groove[1] - rear[1]) < abs(groove[1] - front[3])


def test_a_finger_meets_a_row_of_holes() -> None:
    [row] = places("B1-L")["feature", "pins-12-right-front"]
    assert row[3] - row[1] > 10 and row[2] - row[0] > 30


def test_the_form_says_features_by_their_place_and_what_cannot_be_is_not_offered() -> None:
    form = part_form(open_job(JOB).needed(), None, Report("B1-L", wrong=("dado-F11:wrong end",)))
    assert form is not None and form.mirrored is not None
    rows = {row.name: row for row in form.features}
    assert rows["dado-bottom"].words == "dado, 4 from the lower end"
    assert [one.value for one in rows["dado-F11"].faults[0].hows if one.chosen] == ["dado-F11:wrong end"]
    said = Report("B1-L", wrong=("dado-F11:too near:1/32", "made of:thin", "dado-bottom::1/8"))
    told = part_form(open_job(JOB).needed(), None, said)
    assert told is not None
    near = {row.name: row for row in told.features}
    assert [one.words for one in near["dado-F11"].faults[0].hows if one.chosen] == [
        "out of place, too near the lower end"
    ]
    assert (near["dado-F11"].faults[0].by, near["dado-bottom"].faults[0].by) == ("1/32", "1/8")
    assert [one.value for one in told.materials if one.chosen] == ["made of:thin"]
    assert "notch-toe:other face" not in {one.value for one in rows["notch-toe"].faults[0].hows}
    back = part_form(open_job(JOB).needed(), None, Report("B1-K"))
    assert back is not None and back.mirrored is None and back.features == ()
