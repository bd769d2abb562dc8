"""The chance that a whole case does not close: all its gaps and all their causes at once."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

import numpy as np

from ..casework.assembly import Meeting
from .spread import Fit

DRAWS = 20_000


@dataclass(frozen=True, slots=True)
class CaseChance:
    """How likely a case gives trouble, by draws of all its causes together.

    `stuck` is the chance that it does not go together: a part is too long for its place or too
    thick for its dado. `off` is the chance that any gap is out of its range, too open or out of
    plane as well. `error` is that of sampling, for either. `least` and `most` bound `off`
    exactly: the worst gap alone, and all gaps as if no two failed together.
    """

    place: str
    stuck: float
    off: float
    error: float
    least: float
    most: float


def case_chance(fit: Fit, place: str, draws: int = DRAWS, seed: int = 0) -> CaseChance:
    """Draw the causes of a case's gaps together, so that gaps which share causes fail together."""
    spreads = fit.in_place(place)
    causes = list(dict.fromkeys(cause for spread in spreads for cause in spread.errors))
    column = {cause: index for index, cause in enumerate(causes)}
    slopes = np.zeros((len(spreads), len(causes)))
    for row, spread in enumerate(spreads):
        for cause, share in spread.errors.items():
            slopes[row, column[cause]] = share * cause.deviation
    mean = np.array([float(spread.mean) for spread in spreads])
    low = np.array([float(spread.low) for spread in spreads])
    high = np.array([float(spread.high) for spread in spreads])
    holds_apart = np.array([spread.gap.meeting is not Meeting.FLUSH for spread in spreads], dtype=bool)
    drawn = np.random.default_rng(seed).standard_normal((draws, len(causes))) @ slopes.T + mean
    tight = drawn < low
    stuck = float((tight & holds_apart).any(axis=1).mean())
    off = float((tight | (drawn > high)).any(axis=1).mean())
    alone = [spread.chance for spread in spreads]
    widest = max(off * (1 - off), stuck * (1 - stuck), 1 / draws)
    return CaseChance(
        place,
        stuck,
        off,
        sqrt(widest / draws),
        max(alone, default=0.0),
        min(1.0, sum(alone)),
    )
