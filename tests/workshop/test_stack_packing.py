"""Stacks packed to a width, against trying every choice of pieces."""

from __future__ import annotations

from fractions import Fraction as F
from itertools import combinations

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from casewright.shop.machines import DadoStack
from casewright.workshop.channels.stack_packing import MOST_SHIMS, pack

FULL = DadoStack(
    "8 in stack",
    F(1, 8),
    (F(1, 8),) * 4 + (F(3, 32), F(1, 16)),
    (F(4, 1000), F(5, 1000), F(8, 1000), F(1, 100), F(1, 100), F(15, 1000), F(2, 100)),
    F(29, 32),
)

chippers = st.lists(st.sampled_from([F(1, 8), F(3, 32), F(1, 16), F(3, 50)]), max_size=5)
shims = st.lists(st.sampled_from([F(4, 1000), F(5, 1000), F(1, 100), F(2, 100), F(1, 254)]), max_size=6)


def every_width(stack: DadoStack) -> set[F]:
    """All widths, by trying every subset of the pieces: the slow way, sharing no code."""
    found = set()
    for n in range(len(stack.chippers) + 1):
        for some in combinations(stack.chippers, n):
            for m in range(min(MOST_SHIMS, len(stack.shims)) + 1):
                for thin in combinations(stack.shims, m):
                    found.add(2 * stack.outside + sum(some, F(0)) + sum(thin, F(0)))
    return {width for width in found if width <= stack.greatest}


@settings(deadline=None, max_examples=80)
@example([F(1, 8)] * 4 + [F(1, 16)], [F(1, 250)], F(1))  # wider than the arbor takes: the arbor's widest
@given(chippers, shims, st.fractions(F(1, 4), F(1), max_denominator=1000))
def test_no_choice_of_pieces_comes_nearer(some: list[F], thin: list[F], wanted: F) -> None:
    stack = DadoStack("stack", F(1, 8), tuple(some), tuple(thin), F(13, 16))
    every = every_width(stack)
    nearest = pack(stack, wanted)
    below = [width for width in every if width <= wanted]
    above = [width for width in every if width >= wanted]
    assert (nearest.under.width if nearest.under else None) == max(below, default=None)
    assert (nearest.over.width if nearest.over else None) == min(above, default=None)
    for packing in (nearest.under, nearest.over):
        if packing is not None:
            assert not [x for x in packing.chippers if some.count(x) < packing.chippers.count(x)]
            assert not [x for x in packing.shims if thin.count(x) < packing.shims.count(x)]


def test_a_stack_to_the_measured_sheet() -> None:
    """23/32 ply: two outside 1/8, three 1/8 chippers and a 3/32: 1/4 + 3/8 + 3/32 = 23/32."""
    nearest = pack(FULL, F(23, 32))
    assert nearest.exact and nearest.under is not None
    assert nearest.under.chippers == (F(1, 8), F(1, 8), F(1, 8), F(3, 32)) and not nearest.under.shims


def test_shims_bring_it_to_a_sheet_by_the_caliper() -> None:
    """0.708 in and 0.004 in of play by hand: 1/4 + 3 x 1/8 + 1/16 = 0.6875 leaves 0.0245; shims of
    0.020 and 0.004 or 0.005 miss by 0.0005, and of the two the tighter that still takes the sheet."""
    nearest = pack(FULL, F(712, 1000))
    packing = nearest.fit(F(708, 1000))
    assert packing is not None and packing.width == F(7115, 10000)
    assert sum(packing.shims) == F(24, 1000)


def test_a_stack_too_narrow_for_the_sheet_is_never_chosen() -> None:
    bare = DadoStack("no shims", F(1, 8), (F(1, 8),) * 4, (), F(3, 4))
    nearest = pack(bare, F(71, 100))
    assert nearest.under is not None and nearest.under.width == F(5, 8)
    fitting = nearest.fit(F(71, 100))
    assert fitting is not None and fitting.width == F(3, 4)
    assert pack(bare, F(4, 5)).fit(F(4, 5)) is None
    assert pack(bare, F(1, 5)).under is None


@pytest.mark.parametrize("wanted", [F(1, 4), F(29, 32)])
def test_from_the_least_to_the_greatest_width(wanted: F) -> None:
    nearest = pack(FULL, wanted)
    assert nearest.over is not None and nearest.over.width >= wanted
    assert nearest.over.width <= FULL.greatest


def test_a_stack_is_never_packed_wider_than_its_arbor_holds() -> None:
    """With all chippers and shims it would be 1 3/32 and more; 29/32 is what the arbor takes with its nut."""
    nearest = pack(FULL, F(1))
    assert nearest.over is None
    assert nearest.under is not None and F(57, 64) < nearest.under.width <= FULL.greatest
