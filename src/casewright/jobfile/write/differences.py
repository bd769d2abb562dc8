"""Entries as what differs from those they start from."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

Entries = dict[str, Any]  # a table's entries as they are written, in their order


def likest(entries: Mapping[str, Any], starts: Mapping[str, Mapping[str, Any]]) -> str:
    """The key of the start from which the fewest entries differ, the first of equals."""
    return min(starts, key=lambda key: len(differing(entries, starts[key])))


def differing(entries: Mapping[str, Any], start: Mapping[str, Any]) -> Entries:
    """The entries that differ from the start."""
    return {name: value for name, value in entries.items() if start.get(name) != value}
