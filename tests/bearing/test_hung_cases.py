"""Hung cases of drawn jobs: their places on the wall, weights, strips, and screws that bear them or not."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from bearing.loaded_jobs import STUDS, WALL_CASE, borne_by, drawn, text
from casewright.bearing.hanging_places import case_places, neighbours
from casewright.bearing.hung_cases import Hanging
from casewright.casework.extents import case_extent
from casewright.casework.hung import hangs_on_wall
from casewright.casework.parts.part import Role
from casewright.casework.parts.weights import weight_of
from casewright.strength.hung_on_screws import HungRow
from casewright.workshop.assembly.hanging import placed_case

EMPTY = f"{WALL_CASE}\nbays = [{{}}]"
PINS = f"{WALL_CASE}\nbays = [{{ adjustable = 1 }}]"
NARROW = EMPTY.replace("width = 33", "width = 12")
ON = f"lift = 54\n{STUDS}"
HEAVY = 'load = "60 lb/ft2"'


def hung(job_text: str) -> Hanging:
    (found,) = borne_by(job_text).hangings
    return found


def row(job_text: str) -> HungRow:
    found = hung(job_text).row
    assert found is not None
    return found


def test_a_case_lies_where_it_is_on_the_wall() -> None:
    """The run begins 36 in along the wall: its first case there, the next from 69 in, up to 102 in. Of studs
    at 8, 24, 40 ... those at 40 and 56 are behind the first."""
    found = row(text(EMPTY, EMPTY, run=f"{ON}\nalong = 36"))
    assert [case.case.left for case in found.cases] == [36, 69]
    assert [sorted({float(place.stud) for place in case.places}) for case in found.cases] == [
        [40, 56],
        [72, 88],
    ]
    assert all(36 < place.across < 69 for place in found.cases[0].places)


def test_strips_are_measured_from_the_lower_edge() -> None:
    """30 in high, strips 4 in wide below the top panel and above the bottom panel."""
    project = drawn(text(EMPTY))
    case = row(text(EMPTY)).cases[0].case
    inside = project.sizes.of(project.cases["W1"].clear)
    assert case.lower is not None
    assert case.strip.at - case.lower.at == inside - 4
    assert (case.strip.left, case.strip.right) == (F(23, 32), 33 - F(23, 32))
    assert (case.height, case.depth) == (F(30), F(12))


def test_a_case_with_one_strip_has_none_below() -> None:
    case = row(text(f"{EMPTY}\nconstruction = {{ strips = 1 }}")).cases[0].case
    assert case.lower is None


def test_weights_are_those_of_the_sheets_and_of_the_shelves_loads() -> None:
    """Empty: its parts. Full: 40 lb/ft2 on its bottom and on its shelf."""
    project = drawn(text(PINS, shelf="ply"))
    case = row(text(PINS, shelf="ply")).cases[0].case
    assert case.empty == weight_of(project, project.cases["W1"].own_parts)
    areas = (project.dimensions(project.parts[mark])[:2] for mark in ("W1-B", "W1-A1"))
    assert case.contents == sum(F(40, 144) * long * wide for long, wide in areas)


def test_a_bottom_below_a_divider_holds_things_too() -> None:
    """It is not judged for sag, but what stands on it hangs on the screws."""
    one = row(text(EMPTY)).cases[0].case.contents
    two = row(text(f"{WALL_CASE}\nbays = [{{}}, {{}}]")).cases[0].case.contents
    assert one == two > 0


def test_strips_thinner_than_five_millimetres_do_not_meet() -> None:
    """A screw's head pulls through them under a load that thick strips bear."""
    panel = '[materials.panel]\nsheet = "hardwood ply 1/4"\nnominal = "3/16"\nreadings = ["4.9 mm"]\n'
    thin = text(PINS, strip="panel", holds=HEAVY, more=panel)
    assert not row(thin).meets
    assert row(text(PINS, holds=HEAVY)).meets
    codes = {one.code: one.fix for one in borne_by(thin).findings}
    assert "3/4 in (18 mm)" in codes["screws-beyond-values"]


def test_two_strips_bear_more_than_one_and_mend_what_one_cannot() -> None:
    """The fix of the finding is strips = 2: with it the finding is gone."""
    one = text(f"{PINS}\nconstruction = {{ strips = 1 }}", holds=HEAVY)
    two = text(f"{PINS}\nconstruction = {{ strips = 2 }}", holds=HEAVY)
    weak = [found for found in borne_by(one).findings if found.code == "screws-beyond-values"]
    assert ["strips = 2" in found.fix for found in weak] == [True]
    assert row(two).bears > row(one).bears
    assert row(two).meets
    assert "screws-beyond-values" not in {found.code for found in borne_by(two).findings}


def test_wider_strips_mend_those_that_take_one_screw() -> None:
    low = text(f'{PINS}\nconstruction = {{ strip_width = "1 1/2" }}', holds=HEAVY)
    weak = [found for found in borne_by(low).findings if found.code == "screws-beyond-values"]
    assert ["two screws in each stud" in found.fix for found in weak] == [True]
    assert row(text(PINS, holds=HEAVY)).meets


def test_a_narrow_case_hangs_on_its_neighbour() -> None:
    """12 in from 33 to 45 in has the stud at 40 in; without one its neighbour carries both."""
    beside = row(text(EMPTY, NARROW))
    assert {float(place.stud) for place in beside.cases[1].places} == {40}
    assert beside.meets
    alone = borne_by(text(NARROW))
    assert [found.code for found in alone.findings] == ["too-few-studs"]


def test_nothing_is_reckoned_on_a_wall_to_ask_about() -> None:
    for framing in ("", 'framing = { kind = "masonry" }', 'framing = { kind = "metal studs" }'):
        found = borne_by(text(EMPTY, run=f"lift = 54\n{framing}"))
        assert found.hangings[0].row is None
        assert [one.code for one in found.findings] == ["wall-to-ask-about"]


@pytest.mark.parametrize(
    ("case", "run", "hangs"),
    [
        (EMPTY, ON, True),
        (EMPTY, "", True),
        (EMPTY, "lift = 0", True),
        ('kind = "base"\nwidth = 33\nheight = 34\ndepth = 24', "", False),
        (f'{EMPTY}\nconstruction = {{ toe = "notch" }}', "lift = 0", False),
    ],
)
def test_the_packet_hangs_the_same_cases(case: str, run: str, *, hangs: bool) -> None:
    """A wall case hangs whatever its height; one with a toe kick on the floor stands."""
    project = drawn(text(case, run=run))
    assert hangs_on_wall(project.run_of("W1").run, project.cases["W1"].spec) is hangs
    assert placed_case(project, "W1").hung is hangs
    assert bool(borne_by(text(case, run=run)).hangings) is hangs


def test_the_level_line_is_that_of_the_sides_though_a_frame_hangs_below_them() -> None:
    """The lower rail of a frame reaches below the bottom: packet, page and command give the sides' edge."""
    framed = f'{EMPTY}\nconstruction = {{ frame = "pocket screws" }}\nmade_of = {{ frame = "ply" }}'
    borne = borne_by(text(framed))
    case = borne.project.cases["W1"]
    assert case_extent(borne.project, case).low[2] < 54
    assert placed_case(borne.project, "W1").bottom == 54
    assert [one.low for one in case_places(borne.project, borne.hangings[0])] == [54]
    assert "54" in borne.hanging_sheet.rows[0].level


def test_no_screw_goes_deeper_into_a_stud_than_two_inches() -> None:
    """Cables run there. With so much on it the case would take longer screws, and they are not offered."""
    found = row(text(PINS, run=ON, holds='load = "300 lb/ft2"'))
    assert not found.meets
    assert all(case.through.into_stud <= 2 for case in found.cases)
    assert max(case.length for case in found.cases) > F(5, 2)


@pytest.mark.parametrize("back", ["groove", "rabbet", "applied"])
def test_a_screw_passes_the_back_whichever_way_that_is_put_in(back: str) -> None:
    """A back in grooves is before the strip, others are behind it: strip, back and lining in any case."""
    job_text = text(f'{EMPTY}\nconstruction = {{ back = "{back}" }}')
    project, (case,) = drawn(job_text), row(job_text).cases
    thick = {
        part.role: project.sizes.of(part.thickness)
        for part in project
        if part.role in (Role.BACK, Role.MOUNTING_STRIP)
    }
    passed = thick[Role.BACK] + thick[Role.MOUNTING_STRIP] + F(1, 2)
    assert thick[Role.BACK] > 0
    assert case.through.into_stud == pytest.approx(float(case.length - passed))


def test_cases_with_frames_of_their_own_are_joined_at_the_front_and_at_the_back() -> None:
    """Through two stiles the screw is long; through two sides at the back the same would come out again."""
    framed = f'{EMPTY}\nconstruction = {{ frame = "pocket screws" }}\nmade_of = {{ frame = "ply" }}'
    borne = borne_by(text(framed, framed))
    (row_of,) = borne.hangings
    (pair,) = neighbours(borne.project, case_places(borne.project, row_of))
    sides = sum(
        borne.project.sizes.of(part.thickness)
        for mark, role in ((pair.left, Role.RIGHT_SIDE), (pair.right, Role.LEFT_SIDE))
        for part in borne.project.cases[mark].parts
        if part.role is role
    )
    assert pair.by_frames and pair.stiles and pair.sides
    assert pair.sides.length < sides + pair.apart < pair.stiles.length
    (told,) = borne.hanging_sheet.rows[0].joins
    assert "at the front screws" in told and "through their sides" in told
