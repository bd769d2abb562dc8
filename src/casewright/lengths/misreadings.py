"""Why a text cannot be read as one length, and what to write instead."""

from __future__ import annotations

import re
from collections.abc import Container

# Each pattern comes with the rest of a sentence that begins with the quoted text. The first pattern
# found in the plain text gives the reason.
_NOT_A_SIZE = (
    (
        ",",
        "has a comma, which may mark decimals or thousands; "
        "write 27.375 with a point, or 1200 without a comma",
    ),
    (r"^[^0-9]*$", "holds no number; write a length such as 27 3/8, 3' 5 1/4\" or 695 mm"),
    (r"~", "is marked as rounded; write the size itself, without ~"),
    (r"[+*×÷=()^]|[0-9]\s*x\s*[0-9]", "looks like a calculation; work it out and write the result"),
)
_TWO_READINGS = (
    (r"/\s*[0-9]+\s*/", "has two slashes in one fraction; write one, as in 1/2"),
    (r"/\s*(?:[^\s0-9]|$)|(?:^|[^\s0-9])\s*/", "has an incomplete fraction; write both numbers, as in 3/4"),
    (
        r"^[+-]?[0-9]+\s*-\s*[0-9]+(?![0-9]*\s*/|\.)",
        "may be a range, a subtraction or an incomplete fraction; "
        "write 27-3/8, 27.375 or the one size you mean",
    ),
    (
        r"^[+-]?[0-9]+\s+[0-9]+(?![0-9]*\s*/|\.)",
        "may be one number in two pieces or an incomplete fraction; write 1200 without a space, or 27 3/8",
    ),
    (
        r"[0-9]\s+-|[0-9]-\s",
        "has a dash next to a space, which may join or subtract; write 27-3/8, 27 3/8 or the result",
    ),
    (
        r"\.[0-9]*[\s-]+[0-9]+\s*/",
        "has a fraction after a decimal; write one or the other, as in 27.375 or 27 3/8",
    ),
    (
        r"[0-9].*[^0-9./].*[0-9]",
        "has more than one size in it; write one size in one unit, or feet with inches",
    ),
)


def why_not(text: str, units: Container[str]) -> str:
    """The reason and the fix for a plain text that is not a length."""
    for pattern, why in _NOT_A_SIZE:
        if re.search(pattern, text):
            return why
    for word in re.findall(r"[^\W\d_]+", text):
        if word not in units:
            return unknown_unit(word)
    for pattern, why in _TWO_READINGS:
        if re.search(pattern, text):
            return why
    return "cannot be read as one length; write it like 27 3/8, 3' 5 1/4\", 695 mm or 27.375"


def unknown_unit(word: str) -> str:
    """The reason and the fix for a word that is not a unit."""
    return f"has “{word}” as its unit; use in, \", ft, ', mm, cm or m"
