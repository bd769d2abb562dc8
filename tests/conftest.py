"""For all tests: Python's search for garbage passes over what is there before the first of them.

The modules and the collected tests are hundreds of thousands of objects that live to the end. Searched again
every few tests, they took a third of the run's time.
"""

from __future__ import annotations

import gc

SELDOM = (10_000, 20, 20)
"""How many new objects, and how many searches of these, bring on a search of the next older ones."""


def pytest_configure() -> None:
    gc.set_threshold(*SELDOM)


def pytest_collection_finish() -> None:
    gc.collect()
    gc.freeze()


def pytest_unconfigure() -> None:
    gc.unfreeze()
