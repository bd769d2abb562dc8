"""Cut lines from readings along a string, worked by hand."""

from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casewright.strength.scribe import WallOffset, scribe_line

READ = [WallOffset(F(at), F(gap)) for at, gap in ((0, "1.5"), (12, "1.75"), (24, "1.375"), (36, "1.5"))]


def test_a_filler_to_an_uneven_wall() -> None:
    line = scribe_line(READ, F(0), F(36), F(1, 2))
    assert [point.along for point in line.points] == [F(0), F(12), F(24), F(36)]
    assert [point.width for point in line.points] == [F(2), F("2.25"), F("1.875"), F(2)]
    assert (line.widest.along, line.narrowest.along) == (F(12), F(24))
    assert line.width_at(F(18)) == (F("2.25") + F("1.875")) / 2


def test_a_part_that_begins_and_ends_between_readings() -> None:
    line = scribe_line(list(reversed(READ)), F(6), F(24), F(0))
    assert [point.along for point in line.points] == [0, 6, 18, 24]
    assert line.points[0].width == F("1.625")
    assert line.points[-1].width == F("1.4375")


def test_a_leaning_wall_is_straight() -> None:
    line = scribe_line([WallOffset(F(0), F(1)), WallOffset(F(60), F(2))], F(0), F(60), F(0))
    assert [(point.along, point.width) for point in line.points] == [(F(0), F(1)), (F(60), F(2))]
    assert line.width_at(F(30)) == F(3, 2)


@given(
    gaps=st.lists(st.integers(1, 64), min_size=2, max_size=9),
    beside=st.integers(0, 32),
    place=st.integers(0, 100),
)
def test_every_width_lies_between_the_narrowest_and_the_widest(
    gaps: list[int], beside: int, place: int
) -> None:
    offsets = [WallOffset(F(12 * number), F(gap, 32)) for number, gap in enumerate(gaps)]
    length = F(12 * (len(gaps) - 1))
    line = scribe_line(offsets, F(0), length, F(beside, 16))
    assert line.narrowest.width <= line.width_at(length * place / 100) <= line.widest.width
    assert line.narrowest.width == F(min(gaps), 32) + F(beside, 16)


@pytest.mark.parametrize(
    ("offsets", "start", "length", "beside", "said"),
    [
        (READ[:1], 0, 1, 0, "two places along the string or more"),
        ([READ[0], READ[0]], 0, 1, 0, "two readings at 0 in"),
        (READ, 0, 40, 0, "from 0 to 36 in along the string; the part from 0 to 40: measure at both its ends"),
        (READ, -1, 20, 0, "measure at both its ends"),
        (READ, 0, 0, 0, "length of a scribed part must be more than zero, not 0 in"),
        (READ, 0, 36, -2, "at 24 in along the part the wall comes to the case"),
    ],
)
def test_readings_that_make_no_line_are_refused(
    offsets: list[WallOffset], start: int, length: int, beside: int, said: str
) -> None:
    with pytest.raises(ValueError, match=said):
        scribe_line(offsets, F(start), F(length), F(beside))


def test_off_the_part_there_is_no_width() -> None:
    with pytest.raises(ValueError, match="37 in lies off the ends"):
        scribe_line(READ, F(0), F(36), F(0)).width_at(F(37))
