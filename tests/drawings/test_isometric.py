"""Nearer boxes are drawn over farther ones, whatever the boxes."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.drawings.kit.isometric import SolidBox, far_to_near, overlap, project
from casewright.drawings.kit.scene import Shape, Words
from casewright.drawings.views.exploded import exploded_view
from drawings.shown_jobs import project as drawn_up

PLACES = st.integers(0, 12)
SIZES = st.integers(1, 6)


@st.composite
def boxes(draw: st.DrawFn) -> list[SolidBox]:
    """Boxes that keep apart, by dropping those that would meet an earlier one."""
    kept: list[SolidBox] = []
    for number in range(draw(st.integers(2, 6))):
        x, y, z = draw(PLACES), draw(PLACES), draw(PLACES)
        high = (x + draw(SIZES), y + draw(SIZES), z + draw(SIZES))
        block = SolidBox(str(number), (x, y, z), high)
        if all(_apart(block, other) for other in kept):
            kept.append(block)
    return kept


def _apart(one: SolidBox, other: SolidBox) -> bool:
    return any(one.low[axis] >= other.high[axis] or other.low[axis] >= one.high[axis] for axis in range(3))


def _meets(block: SolidBox, x: float, y: float) -> float | None:
    """How near to the eye the ray through a place on paper first meets a box; None if it misses.

    The eye's ray runs along (1, -1, 1): points p + t (1, -1, 1), larger t nearer to the eye.
    """
    half = x / (3**0.5 / 2)
    start = (0.0, half, y - half / 2)
    low, high = -1e9, 1e9
    for axis, way in enumerate((1, -1, 1)):
        ends = sorted(((block.low[axis] - start[axis]) * way, (block.high[axis] - start[axis]) * way))
        low, high = max(low, ends[0]), min(high, ends[1])
    return high if high > low + 1e-9 else None


@settings(deadline=None)
@given(boxes(), st.floats(-2, 24), st.floats(-10, 20))
def test_at_any_place_the_last_box_drawn_is_the_nearest(blocks: list[SolidBox], x: float, y: float) -> None:
    hits = [(near, block.name) for block in blocks if (near := _meets(block, x, y)) is not None]
    if len(hits) < 2 or _ring(blocks):
        return
    drawn = [block.name for block in far_to_near(blocks)]
    assert drawn.index(max(hits)[1]) == max(drawn.index(name) for _, name in hits)


def _ring(blocks: list[SolidBox]) -> bool:
    """Whether some boxes hide each other in a ring, which no order can draw."""
    order = far_to_near(blocks)
    return any(
        overlap(one, other) and _hides(one, other)
        for place, one in enumerate(order)
        for other in order[place + 1 :]
    )


def _hides(one: SolidBox, other: SolidBox) -> bool:
    nearer = one.low[0] >= other.high[0] or one.high[1] <= other.low[1] or one.low[2] >= other.high[2]
    farther = other.low[0] >= one.high[0] or other.high[1] <= one.low[1] or other.low[2] >= one.high[2]
    return nearer and not farther


def test_the_ray_of_the_test_is_the_eye_of_the_drawing() -> None:
    assert project((1.0, -1.0, 1.0)) == pytest.approx(project((0.0, 0.0, 0.0)))


@pytest.mark.parametrize("mark", list(drawn_up().cases))
def test_every_part_of_a_case_is_drawn_and_marked_once(mark: str) -> None:
    scene = exploded_view(drawn_up(), mark)
    parts = [part.mark for part in drawn_up().cases[mark].parts]
    assert sorted(item.text for item in scene if isinstance(item, Words)) == sorted(parts)
    assert sorted(item.name for item in scene if isinstance(item, Shape) and item.name) == sorted(parts)


@pytest.mark.parametrize("mark", list(drawn_up().cases))
def test_parts_taken_apart_keep_apart(mark: str) -> None:
    """In the case a shelf stands in its dado; taken apart, no part may still reach into another."""
    from casewright.drawings.views.exploded import _spread

    blocks = [piece.block for piece in _spread(drawn_up(), mark)]
    assert all(_apart(one, other) for place, one in enumerate(blocks) for other in blocks[place + 1 :])
    order = far_to_near(blocks)
    for place, one in enumerate(order):
        for other in order[place + 1 :]:
            assert not (overlap(one, other) and _hides(one, other)), (one.name, other.name)
