"""Lengths that are told as a bound: what must be reached, or must not be passed.

The nearest mark may lie on the wrong side: whoever enters it would be told the same again. So a bound goes to
the next mark that keeps it.
"""

from __future__ import annotations

from math import ceil, floor

from .length import Length, Mark, show


def at_least(length: Length, mark: Mark) -> str:
    """The first mark of the rule that is not below the length, with its unit."""
    return show(ceil(length / mark.step) * mark.step, mark, unit=True).plain


def at_most(length: Length, mark: Mark) -> str:
    """The last mark of the rule that is not above the length, with its unit."""
    return show(floor(length / mark.step) * mark.step, mark, unit=True).plain
