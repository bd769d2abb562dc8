"""Hung cases on their studs, and cut lines at full size: what stands where, on paper too."""

from itertools import pairwise
from math import isclose
from xml.etree import ElementTree

import pytest

from bearing.hung_jobs import changed, hung, on_studs
from casewright.app.jobs.worked_job import WorkedJob
from casewright.bearing.hanging_places import case_places
from casewright.bearing.scribe_sheets import scribe_sheets
from casewright.bearing.scribed_parts import ScribedPart
from casewright.drawings.drawing_files import scribe_svg
from casewright.drawings.kit.scene import Disc, Scene, Words
from casewright.drawings.views.hanging_view import hanging_pictures, hanging_scene, hung_case_scene
from casewright.drawings.views.scribe_drawing import scribe_sheet_scene
from casewright.lengths.length import Unit

STUDS = hung('framing = { kind = "wood studs", studs = [8, 24, 40, 54] }')


def scene(job: WorkedJob) -> Scene:
    borne = job.borne
    (one,), (told,) = borne.hangings, borne.hanging_sheet.rows
    return hanging_scene(one, case_places(borne.project, one), told, 0.2)


def test_every_screw_is_in_its_stud_and_every_case_on_the_level_line() -> None:
    drawn = scene(STUDS)
    screws = [item.centre for item in drawn if isinstance(item, Disc)]
    assert sorted({x for x, _ in screws}) == [8, 24, 40, 54] and len(screws) == 16
    assert all(54 < y < 84 for _, y in screws)
    for mark, left in (("W1", 2), ("W2", 32)):
        (outline,) = drawn.shapes(mark)[:1]
        assert outline.points[0] == (left, 54)
    ((start, end),) = (shape.points for shape in drawn.shapes("level line"))
    assert start[1] == end[1] == 54 and start[0] < 2 and end[0] > 62


def test_studs_carry_their_distance_from_the_walls_end() -> None:
    drawn = scene(STUDS)
    words = {item.text: item.at[0] for item in drawn if isinstance(item, Words)}
    assert [words[f'{at}"'] for at in (8, 24, 40, 54)] == [8, 24, 40, 54]
    (stud,) = drawn.shapes('stud 8"')
    assert (stud.points[0][0], stud.points[1][0]) == (7.25, 8.75)


def test_a_wall_that_is_not_known_has_its_cases_and_no_screws() -> None:
    drawn = scene(hung())
    assert not [item for item in drawn if isinstance(item, Disc)] and drawn.shapes("W1")


def test_the_picture_keeps_to_its_room() -> None:
    (placed,) = hanging_pictures(STUDS.borne, (520.0, 190.0))
    assert placed.wide <= 521 and placed.tall <= 191 and max(placed.wide / 520, placed.tall / 190) > 0.9


def only(job: WorkedJob) -> ScribedPart:
    (part,) = job.borne.scribed
    return part


def test_the_cut_line_is_drawn_at_full_size() -> None:
    """2 1/4, 2 1/2 and 2 in from the straight edge, at 72 points to the inch, 15 in apart."""
    root = ElementTree.fromstring(scribe_svg(only(on_studs('left_gaps = ["1/4", "1/2", 0]'))))
    lines = {
        one.get("data-name"): one.get("points") for one in root.iter("{http://www.w3.org/2000/svg}polyline")
    }
    cut = [tuple(map(float, point.split(","))) for point in (lines["cut"] or "").split()]
    edge = float((lines["straight"] or "").split()[0].split(",")[0])
    assert [round(edge - x, 1) for x, _ in cut] == [162, 180, 144]
    assert isclose(cut[0][1] - cut[1][1], 15 * 72, abs_tol=0.05)
    assert float((root.get("height") or "")[:-2]) >= 30 * 72


@pytest.mark.parametrize(("end", "way"), [("left", -1), ("right", 1)])
def test_the_wall_is_at_the_side_it_is_on(end: str, way: int) -> None:
    job = changed(on_studs(f'{end}_gaps = ["1/4", 0]'), ("left_filler", f"{end}_filler"))
    part = only(job)
    drawn = scribe_sheet_scene(part, scribe_sheets(part, Unit.INCH)[0], Unit.INCH)
    (cut,) = drawn.shapes("cut")
    assert cut.points[0] == (way * 2.25, 0.0)


def test_neighbouring_sheets_share_their_crosses_and_each_proves_its_scale() -> None:
    part = only(on_studs('left_gaps = ["1/4", 0]'))
    scenes = [scribe_sheet_scene(part, sheet, Unit.INCH) for sheet in scribe_sheets(part, Unit.INCH)]
    crosses = [{shape.points for shape in one.shapes("tape mark")} for one in scenes]
    for before, after in pairwise(crosses):
        assert len(before & after) == 4, "two crosses of two lines each"
    for one in scenes:
        ((low, high),) = (shape.points for shape in one.shapes("proof"))
        assert high[1] - low[1] == 4 and low[0] == high[0]


def test_a_case_by_itself_has_its_heights_and_places_beside_it() -> None:
    """W2 stands from 32 to 62 in: its screws are 8 and 22 in from its left side, its lower edge 54 in up."""
    borne = STUDS.borne
    (one,), (told,) = borne.hangings, borne.hanging_sheet.rows
    place, case = case_places(borne.project, one)[1], told.cases[1]
    drawn = hung_case_scene(one, place, case, 0.2)
    words = {item.text: item for item in drawn if isinstance(item, Words)}
    assert [words[f'{at}"'].at[0] for at in (8, 22)] == [40, 54]
    assert words['54"'].at[1] == 54 and words['54"'].bold
    heights = [up for screws in case.rows for up in screws.heights]
    assert heights and all(words[up].at[0] == words['54"'].at[0] < 32 for up in heights)
    assert len([item for item in drawn if isinstance(item, Disc)]) == len(case.marks) * len(heights)
