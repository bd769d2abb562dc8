"""“Did you mean …?”: the one place that suggests names for an unknown one."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches

CLOSE = 0.6
"""How similar two names must be, from 0 to 1. Any lower, and names of a letter and a digit all match."""

MOST = 3
MOST_LISTED = 30
LONGEST = 100
"""Only this many characters of a name are compared: the time grows with the square of the length."""


def did_you_mean(name: str, known: Iterable[str]) -> str:
    """A sentence that suggests what `name` was meant to be: the nearest known names, or all of them.

    Upper and lower case count as the same. If no name is near and there are too many to list, the first
    few are given as examples.
    """
    names = list(dict.fromkeys(known))
    by_small: dict[str, str] = {}
    for one in names:
        by_small.setdefault(one.lower(), one)
    if close := get_close_matches(name[:LONGEST].lower(), by_small, MOST, CLOSE):
        return f"Did you mean {_either([by_small[one] for one in close])}?"
    if not names:
        return "There are none."
    if len(names) > MOST_LISTED:
        first = ", ".join(f"“{one}”" for one in names[:MOST])
        return f"Write one like {first}; there are {len(names)}."
    return f"Write {_either(names)}."


def is_nearly(name: str, known: Iterable[str], alike: float) -> bool:
    """Whether a name is as much alike (0 to 1) one of the known ones that it is mistyped."""
    return bool(get_close_matches(name[:LONGEST], known, 1, alike))


def _either(names: list[str]) -> str:
    *first, last = (f"“{one}”" for one in names)
    return f"{', '.join(first)} or {last}" if first else last
