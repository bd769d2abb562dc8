"""What the hanging page says: places, screws, verdicts, doubts, who lifts, and nothing called safe."""

import json
from collections.abc import Iterator
from fractions import Fraction as F
from typing import Any

import pytest

from bearing.hung_jobs import changed, hung, on_studs
from casewright.app.jobs.worked_job import WorkedJob, open_job
from casewright.bearing.hanging_places import case_places, neighbours
from casewright.bearing.hanging_sheet import HangingSheet, RowTold
from casewright.jobfile.write.other_unit import in_other_unit
from casewright.lengths.length import Unit
from casewright.strength.lift_limit import TWO_TOGETHER

FIRST = '[[runs.cases]]\nmark = "W1"'
METAL = 'framing = { kind = "metal studs", first = 16, every = 16 }'


def sheet(job: WorkedJob) -> HangingSheet:
    return job.borne.hanging_sheet


def row(job: WorkedJob) -> RowTold:
    (only,) = sheet(job).rows
    return only


def test_screws_are_marked_from_the_cases_own_left_side() -> None:
    """W1 stands from 2 to 32, so the stud at 16 is 14 from its left side; that at 32 is behind its right
    side. W2 begins at 32: a stud at 40 is 8 from its left side."""
    first, second = row(on_studs()).cases
    assert first.marks == ('14"',)
    framing = 'framing = { kind = "wood studs", studs = [8, 24, 40, 54] }'
    first, second = row(hung(framing)).cases
    assert first.marks == ('6"', '22"') and second.marks == ('8"', '22"')
    assert first.screws == second.screws == '8 screws #8 × 2 1/2"'


def test_heights_are_above_the_floor_and_rows_alike_stand_together() -> None:
    framing = 'framing = { kind = "wood studs", studs = [8, 24, 40, 54] }'
    job = hung(framing)
    (hanging,) = job.borne.hangings
    place = case_places(job.needed(), hanging)[0]
    assert (place.low, place.high, place.left, place.right) == (F(54), F(84), F(2), F(32))
    strip = hanging.row.cases[0].case.strip if hanging.row else None
    assert strip is not None
    assert all(54 + strip.at - 2 < one.up < 54 + strip.at + 2 for one in place.rows[:2])
    (alike,) = row(job).cases[0].rows
    assert alike.places == ('6"', '22"') and len(alike.heights) == 4


def test_the_verdict_names_its_figure_and_never_says_safe() -> None:
    framing = 'framing = { kind = "wood studs", studs = [8, 24, 40, 54] }'
    said = sheet(hung(framing))
    (only,) = said.rows
    assert only.meets and " meet the design values of the NDS (2018) under the assumptions" in only.verdict
    assert said.settled and said.assumptions
    assert len(set(said.assumptions)) == len(said.assumptions), "each once"
    body = json.dumps(said.plain()).lower().replace(TWO_TOGETHER.source.lower(), "")
    assert "safe" not in body


def test_screws_that_do_not_meet_the_values_say_so() -> None:
    few = hung('framing = { kind = "wood studs", studs = [8, 40] }')
    heavy = changed(few, ("{ adjustable = 1 }, { adjustable = 1 }", "{ adjustable = 7 }, { adjustable = 7 }"))
    only = row(heavy)
    assert not only.meets and "do not meet the design values" in only.verdict
    assert any("do not meet" in doubt.text and "blocking" in doubt.fix for doubt in only.doubts)
    assert not sheet(heavy).settled


@pytest.mark.parametrize(
    ("framing", "asked"),
    [
        ("", "Find the studs"),
        (METAL, "licensed contractor or engineer whether the studs"),
        ('framing = { kind = "masonry" }', "which anchors this wall takes"),
        ('framing = { kind = "wood studs" }', "to the middle of the first stud"),
    ],
)
def test_a_wall_that_takes_no_reckoning_has_a_question_in_place_of_screws(framing: str, asked: str) -> None:
    only = row(hung(framing))
    assert any(asked in doubt.fix for doubt in only.doubts)
    assert not only.verdict and not only.drills and not only.meets
    assert all(not case.screws and not case.marks and not case.rows for case in only.cases)
    assert not sheet(hung(framing)).settled


def test_neighbours_are_joined_within_their_two_sides() -> None:
    """Two sides of 23/32 are 1 7/16 together: 1 1/4 is the longest screw that ends 1/8 before the
    far face."""
    job = on_studs()
    (pair,) = neighbours(job.needed(), case_places(job.needed(), job.borne.hangings[0]))
    assert (pair.left, pair.right, pair.apart, pair.by_frames) == ("W1", "W2", F(0), False)
    assert pair.sides and pair.sides.length == F(5, 4) and pair.stiles is None
    assert row(job).joins == ('W1 to W2: screws #8 × 1 1/4" through their sides.',)


def test_the_case_beside_the_filler_goes_first() -> None:
    assert "Hang W1 first: it stands a filler’s width from the wall" in row(on_studs()).first
    right = changed(on_studs(), ("left_filler", "right_filler"))
    assert (
        "Hang W2 first: it stands a filler’s width" in row(right).first and "to the left" in row(right).first
    )
    neither = changed(on_studs(), ('left_filler = { width = 2, scribe = "1/2" }\n', ""), ("= 62", "= 60"))
    assert "Hang W1 first: places along the wall are measured" in row(neither).first


def test_a_stile_at_the_wall_is_no_filler_and_an_end_within_a_run_is_no_wall() -> None:
    framed = 'construction = { strips = 2, frame = "pocket screws" }\nmade_of = { frame = "ply" }'
    stile = changed(
        on_studs('left_scribe = "1/2"', "gap = 1"),
        ('left_filler = { width = 2, scribe = "1/2" }\n', ""),
        ("construction = { strips = 2 }", framed),
    )
    assert "Hang W1 first: its stile is scribed to the wall" in row(stile).first
    floor = '[[runs.cases]]\nmark = "T1"\nkind = "tall"\nheight = 80\ndepth = 12\nwidth = 20\n\n'
    within = changed(on_studs(), ("lift = 54\n", ""), ("= 62", "= 82"), (FIRST, floor + FIRST))
    assert within.borne.hangings[0].marks == ("W1", "W2")
    assert "Hang W1 first: places along the wall are measured" in row(within).first


def test_shims_are_listed_for_the_wall_and_for_each_case() -> None:
    """As in test_shims.py: 15/62 at 16, 1/124 at 32, which no pencil marks, 17/124 at 48."""
    only = row(on_studs('wall_gaps = ["1/2", 0, "1/4"]'))
    assert 'from the wall’s left end: 1/4" at 16" and 1/8" at 48"; none at others' in only.shims
    assert [case.shims for case in only.cases] == [('1/4" at 14"',), ('1/8" at 16"',)]
    assert "Nobody has read how flat this wall is" in row(on_studs()).shims
    assert "no shims" in row(on_studs("wall_gaps = [1, 1]")).shims
    assert any("Shims bear nothing" in line for line in sheet(on_studs("wall_gaps = [0, 1]")).assumptions)
    assert not any("Shims bear" in line for line in sheet(on_studs("wall_gaps = [1, 1]")).assumptions)


def test_who_lifts_goes_by_the_lifting_equation() -> None:
    """12 in deep, from 30 to 54 up: hands 14 in out. 51 (10/14) (1 - 0.0075 24) (0.82 + 1.8/24) comes to
    26.7 lb for one and 35.6 lb for two. Lower, at 34, 51 (10/14) (1 - 0.0075 4) is 35.3 lb and 47.1 lb."""
    high = row(on_studs()).cases
    assert [case.lifted for case in high] == ["30 lb", "36 lb"]
    over = "two with a prop or a cabinet lift (over the 35 lb for two)"
    assert [case.lift for case in high] == ["two lift it", over]
    low = row(changed(on_studs(), ("lift = 54", "lift = 34"))).cases
    one = "one lifts it, a second holds it while it is screwed"
    assert [case.lift for case in low] == [one, "two lift it"]


def test_an_offset_tells_what_is_left_and_what_comes_off() -> None:
    (scribe,) = sheet(on_studs('left_gaps = ["1/4", "1/2", 0]')).scribes
    assert (scribe.mark, scribe.size, scribe.file) == ("W1-FL", '30" × 2 1/2"', "scribes/W1-FL.pdf")
    assert [(one.up, one.width, one.off) for one in scribe.offsets][::5] == [
        ('0"', '2 1/4"', '1/4"'),
        ('30"', '2"', '1/2"'),
    ]
    assert "its left" in scribe.words and not scribe.doubts
    (narrow,) = sheet(on_studs("left_gaps = [0, 1]")).scribes
    assert any("does not reach" in doubt.text for doubt in narrow.doubts)
    assert not sheet(on_studs("left_gaps = [0, 1]")).settled


def test_fillers_that_nobody_read_are_named() -> None:
    assert "bottom of W1-FL, scribe" in sheet(on_studs()).not_read
    assert sheet(on_studs('left_gaps = ["1/4", 0]')).not_read == ""


def test_a_job_in_millimetres_is_told_in_millimetres() -> None:
    text = on_studs('wall_gaps = ["1/2", 0, "1/4"]', 'left_gaps = ["1/4", 0]').text
    said = sheet(open_job(in_other_unit(text, Unit.MM).text))
    assert '"' not in "".join(_texts(said.plain()))
    assert "Level line ~1371.5 mm" in said.rows[0].level and said.rows[0].cases[0].marks == ("356 mm",)
    assert said.rows[0].cases[0].shims == ("6 mm at 356 mm",)
    assert said.rows[0].cases[0].screws == "4 screws #12 (5.5 × 88.9 mm)"
    assert any("no thinner than 4.3 mm" in line for line in said.assumptions)
    assert said.rows[0].joins == ("W1 to W2: screws 4 × 30 mm through their sides.",)


def _texts(plain: Any) -> Iterator[str]:
    if isinstance(plain, str):
        yield plain
    elif isinstance(plain, dict):
        for value in plain.values():
            yield from _texts(value)
    elif isinstance(plain, (list, tuple)):
        for value in plain:
            yield from _texts(value)
