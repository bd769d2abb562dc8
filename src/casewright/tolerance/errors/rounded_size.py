"""A size that follows a measurement and is then set on the nearest mark of the rule."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import ceil, floor, sqrt
from statistics import NormalDist

from ...lengths.rounding import nearest

STANDARD = NormalDist()
REACH = 7.0  # deviations; what lies beyond has no weight in a float


@dataclass(frozen=True, slots=True)
class Rounded:
    """What rounding makes of a normal size: its mean, how much it still follows, what it adds.

    The rounded size is `mean` + `follows` x (the size less its middle) + a rest of deviation
    `rest` that does not vary with the size. This split is exact to second moments: `follows` is
    the mean slope of the steps (Stein's identity for normal variables).
    """

    mean: float
    follows: float
    rest: float


def rounded(middle: Fraction, deviation: float, step: Fraction) -> Rounded:
    """A size of the given middle and deviation (inches) after rounding to multiples of `step`."""
    if deviation <= 0.0:
        return Rounded(float(nearest(middle, step)), 0.0, 0.0)
    centre, width = float(middle), float(step)
    first = floor((centre - REACH * deviation) / width)
    last = ceil((centre + REACH * deviation) / width)
    edges = [(mark + 0.5) * width for mark in range(first - 1, last + 1)]
    below = [STANDARD.cdf((edge - centre) / deviation) for edge in edges]
    chances = [after - before for before, after in pairwise(below)]
    # Taken from the middle, or squares of whole sizes would swallow the small differences.
    offsets = [mark * width - centre for mark in range(first, last + 1)]
    mean = sum(offset * chance for offset, chance in zip(offsets, chances, strict=True))
    square = sum(offset**2 * chance for offset, chance in zip(offsets, chances, strict=True))
    follows = width * sum(STANDARD.pdf((edge - centre) / deviation) for edge in edges) / deviation
    rest = square - mean**2 - (follows * deviation) ** 2
    return Rounded(centre + mean, follows, sqrt(max(rest, 0.0)))
