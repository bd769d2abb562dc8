"""Several words in one sentence: the one place that puts commas and the last “and”."""

from __future__ import annotations

from collections.abc import Iterable


def listed(words: Iterable[str]) -> str:
    """`W1, W2 and W3`; one word stands by itself. There is at least one."""
    *first, last = words
    return f"{', '.join(first)} and {last}" if first else last
