"""Sizes that must add up are rounded together and lose nothing."""

from collections.abc import Sequence
from fractions import Fraction
from math import floor

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casewright.lengths.length import MM, Mark, apportion, nearest
from strategies import lengths, marks

F = Fraction
rows = st.lists(lengths(-60, 60), max_size=9)


@given(rows, marks)
def test_the_parts_make_the_rounded_whole_exactly(values: list[Fraction], mark: Mark) -> None:
    shared = apportion(values, mark.step)
    assert sum(shared, F(0)) == nearest(sum(values, F(0)), mark.step)
    assert all((part / mark.step).denominator == 1 for part in shared)


@given(rows, marks)
def test_each_part_goes_to_one_of_the_marks_beside_it(values: list[Fraction], mark: Mark) -> None:
    for value, part in zip(values, apportion(values, mark.step), strict=True):
        below = floor(value / mark.step) * mark.step
        if value == below:
            assert part == value
        else:
            assert part in (below, below + mark.step)


@given(st.data(), rows, marks)
def test_the_order_settles_ties_and_nothing_else(
    data: st.DataObject, values: list[Fraction], mark: Mark
) -> None:
    """Values tie that are as far above a mark: which of those goes up is the order's to say, and how many of
    each is not."""
    shuffled = data.draw(st.permutations(values))
    shared, again = (apportion(row, mark.step) for row in (values, shuffled))

    def gone_up(row: list[Fraction], parts: Sequence[Fraction]) -> list[Fraction]:
        return sorted(value % mark.step for value, part in zip(row, parts, strict=True) if part > value)

    assert gone_up(values, shared) == gone_up(shuffled, again) and sum(shared) == sum(again)
    for value, part in zip(values, shared, strict=True):
        for other, its_part in zip(values, shared, strict=True):
            if value > other:
                assert part >= its_part


@given(st.data(), rows, marks)
def test_a_given_total_is_met_within_one_mark_or_refused(
    data: st.DataObject, values: list[Fraction], mark: Mark
) -> None:
    own = nearest(sum(values, F(0)), mark.step)
    total = own + data.draw(st.integers(-12, 12)) * mark.step
    try:
        shared = apportion(values, mark.step, total)
    except ValueError:
        # No sharing can be left over that was not found: the extremes fall short of the total.
        quotas = [value / mark.step for value in values]
        least = sum(-floor(-quota) - 1 for quota in quotas) * mark.step
        most = sum(floor(quota) + 1 for quota in quotas) * mark.step
        assert not least <= total <= most
    else:
        assert sum(shared, F(0)) == total
        assert all(abs(part - value) <= mark.step for part, value in zip(shared, values, strict=True))


def test_three_equal_bays_keep_their_opening() -> None:
    # 34 1/2 in thirds is 11 1/2 each: nothing to share. 34 9/16 leaves 1/16 for the first bay.
    assert apportion([F("23/2")] * 3, F(1, 16)) == (F("23/2"),) * 3
    third = F("553/16") / 3
    assert apportion([third] * 3, F(1, 16)) == (F("185/16"), F("184/16"), F("184/16"))
    # Rounded one by one the three would come to 34 1/2, a sixteenth short.
    assert 3 * nearest(third, F(1, 16)) == F("69/2")


def test_hamiltons_method_gives_its_textbook_seats() -> None:
    # Alabama's paradox, 1880 census in small: votes 6, 6, 2 share 10 seats as 4, 4, 2 and
    # 11 seats as 5, 5, 1. (A worked example commonly given for Hamilton's method; from memory.)
    def seats(house: int) -> tuple[Fraction, ...]:
        return apportion([F(votes * house, 14) for votes in (6, 6, 2)], F(1))

    assert seats(10) == (F(4), F(4), F(2))
    assert seats(11) == (F(5), F(5), F(1))


def test_millimetres_share_as_sixteenths_do() -> None:
    assert apportion([F(1000, 3) * MM] * 3, MM) == (334 * MM, 333 * MM, 333 * MM)


def test_nothing_shares_to_nothing() -> None:
    assert apportion([], F(1, 16)) == ()


def test_a_size_midway_goes_away_from_zero() -> None:
    assert nearest(F(1, 32), F(1, 16)) == F(1, 16)
    assert nearest(F(-1, 32), F(1, 16)) == F(-1, 16)
    assert nearest(F(5, 64), F(1, 16)) == F(1, 16)


@pytest.mark.parametrize("mark", [F(0), F(-1, 16)])
def test_a_rule_without_marks_is_refused(mark: Fraction) -> None:
    with pytest.raises(ValueError, match="more than zero"):
        apportion([F(1)], mark)


def test_a_total_out_of_reach_is_refused() -> None:
    with pytest.raises(ValueError, match="2 sizes cannot make 3"):
        apportion([F(1), F(1)], F(1, 16), F(3))
