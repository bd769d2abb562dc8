"""Which state of the kernel's sources a library was compiled from.

A file of its own that imports nothing of the package: setup.py uses it before there is one.
"""

from __future__ import annotations

import zlib
from pathlib import Path


def fingerprint(folder: Path) -> int:
    """A number that tells one state of the kernel's sources from another; setup.py compiles it in."""
    number = 0
    for path in sorted([*folder.glob("*.c"), *folder.glob("*.h")]):
        number = zlib.crc32(path.read_bytes(), zlib.crc32(path.name.encode(), number))
    return number
