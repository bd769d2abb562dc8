"""Python's search for garbage among all that the server keeps, put off until nobody asks for anything.

While it lasts nobody is answered, and it takes longer the more jobs are kept warm: measured, 50 ms of
processor time for each of 700 parts, 0.9 s for sixteen of them, nine times while those were opened. What it
finds are jobs that nobody looks at any more, 8 MB each, so it can wait. Young garbage is still found at once,
in 4 ms.
"""

from __future__ import annotations

import asyncio
import gc
from collections.abc import Callable

LOOK = 1.0  # seconds
QUIET_LOOKS = 3
"""So many looks without a request make a quiet moment. There is none while a shop screen is open, which asks
twice a second."""

WORTH = 10
"""Searches of young objects since the last search of all that make another worth its while: Python's own
number."""

SELDOM = 300
"""The same where it is never quiet: then there may be 25 such jobs to forget, 200 MB."""

Activity = Callable[[], tuple[int, int]]
"""How many requests there were so far, and how many are being answered."""


async def collect_when_quiet(activity: Activity, look: float = LOOK) -> None:
    """Search at quiet moments, until cancelled."""
    gc.collect()
    gc.freeze()  # the program itself, which is there to stay
    young, middle, _ = gc.get_threshold()
    gc.set_threshold(young, middle, SELDOM)
    asked, quiet = -1, 0
    while True:
        await asyncio.sleep(look)
        before, (asked, answering) = asked, activity()
        quiet = quiet + 1 if asked == before and not answering else 0
        if quiet >= QUIET_LOOKS and gc.get_count()[2] >= WORTH:
            gc.collect()
