"""How long a request may be: told by its header, and counted while it comes in.

Nothing of a longer one is kept. One that says its length is refused before a byte is read; one sent in
pieces, or that says too little, is broken off as soon as it has become too long.
"""

from __future__ import annotations

from starlette.exceptions import HTTPException
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from .this_machine import is_this_machine

LONGEST = 4_000_000
"""Bytes of a request: twice the longest job file, since a form writes some signs in more bytes than one."""


class BodyTooLong(HTTPException):
    """A request is too long. An HTTPException, since whoever reads a body lets only those pass."""

    def __init__(self, longest: int) -> None:
        text = f"The request is longer than {longest // 1_000_000} million bytes, so it was not read."
        super().__init__(413, text)


class BodyLimit:
    """Refuses a request that is longer than `longest` bytes; `longer` are paths where the machine itself may
    send more."""

    def __init__(self, app: ASGIApp, longest: int = LONGEST, longer: dict[str, int] | None = None) -> None:
        self.app = app
        self.longest = longest
        self.longer = longer or {}

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let the request through, counting."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        longest = self.longest
        if is_this_machine(scope):
            longest = self.longer.get(scope["path"], longest)
        said = dict(scope["headers"]).get(b"content-length", b"0")
        if said.isdigit() and int(said[:20]) > longest:
            raise BodyTooLong(longest)
        taken = 0

        async def counted() -> Message:
            nonlocal taken
            message = await receive()
            taken += len(message.get("body", b""))
            if taken > longest:
                raise BodyTooLong(longest)
            return message

        await self.app(scope, counted, send)
