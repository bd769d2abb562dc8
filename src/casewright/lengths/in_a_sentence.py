"""Words in a sentence: the one place that puts commas, the last “and”, and the capital it begins with."""

from __future__ import annotations

from collections.abc import Iterable, Sequence


def listed(words: Iterable[str]) -> str:
    """`W1, W2 and W3`; one word stands by itself. There is at least one."""
    *first, last = words
    return f"{', '.join(first)} and {last}" if first else last


def with_capital(text: str) -> str:
    """The same with a capital first; the rest stays as it is, as marks and names do."""
    return f"{text[:1].upper()}{text[1:]}"


NAMED = 3


def few(marks: Sequence[str]) -> str:
    """The first three and how many more: `B1-F1, B1-F2, B2-F1 and 8 more`. A fourth is named: `1 more` is no
    shorter."""
    return listed(marks if len(marks) <= NAMED + 1 else [*marks[:NAMED], f"{len(marks) - NAMED} more"])
