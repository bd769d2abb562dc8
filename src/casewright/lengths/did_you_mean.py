"""What a name that names nothing may have been meant for: one rule and one sentence for the program."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches

CLOSE = 0.6
"""How alike two names must be, from 0 to 1. Below it, names of one letter and a digit match any other."""

MOST = 3
MOST_LISTED = 30
LONGEST = 100
"""Only so much of a name is compared: the time goes with the square of its length."""


def did_you_mean(name: str, known: Iterable[str]) -> str:
    """A sentence that helps whoever wrote `name`: the nearest of the known names, or all of them.

    Small and capital letters count alike. Where nothing is near and there are too many to list,
    the first few show how such names look.
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


def _either(names: list[str]) -> str:
    *first, last = (f"“{one}”" for one in names)
    return f"{', '.join(first)} or {last}" if first else last
