"""Sizes a little smaller than those of a job, to be tried for what they save in sheets."""

from __future__ import annotations

from fractions import Fraction

from ...lengths.length import Mark

MOST = Fraction(3, 4)
"""Inches by which cases may become shallower or lower: with more, they are other cases. Common practice, no
source."""


def most_steps(mark: Mark) -> int:
    """By how many marks of the rule a case may become smaller."""
    return int(MOST / mark.step)


def smaller_by(size: Fraction, steps: int, mark: Mark) -> Fraction:
    """A size less so many marks of the rule."""
    return size - steps * mark.step


def half_trim(trim: Fraction) -> Fraction:
    """Half of what is usually trimmed off a sheet: many edges need no more."""
    return trim / 2
