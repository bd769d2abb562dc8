"""Long work, a few requests at a time, so that the others are still answered at once.

A handler runs in one of the server's forty threads. If each of them made a PDF or waited for a plan, no tap
at any bench would be answered until one was done. So such handlers take turns; whoever waits for one holds
no thread, and whoever leaves while waiting loses it.
"""

from __future__ import annotations

import asyncio
from collections.abc import AsyncGenerator
from threading import Event
from typing import Annotated, Any

from anyio import CapacityLimiter
from fastapi import Depends, Request
from starlette.requests import ClientDisconnect

MAKING = 2  # each keeps a core busy, and a kitchen table's computer has few
WAITING = 16  # each only holds a thread


class FewAtOnce:
    """So many requests of a kind at once, of all that come."""

    def __init__(self, at_once: int) -> None:
        self._limit = CapacityLimiter(at_once)

    async def take(self, request: Request) -> AsyncGenerator[Event, None]:
        """Wait for a turn and hold it until the handler is done. The event is set if the client leaves.

        Raises ClientDisconnect when it leaves before its turn comes.
        """
        left = Event()
        watch = asyncio.create_task(_watch(request, left))
        turn = asyncio.create_task(self._limit.acquire_on_behalf_of(left))
        try:
            await asyncio.wait({watch, turn}, return_when=asyncio.FIRST_COMPLETED)
            if not turn.done():
                raise ClientDisconnect
            yield left
        finally:
            watch.cancel()
            if not turn.done():
                turn.cancel()
            elif not turn.cancelled() and turn.exception() is None:
                self._limit.release_on_behalf_of(left)


async def _watch(request: Request, left: Event) -> None:
    while (await request.receive())["type"] != "http.disconnect":
        pass
    left.set()


async def _to_make(request: Request) -> AsyncGenerator[Event, None]:
    async for left in request.app.state.making.take(request):
        yield left


async def _to_wait(request: Request) -> AsyncGenerator[Event, None]:
    async for left in request.app.state.waiting.take(request):
        yield left


# Of scope "function": the turn ends with the handler, before the answer is sent to what may be a slow phone.
TURN_TO_MAKE: Any = Depends(_to_make, scope="function")
"""For handlers that work out something long themselves."""

TURN_TO_WAIT: Any = Depends(_to_wait, scope="function")
"""For handlers that wait until something in the background is finished."""

ClientGone = Annotated[Event, TURN_TO_MAKE]
"""A turn to make something; set when nobody waits for it any more."""
