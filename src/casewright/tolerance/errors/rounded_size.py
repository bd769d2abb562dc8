"""A size that follows a measurement and is then set on the nearest mark of the rule."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import asin, ceil, floor, pi, sqrt
from statistics import NormalDist

import numpy as np

from ...lengths.rounding import nearest

STANDARD = NormalDist()
REACH = 7.0  # deviations; what lies beyond has no weight in a float
_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(24)


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
    first, last = _marks(centre, deviation, width)
    edges = edges_of(middle, deviation, step)
    below = [STANDARD.cdf(edge) for edge in edges]
    chances = [after - before for before, after in pairwise(below)]
    # Taken from the middle, or squares of whole sizes would swallow the small differences.
    offsets = [mark * width - centre for mark in range(first, last + 1)]
    mean = sum(offset * chance for offset, chance in zip(offsets, chances, strict=True))
    square = sum(offset**2 * chance for offset, chance in zip(offsets, chances, strict=True))
    follows = width * sum(STANDARD.pdf(edge) for edge in edges) / deviation
    rest = square - mean**2 - (follows * deviation) ** 2
    return Rounded(centre + mean, follows, sqrt(max(rest, 0.0)))


def edges_of(middle: Fraction, deviation: float, step: Fraction) -> list[float]:
    """Where a size goes from one mark to the next, in deviations from its middle, as far as it may reach."""
    centre, width = float(middle), float(step)
    first, last = _marks(centre, deviation, width)
    return [((mark + 0.5) * width - centre) / deviation for mark in range(first - 1, last + 1)]


def shared_rest(ratio: float, one: Sequence[float], other: Sequence[float]) -> float:
    """The covariance of what rounding adds to two normal sizes whose correlation is `ratio`, in the steps
    of both; `one` and `other` are their `edges_of`.

    As the correlation grows from nothing to `ratio`, the covariance of the rounded sizes grows by the joint
    density at every pair of edges (R. L. Plackett, "A reduction formula for normal multivariate integrals",
    Biometrika 1954). What the straight lines have in common, the density at no correlation, is left out.
    """
    across, down = np.array(one)[:, None, None], np.array(other)[None, :, None]
    reach = asin(max(-1.0, min(ratio, 1.0)))
    angles = reach * (_NODES + 1.0) / 2.0
    square, product = across**2 + down**2, across * down
    # In angles, whose sines are correlations, the density has no pole where the sizes are one.
    density = np.exp((product * np.sin(angles) - square / 2.0) / np.cos(angles) ** 2)
    straight = np.exp(-square / 2.0) * np.cos(angles)
    return float(((density - straight).sum(axis=(0, 1)) @ _WEIGHTS) * reach / (4.0 * pi))


def _marks(centre: float, deviation: float, width: float) -> tuple[int, int]:
    """The first and the last mark within reach, by number."""
    return floor((centre - REACH * deviation) / width), ceil((centre + REACH * deviation) / width)
