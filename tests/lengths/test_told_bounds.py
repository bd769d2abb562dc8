"""A bound goes to the next mark that keeps it, however near the mark on the other side is."""

from fractions import Fraction as F

import pytest
from hypothesis import given

from casewright.lengths.length import Mark, parse_length
from casewright.lengths.told_lengths import told_at_least, told_at_most
from strategies import lengths, marks


@given(lengths(-60, 60), marks)
def test_what_is_told_keeps_the_bound_and_is_less_than_a_mark_away(length: F, mark: Mark) -> None:
    low, high = (parse_length(said(length, mark), mark.unit) for said in (told_at_most, told_at_least))
    assert low <= length <= high
    assert high - low == (0 if (length / mark.step).denominator == 1 else mark.step)


@pytest.mark.parametrize(
    ("mark", "least", "most"),
    [
        (Mark.SIXTEENTH, '3/4"', '11/16"'),
        (Mark.THIRTY_SECOND, '23/32"', '23/32"'),
        (Mark.MILLIMETRE, "19 mm", "18 mm"),
    ],
)
def test_a_sheet_of_23_32_as_a_bound(mark: Mark, least: str, most: str) -> None:
    assert (told_at_least(F(23, 32), mark), told_at_most(F(23, 32), mark)) == (least, most)
