"""Restricted patterns: every piece cut off has some item's size, one of each row may have what is left."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.planner.engine import Instance, LargeObject, Pattern, RowAxis, SmallItem, Strip, Waste
from casewright.planner.engine.quick_bounds import quick_bound
from casewright.planner.engine.ruin_recreate import RuinRecreate

from .checker import check
from .strategies import instances
from .test_recall import as_it_stands


def sizes_along(instance: Instance, axis: RowAxis) -> set[int]:
    ways = [(item.length, item.width) for item in instance.items]
    ways += [(item.width, item.length) for item in instance.items if item.may_turn]
    return {way[0 if axis is RowAxis.X else 1] for way in ways}


def is_restricted(instance: Instance, pattern: Pattern) -> bool:
    strips = [pattern.root]
    while strips:
        strip = strips.pop()
        along_x = strip.axis is RowAxis.X
        pieces = [part for part in strip.parts if not isinstance(part, Waste)]
        extents = [part.length if along_x else part.width for part in pieces]
        others = [extent for extent in extents if extent not in sizes_along(instance, strip.axis)]
        if len(others) > 1 or (others and len(pieces) < len(strip.parts)):
            return False
        strips += [part for part in pieces if isinstance(part, Strip)]
    return True


@settings(deadline=None, max_examples=80)
@given(instances(), st.integers(0, 100))
def test_no_state_has_a_cut_of_another_size(instance: Instance, seed: int) -> None:
    with RuinRecreate(instance, seed, restricted=True) as search:
        search.remember(0.0, 1000)
        search.goal(max(1, quick_bound(instance).cost * 9 // 10))
        for _ in range(5):
            search.run(400)
            state = search.state()
            check(instance, as_it_stands(instance, state))
            assert all(is_restricted(instance, pattern) for pattern in state)


def test_some_bins_can_only_be_filled_with_other_cuts() -> None:
    """Two columns of 5, each of rows of two items: the one is what is left, the other is not."""
    columns = (((2, 4), (3, 4), (1, 6), (4, 6)), ((2, 3), (3, 3), (1, 7), (4, 7)))
    full = Instance(tuple(SmallItem(*size) for column in columns for size in column), (LargeObject(10, 10),))
    assert sum(item.area for item in full.items) == full.bins[0].area

    def finds(restricted: bool, bins: int) -> bool:
        with RuinRecreate(full, 1, restricted) as search:
            search.goal(bins)
            return search.run(20_000)[0]

    assert finds(False, 1) and not finds(True, 1) and finds(True, 2)


def test_what_is_left_of_a_row_may_have_any_size() -> None:
    """A column of 5 beside an item that is as long as the bin is wide."""
    items = tuple(SmallItem(*size) for size in ((2, 4), (3, 4), (1, 6), (4, 6), (6, 10)))
    full = Instance(items, (LargeObject(11, 10),))
    with RuinRecreate(full, 1, restricted=True) as search:
        search.goal(1)
        assert search.run(5000)[0]
        (pattern,) = search.plan()
    assert is_restricted(full, pattern)
