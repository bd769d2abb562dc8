"""Boards of a grade as a yard might hand them over, drawn from a seed.

Lengths are whole feet and widths half inches, both even about the usual board, none below the grade's least
(a kiln-dried board may be half an inch narrower). What a board has of defects is drawn between none and all
that its grade allows, in one place for each clear cutting that the grade counts, right across it or along
one edge of it. How the boards of a grade are spread is our assumption, for want of a published table: a
yard's own rack tells better.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

import numpy as np

from ..shop.lumber import KILN_DRIED, LumberGrade
from ..shop.rough_boards import BoardDefect, RoughBoard

FOOT = 12
HALVES = 2
"""Half inches in an inch."""

EVEN = 0.5
MOST_PLACES = 4
"""Where a board has defects at most: the rule counts a clear cutting for every four feet of surface
measure, and no more than four."""


def boards_of_grade(
    grade: LumberGrade, usual_length: Fraction, usual_width: Fraction, rough: Fraction, seed: int
) -> Iterator[RoughBoard]:
    """One board after another, without end; the same seed gives the same boards."""
    draw = np.random.default_rng(seed)
    number = 0
    while True:
        number += 1
        length = _even_about(draw, grade.least_length, usual_length, Fraction(FOOT))
        width = _even_about(draw, grade.least_width - KILN_DRIED, usual_width, Fraction(1, HALVES))
        lost = float(1 - grade.least_yield) * draw.random()
        defects = tuple(_defects(draw, int(length), width, lost * float(length * width)))
        yield RoughBoard(f"lot {number}", length, (width,), rough, defects)


def _even_about(draw: np.random.Generator, least: Fraction, usual: Fraction, step: Fraction) -> Fraction:
    """A size on the step, each as likely as any, as far above the usual as the least lies below."""
    steps = int((usual - least) // step)
    return usual + step * int(draw.integers(-max(steps, 0), max(steps, 0) + 1))


def _defects(draw: np.random.Generator, long: int, wide: Fraction, area: float) -> Iterator[BoardDefect]:
    """Defects that take about so much of a board's face, each in its own stretch of the length."""
    places = int(draw.integers(1, max(1, min(MOST_PLACES, int(long * wide) // (4 * FOOT**2))) + 1))
    for place in range(places):
        across = wide if draw.random() < EVEN else wide / 2
        along = int(area / places / float(across))
        stretch = long // places
        if 0 < along <= stretch:
            start = place * stretch + int(draw.integers(0, stretch - along + 1))
            low = Fraction(0) if draw.random() < EVEN else wide - across
            yield BoardDefect(Fraction(start), Fraction(start + along), low, low + across)
