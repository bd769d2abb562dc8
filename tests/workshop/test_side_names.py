"""The sides of a part by name, and which goes first along the fence."""

from __future__ import annotations

from itertools import product

import numpy as np
import pytest

from casewright.casework.directions import Axis, Way
from casewright.casework.project import draw_up
from casewright.workshop.side_names import leading, side_words
from samples import job


def vector(way: Way) -> list[int]:
    return [way.sign if way.axis is axis else 0 for axis in Axis]


@pytest.mark.parametrize(("against", "down"), [(a, d) for a, d in product(Way, Way) if a.axis is not d.axis])
def test_up_right_and_feed_are_a_right_handed_frame(against: Way, down: Way) -> None:
    """numpy's cross product says which way is left over."""
    feed = np.cross(vector(down.opposite), vector(against))
    assert vector(leading(against, down)) == feed.tolist()


def test_a_left_side_with_its_lower_end_on_the_fence_goes_rear_edge_first() -> None:
    """By hand: look down on its inside face. With the lower end down, the rear edge is to the right; turned
    until the lower end is to the right, on the fence, the rear edge is away from the maker."""
    assert leading(Way.DOWN, Way.LEFT) is Way.BACK
    assert leading(Way.DOWN, Way.RIGHT) is Way.FRONT, "its mirror image goes the other way"


@pytest.mark.parametrize(
    ("mark", "way", "words"),
    [
        ("B1-L", Way.DOWN, "lower end"),
        ("B1-L", Way.UP, "upper end"),
        ("B1-L", Way.FRONT, "front edge"),
        ("B1-L", Way.BACK, "rear edge"),
        ("B1-L", Way.RIGHT, "inside face"),
        ("B1-L", Way.LEFT, "outside face"),
        ("B1-R", Way.LEFT, "inside face"),
        ("B1-R", Way.RIGHT, "outside face"),
        ("B1-B", Way.LEFT, "left end"),
        ("B1-B", Way.RIGHT, "right end"),
        ("B1-B", Way.UP, "upper face"),
    ],
)
def test_a_side_has_the_name_that_a_maker_gives_it(mark: str, way: Way, words: str) -> None:
    assert side_words(draw_up(job()).parts[mark], way) == words
