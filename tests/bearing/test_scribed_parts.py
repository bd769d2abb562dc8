"""Fillers and stiles cut to an uneven wall: the line, the findings, the sheets of paper it is printed on."""

from fractions import Fraction as F

import pytest

from bearing.hung_jobs import changed, on_studs
from casewright.bearing.scribe_sheets import ScribeSheet, scribe_sheets
from casewright.bearing.scribed_parts import ScribedPart, WallEnd, scribe_findings, scribed_parts
from casewright.lengths.length import Unit
from casewright.strength.scribe import ScribePoint


def scribed(*entries: str) -> ScribedPart:
    (one,) = scribed_parts(on_studs(*entries).needed())
    return one


def test_a_filler_is_cut_to_what_is_seen_of_it_and_the_gap() -> None:
    """2 in in sight and 1/2 in to plane away: read 1/4 at the lower end, 1/2 half way up, nothing at the top,
    it is 2 1/4, 2 1/2 and 2 in wide there."""
    one = scribed('left_gaps = ["1/4", "1/2", 0]')
    assert (one.part.mark, one.end, one.length, one.width) == ("W1-FL", WallEnd.LEFT, F(30), F(5, 2))
    assert one.line.points == (
        ScribePoint(F(0), F(9, 4)),
        ScribePoint(F(15), F(5, 2)),
        ScribePoint(F(30), F(2)),
    )
    assert not scribe_findings(on_studs().needed(), [one])


def test_no_part_at_an_end_that_nobody_read() -> None:
    assert scribed_parts(on_studs().needed()) == ()
    assert scribed_parts(on_studs("right_gaps = [0, 0]").needed()) == (), "nothing closes the right end"


def test_the_readings_go_from_the_lowest_case_to_the_highest() -> None:
    """Both cases are 30 in high; the second made 40 in, the readings go on 10 in above the filler."""
    taller = changed(on_studs('left_gaps = [0, "1/2"]'), ("height = 30", "height = 40"))
    (one,) = scribed_parts(taller.needed())
    assert one.line.points[-1] == ScribePoint(F(30), 2 + F(3, 8))


def test_offsets_at_every_step_and_at_both_ends() -> None:
    one = scribed('left_gaps = [0, "1/2"]')
    assert [(point.along, point.width) for point in one.offsets(F(12))] == [
        (F(0), F(2)),
        (F(12), F(11, 5)),
        (F(24), F(12, 5)),
        (F(30), F(5, 2)),
    ]
    assert [point.along for point in one.offsets(F(15))] == [0, 15, 30], "the upper end comes once"


def test_a_gap_wider_than_the_scribe_is_told_with_the_scribe_that_would_do() -> None:
    job = on_studs('left_gaps = [0, "3/4", 0]')
    (one,) = scribed_parts(job.needed())
    assert one.needed == F(3, 4)
    (finding,) = scribe_findings(job.needed(), [one])
    assert (finding.code, finding.place) == ("scribe-too-narrow", "runs.upper.left_filler.scribe")
    assert '3/4" back from the plumb line 15" up W1-FL' in finding.text
    assert finding.fix == 'Give it a scribe of 3/4": it is then cut 2 3/4" wide.'
    assert finding.text in {one.text for one in job.findings}, "check says it too"


def test_a_strip_that_splits_is_told() -> None:
    job = on_studs('left_gaps = [0, "1/2"]')
    project = changed(job, ("width = 2,", 'width = "1/2",'), ("opening = 62", 'opening = "60 1/2"')).needed()
    (finding,) = scribe_findings(project, scribed_parts(project))
    assert finding.code == "scribed-too-thin" and '0" up, 1/2" is left' in finding.text


def sheets(*entries: str) -> tuple[ScribeSheet, ...]:
    return scribe_sheets(scribed(*entries), Unit.INCH)


def test_the_sheets_cover_the_part_and_share_their_marks() -> None:
    """30 in by steps of 8: four sheets, each going on 1/2 in past the marks it shares."""
    found = sheets('left_gaps = ["1/4", "1/2", 0]')
    assert [(one.low, one.high) for one in found] == [
        (0, F(17, 2)),
        (F(15, 2), F(33, 2)),
        (F(31, 2), F(49, 2)),
        (F(47, 2), 30),
    ]
    assert [one.joins for one in found] == [(8,), (8, 16), (16, 24), (24,)]
    assert {one.count for one in found} == {4} and [one.number for one in found] == [1, 2, 3, 4]
    assert found[1].line[1] == ScribePoint(F(15), F(5, 2)), "a reading within the sheet is a corner of it"
    assert found[0].line[-1] == ScribePoint(F(17, 2), F(9, 4) + F(17, 2) / 60)


@pytest.mark.parametrize(("wide", "straight"), [("2", 0), ("4 1/2", 0), ("5 1/4", 1)])
def test_a_part_wider_than_the_paper_is_drawn_from_a_line_nearer_the_wall(wide: str, straight: int) -> None:
    """5 in have room: 5 1/4 in sight and 1/2 in more are drawn from 1 in off the edge."""
    job = on_studs('left_gaps = [0, "1/2"]')
    job = changed(job, ("width = 2,", f'width = "{wide}",'), ("opening = 62", "opening = 66"))
    (one,) = scribed_parts(job.needed())
    assert {sheet.straight for sheet in scribe_sheets(one, Unit.INCH)} == {straight}


def test_a_filler_that_came_out_narrower_has_less_to_plane_away() -> None:
    job = on_studs('left_gaps = ["1/2", 0]')
    made = changed(job, ("[made_of]", '[as_cut.W1-FL]\nwidth = "2 1/4"\n\n[made_of]'))
    (one,) = scribed_parts(made.needed())
    assert (one.width, one.scribe, one.needed) == (F(9, 4), F(1, 4), F(1, 2))
    assert one.line == scribed('left_gaps = ["1/2", 0]').line, "the wall is where it was"
