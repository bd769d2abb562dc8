"""How far settings stray from their numbers, and cuts on one setting from each other, after some readings.

The model: a reading is the number set, plus the scale's offset, plus the setting's error, plus the cut's,
plus the caliper's; all normal about zero. What is believed beforehand of a deviation counts as so many
readings of it: a scaled inverse chi-square for its square (Gelman and others, "Bayesian Data Analysis", 3rd
edition, sections 2.6 and 3.2). Where every reading has the same variance the belief after them has the same
form, and is a sum; with a caliper's error and settings of different numbers of pieces it has not, so a grid
of the deviation is used. What is next seen follows Student's t, the wider the fewer readings there are.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

import numpy as np
from numpy.typing import NDArray

PRIOR_WORTH = 4.0
"""The figure a shop starts from counts as so many readings (our judgement, no source)."""

REACH = 30.0  # times and parts of the starting figure: no shop is so far from it
STEPS = 301  # of the grid, even in the logarithm; a third as many gave the same figures to twelve digits

Grid = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Belief:
    """What is believed of a deviation: its square is scaled inverse chi-square, with `degrees` of freedom
    about the square of `middle` (inches)."""

    middle: float
    degrees: float

    @property
    def to_use(self) -> float:
        """The deviation of what is next seen: that of Student's t, which is wider on few readings."""
        return self.middle * sqrt(self.degrees / (self.degrees - 2.0))


@dataclass(frozen=True, slots=True)
class Offset:
    """What is believed of a scale's offset: normal, mean and deviation in inches."""

    mean: float
    deviation: float


@dataclass(frozen=True, slots=True)
class SettingMean:
    """The mean error of the readings taken on one setting, and the variance it has beside the setting's."""

    error: float
    variance: float


def start_from(deviation: float) -> Belief:
    """What is believed before the first reading."""
    return Belief(deviation, PRIOR_WORTH)


def learn_within(start: Belief, squares: float, degrees: int, reading_variance: float) -> Belief:
    """The deviation from cut to cut, from the sum of squares of readings about the means of their settings.

    `degrees` is the number of readings less that of settings. The readings' own variance is taken off.
    """
    sigma = _grid(start)
    variance = sigma**2 + reading_variance
    likelihood = -0.5 * (degrees * np.log(variance) + squares / variance)
    return _as_belief(sigma, _weights(_prior(sigma, start) + likelihood))


def learn_between(
    start: Belief, scales: Sequence[Sequence[SettingMean]], offset: float
) -> tuple[Belief, tuple[Offset, ...]]:
    """The deviation from setting to setting, and the offset of each scale they were set by.

    `scales` holds the settings of each scale apart; an offset is normal with deviation `offset` beforehand (0
    for none). It is integrated out in closed form at each deviation of the grid.
    """
    sigma = _grid(start)
    log = _prior(sigma, start)
    given: list[tuple[Grid, Grid]] = []
    for settings in scales:
        errors = np.array([one.error for one in settings])
        spread = sigma[:, None] ** 2 + np.array([one.variance for one in settings])[None, :]
        log = log - 0.5 * (np.log(spread) + errors**2 / spread).sum(axis=1)
        if offset:
            precision = 1.0 / offset**2 + (1.0 / spread).sum(axis=1)
            mean = (errors / spread).sum(axis=1) / precision
            log = log + 0.5 * (mean**2 * precision - np.log(precision))
            given.append((mean, 1.0 / precision))
    weights = _weights(log)
    return _as_belief(sigma, weights), tuple(_mixed(weights, mean, variance) for mean, variance in given)


def _mixed(weights: Grid, mean: Grid, variance: Grid) -> Offset:
    """One normal with the mean and variance of the mixture over the grid."""
    middle = float(weights @ mean)
    return Offset(middle, sqrt(float(weights @ (variance + mean**2)) - middle**2))


def _grid(start: Belief) -> Grid:
    return np.asarray(start.middle * np.geomspace(1.0 / REACH, REACH, STEPS))


def _prior(sigma: Grid, start: Belief) -> Grid:
    """The logarithm of the density beforehand, of the logarithm of the deviation."""
    return np.asarray(-start.degrees * (np.log(sigma) + 0.5 * (start.middle / sigma) ** 2))


def _weights(log: Grid) -> Grid:
    weights = np.exp(log - log.max())
    return np.asarray(weights / weights.sum())


def _as_belief(sigma: Grid, weights: Grid) -> Belief:
    """The scaled inverse chi-square whose precision has the grid's mean and variance; exact where the belief
    is one."""
    precision = 1.0 / sigma**2
    mean = float(weights @ precision)
    variance = float(weights @ (precision - mean) ** 2)
    return Belief(1.0 / sqrt(mean), 2.0 * mean**2 / variance)
