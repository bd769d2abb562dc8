"""Lengths as the planner's sentences write them."""

from __future__ import annotations

from fractions import Fraction


def length_text(length: Fraction) -> str:
    """`23 1/2` where the length is on a shop's rule (down to 1/64), else a decimal."""
    if length.denominator not in (1, 2, 4, 8, 16, 32, 64):
        return f"{float(length):.6g}"
    sign, size = ("-" if length < 0 else ""), abs(length)
    whole, rest = divmod(size, 1)
    if rest == 0:
        return f"{sign}{whole}"
    return f"{sign}{f'{whole} ' if whole else ''}{rest}"


def size_text(length: Fraction, width: Fraction) -> str:
    return f"{length_text(length)} by {length_text(width)}"
