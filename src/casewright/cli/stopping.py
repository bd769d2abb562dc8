"""What the program says and gives when the user stops it."""

from __future__ import annotations

import os

STOPPED = 130
"""The exit code: what a shell gives for a program that Ctrl-C ended."""


def stopped() -> int:
    """Say so on a line of standard error; gives the exit code.

    Written past Python's buffer: the interrupt may have come in the middle of a write to it.
    """
    os.write(2, b"stopped.\n")
    return STOPPED
