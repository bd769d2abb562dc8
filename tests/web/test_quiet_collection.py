"""Garbage among all that the server keeps is searched for when nobody asks for anything, and else seldom."""

from __future__ import annotations

import asyncio
import gc
from collections.abc import Iterator
from itertools import count

import pytest

from casewright.web.quiet_collection import QUIET_LOOKS, SELDOM, WORTH, Activity, collect_when_quiet


@pytest.fixture
def full() -> Iterator[list[int]]:
    """A place for each search of everything, as they come. What the tests before have left is passed over."""
    threshold, searches = gc.get_threshold(), list[int]()
    gc.freeze()

    def note(phase: str, info: dict[str, int]) -> None:
        if phase == "start" and info["generation"] == 2:
            searches.append(1)

    gc.callbacks.append(note)
    yield searches
    gc.callbacks.remove(note)
    gc.set_threshold(*threshold)


class Enough(Exception):
    """Raised by the look after the last."""


def looked(activity: Activity, looks: int, full: list[int]) -> int:
    """How many searches there were in so many looks, with garbage to find, after the one at the start."""
    left = iter(range(looks))

    def counted() -> tuple[int, int]:
        number = next(left, None)
        if number is None:
            raise Enough
        if number == 0:
            full.clear()
            for _ in range(WORTH + 1):
                gc.collect(1)
        return activity()

    with pytest.raises(Enough):
        asyncio.run(collect_when_quiet(counted, look=0))
    return len(full)


def test_once_when_it_is_quiet_and_not_again_while_there_is_nothing_new(full: list[int]) -> None:
    assert looked(lambda: (7, 0), 5 * QUIET_LOOKS, full) == 1


def test_not_while_requests_come(full: list[int]) -> None:
    asked = count()
    assert looked(lambda: (next(asked), 0), 5 * QUIET_LOOKS, full) == 0


def test_not_while_somebody_waits_for_an_answer(full: list[int]) -> None:
    assert looked(lambda: (7, 1), 5 * QUIET_LOOKS, full) == 0


def test_not_before_it_was_quiet_for_a_while(full: list[int]) -> None:
    assert looked(lambda: (7, 0), QUIET_LOOKS, full) == 0


def test_python_itself_searches_seldom_meanwhile(full: list[int]) -> None:
    looked(lambda: (7, 0), 1, full)
    assert gc.get_threshold()[2] == SELDOM
