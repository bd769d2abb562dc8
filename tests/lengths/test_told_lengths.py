"""Lengths told to a coarse mark, and marks of which only the first few are named."""

from fractions import Fraction as F

import pytest

from casewright.lengths.in_a_sentence import few
from casewright.lengths.length import MM, Mark
from casewright.lengths.told_lengths import told, told_at_least, told_at_most


def test_a_length_is_told_without_a_sign_that_it_is_rounded() -> None:
    third = F(10, 3)
    assert told(third, Mark.SIXTEENTH) == '3 5/16"'
    assert told_at_least(third, Mark.SIXTEENTH) == '3 3/8"'
    assert told_at_most(third, Mark.SIXTEENTH) == '3 5/16"'
    assert told_at_least(F(7, 2) * MM, Mark.MILLIMETRE) == "4 mm"
    assert told_at_most(F(7, 2) * MM, Mark.MILLIMETRE) == "3 mm"


@pytest.mark.parametrize(
    ("number", "said"),
    [(1, "M1"), (2, "M1 and M2"), (4, "M1, M2, M3 and M4"), (5, "M1, M2, M3 and 2 more")],
)
def test_four_are_named_and_of_more_the_first_three(number: int, said: str) -> None:
    assert few([f"M{count + 1}" for count in range(number)]) == said
