"""What rounding adds to several sizes that err together, against drawing many and rounding them."""

from __future__ import annotations

from fractions import Fraction as F
from math import sqrt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.tolerance.errors.causes import Cause, CauseKind, Errors, deviation
from casewright.tolerance.errors.shared_rounding import SharedRounding

MARK = F(1, 32)
CAUSES = tuple(Cause(CauseKind.READING, what, 0.004) for what in ("bottom", "left dado", "right dado"))
middles = st.fractions(F(0), F(2), max_denominator=128)
shares = st.lists(st.floats(-2.0, 2.0).filter(lambda share: abs(share) > 0.1), min_size=3, max_size=3)


def covariance(one: Errors, other: Errors) -> float:
    return sum(share * other.get(cause, 0.0) * cause.deviation**2 for cause, share in one.items())


def errs(*amounts: float) -> Errors:
    return dict(zip(CAUSES, amounts, strict=True))


@settings(deadline=None, max_examples=25)
@given(st.lists(st.tuples(middles, shares), min_size=3, max_size=3))
def test_rounded_sizes_err_together_as_many_drawn_and_rounded_do(sizes: list[tuple[F, list[float]]]) -> None:
    draws, rounding = 200_000, SharedRounding()
    drawn = np.random.default_rng(5).normal(0, 0.004, (draws, 3))
    found = [rounding.on_marks(middle, errs(*amounts), MARK) for middle, amounts in sizes]
    marked = [
        np.round((drawn @ np.array(amounts) + float(middle)) / float(MARK)) * float(MARK)
        for middle, amounts in sizes
    ]
    theirs = np.cov(marked)
    for i in range(3):
        for j in range(3):
            near = 5 * sqrt((theirs[i, i] * theirs[j, j] + theirs[i, j] ** 2) / draws)
            assert covariance(found[i], found[j]) == pytest.approx(
                theirs[i, j], abs=near + 0.01 * float(MARK) ** 2 / 12
            )


@given(st.lists(st.tuples(middles, shares), min_size=2, max_size=5))
def test_no_sum_hangs_on_the_order_in_which_sizes_are_rounded(
    sizes: list[tuple[F, list[float]]],
) -> None:
    def spread(order: list[int]) -> float:
        rounding, whole = SharedRounding(), dict[Cause, float]()
        for at in order:
            middle, amounts = sizes[at]
            for cause, share in rounding.on_marks(middle, errs(*amounts), MARK).items():
                whole[cause] = whole.get(cause, 0.0) + (1 + at) * share
        return deviation(whole)

    order = list(range(len(sizes)))
    assert spread(order) == pytest.approx(spread(order[::-1]), rel=1e-2)


def test_sizes_alike_are_rounded_alike_and_mirror_images_in_opposite_ways() -> None:
    rounding = SharedRounding()
    one = rounding.on_marks(F(24) + MARK / 2, errs(1.0, 0.5, 2.0), MARK)
    assert rounding.on_marks(F(11) + MARK / 2, errs(1.0, 0.5, 2.0), MARK) == one
    mirrored = rounding.on_marks(-F(24) - MARK / 2, errs(-1.0, -0.5, -2.0), MARK)
    assert mirrored == {cause: -share for cause, share in one.items()}


def test_sizes_with_nothing_in_common_share_nothing_of_their_rounding() -> None:
    rounding = SharedRounding()
    one = rounding.on_marks(F(24) + MARK / 2, {CAUSES[0]: 1.0}, MARK)
    other = rounding.on_marks(F(24) + MARK / 2, {CAUSES[1]: 1.0}, MARK)
    assert not one.keys() & other.keys()
