"""Leftovers, and what they are worth.

The worth of a leftover is the cost of its sheet times the square of its share of the sheet's
area: half a sheet in one piece counts a quarter of the sheet, the same half in ten strips a
fortieth. The square is our choice of a convex value (the literature uses powers of the area
between 1 and 2); only leftovers large enough to keep count at all.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from ..plan import SheetPlan
from ..problem import Bin, Problem


def worth_of_leftover(bin_: Bin, area: Fraction) -> Fraction:
    share = area / bin_.area
    return bin_.cost * share * share


def leftover_worth(problem: Problem, sheets: Iterable[SheetPlan]) -> Fraction:
    """The worth of every kept leftover of these sheets, in the money of their prices."""
    bins = {bin_.name: bin_ for bin_ in problem.bins}
    return sum(
        (worth_of_leftover(bins[sheet.bin], piece.area) for sheet in sheets for piece in sheet.offcuts),
        Fraction(0),
    )


def largest_leftover(sheets: Iterable[SheetPlan]) -> Fraction:
    """The area of the largest kept leftover, 0 when there is none."""
    return max((piece.area for sheet in sheets for piece in sheet.offcuts), default=Fraction(0))
