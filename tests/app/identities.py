"""Names for what tests send: each is given once in a process."""

from __future__ import annotations

from itertools import count

_numbers = count(1)


def identity() -> str:
    """A name that no other event has."""
    return f"t{next(_numbers)}"
