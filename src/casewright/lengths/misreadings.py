"""Why a text cannot be read as one length, and what to write instead."""

from __future__ import annotations

import re
from collections.abc import Container

# Each a pattern over the plain text with what a text like that says to its maker: the rest of
# a sentence that begins with the text in quotes. The first that is found gives the reason.
_NOT_A_SIZE = (
    (
        ",",
        "has a comma, which may set off decimals or thousands; write 27.375 with a point, or 1200 unbroken",
    ),
    (r"^[^0-9]*$", "holds no number; write a length such as 27 3/8, 3' 5 1/4\" or 695 mm"),
    (r"~", "is marked as rounded; write the size itself, without ~"),
    (r"[+*×÷=()^]|[0-9]\s*x\s*[0-9]", "looks like a sum; work it out and write the one size"),
)
_TWO_READINGS = (
    (r"/\s*[0-9]+\s*/", "has two bars in one fraction; write one, as in 1/2"),
    (r"/\s*(?:[^\s0-9]|$)|(?:^|[^\s0-9])\s*/", "has half a fraction; write both halves, as in 3/4"),
    (
        r"^[+-]?[0-9]+\s*-\s*[0-9]+(?![0-9]*\s*/|\.)",
        "may be a range, a subtraction or a fraction cut short; write 27-3/8, 27.375 or the one size meant",
    ),
    (
        r"^[+-]?[0-9]+\s+[0-9]+(?![0-9]*\s*/|\.)",
        "may be one number in two pieces or a fraction cut short; write 1200 unbroken, or 27 3/8",
    ),
    (
        r"[0-9]\s+-|[0-9]-\s",
        "has a dash beside a space, which may join or take away; write 27-3/8, 27 3/8 or the result",
    ),
    (
        r"\.[0-9]*[\s-]+[0-9]+\s*/",
        "puts a fraction behind a decimal; write the one or the other, as in 27.375 or 27 3/8",
    ),
    (
        r"[0-9].*[^0-9./].*[0-9]",
        "holds more than one size; write one, in one unit (or feet with inches)",
    ),
)


def why_not(text: str, units: Container[str]) -> str:
    """The reason and the fix for a plain text that no pattern of a length reads."""
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
    """The same for a word that is no unit."""
    return f"has “{word}” for a unit; use in, \", ft, ', mm, cm or m"
