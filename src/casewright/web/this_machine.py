"""The machine that casewright runs on, which needs no pairing and alone may do some things."""

from __future__ import annotations

from collections.abc import Mapping
from ipaddress import ip_address

from fastapi import HTTPException, Request


def is_this_machine(scope: Mapping[str, object]) -> bool:
    """Whether a request comes from a browser on the machine that casewright runs on."""
    client = scope.get("client")
    try:
        return ip_address(str(client[0])).is_loopback if isinstance(client, tuple | list) else False
    except ValueError:
        return False


def for_this_machine(request: Request) -> None:
    """A dependency of what only the maker's own machine may do. Raises HTTPException for other devices."""
    if not is_this_machine(request.scope):
        raise HTTPException(403, "Do this on the machine that casewright runs on.")
