"""Random instances for the engine's property tests."""

from __future__ import annotations

from hypothesis import strategies as st

from casewright.planner.engine import FirstStage, Instance, LargeObject, SmallItem


def items(largest: int, most: int, copies: int = 3) -> st.SearchStrategy[tuple[SmallItem, ...]]:
    side = st.integers(1, largest)
    one = st.builds(SmallItem, side, side, st.integers(1, copies), st.booleans())
    return st.lists(one, min_size=1, max_size=most).map(tuple)


def bins(largest: int, most: int = 3) -> st.SearchStrategy[tuple[LargeObject, ...]]:
    side = st.integers(max(1, largest // 2), largest)
    one = st.builds(LargeObject, side, side, st.none() | st.integers(0, 4), st.integers(0, 50))
    return st.lists(one, min_size=1, max_size=most).map(tuple)


def instances(largest: int = 40, most: int = 12) -> st.SearchStrategy[Instance]:
    return st.builds(
        Instance,
        items(largest, most),
        bins(largest),
        st.none() | st.integers(1, 4),
        st.sampled_from(FirstStage),
    )
