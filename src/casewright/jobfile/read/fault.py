"""What is wrong with entries that are readable each by itself."""

from __future__ import annotations

from dataclasses import dataclass

from ...findings import AS_IN_FILE, AtField
from .key_places import Path


@dataclass(frozen=True)
class Fault:
    """Entries that contradict one another; `path` leads to the one at fault."""

    code: str
    path: Path
    text: str
    fix: str
    at_field: AtField = AS_IN_FILE
