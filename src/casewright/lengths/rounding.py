"""Rounding to the marks of a rule, one size at a time or several that must add up."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import ceil, floor

HALF = Fraction(1, 2)


def nearest(length: Fraction, mark: Fraction) -> Fraction:
    """The multiple of `mark` closest to `length`; a size midway is rounded away from zero.

    Away from zero, so that an offset and its mirror image still mirror each other once rounded.
    """
    steps = floor(abs(length) / mark + HALF)
    return steps * mark if length >= 0 else -steps * mark


def apportion(
    values: Sequence[Fraction], mark: Fraction, total: Fraction | None = None
) -> tuple[Fraction, ...]:
    """Each value rounded to a multiple of `mark`, so that together they add up to the rounded total exactly.

    `total` is the sum of the values unless one is given; it is rounded with `nearest`. The
    result keeps quota: a value between two marks goes to one of those two, and a value on a
    mark stays there unless a given total can only be met by moving it, and then by one mark.
    Spare marks go to the largest remainders; among equal remainders, to earlier values first.

    This is Hamilton's method, the rule for sharing seats in a house: M. L. Balinski and
    H. P. Young, "Fair Representation: Meeting the Ideal of One Man, One Vote", Yale
    University Press 1982 (cited from memory).

    Raises ValueError where `mark` is not positive, or where no sharing within one mark of
    every value reaches `total`.
    """
    if mark <= 0:
        raise ValueError(f"the mark to round to must be more than zero, not {mark}")
    quotas = [value / mark for value in values]
    # Start each at the last mark strictly below it. A value on a mark then has the largest
    # remainder there is, one whole mark, and is the first to be put back where it was.
    steps = [ceil(quota) - 1 for quota in quotas]
    order = sorted(range(len(quotas)), key=lambda i: steps[i] - quotas[i])
    on_a_mark = [i for i in order if quotas[i].denominator == 1]
    whole = sum(values, Fraction(0)) if total is None else total
    spare = int(nearest(whole, mark) / mark) - sum(steps)
    turns = order + on_a_mark
    if not 0 <= spare <= len(turns):
        raise ValueError(f"{len(values)} sizes cannot make {whole} with each within {mark} of its own value")
    for i in turns[:spare]:
        steps[i] += 1
    return tuple(step * mark for step in steps)
