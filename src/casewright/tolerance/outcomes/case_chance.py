"""The chance that a whole case does not close: all its gaps and all their causes at once."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import sqrt

import numpy as np

from ...casework.build.meetings import Meeting
from .gap_spread import Fit

DRAWS = 20_000


@dataclass(frozen=True, slots=True)
class CaseChance:
    """The chance that a case gives trouble, from random draws of all its causes together.

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
    if not spreads:
        return CaseChance(place, 0.0, 0.0, sqrt(1 / draws / draws), 0.0, 0.0)
    causes = list(dict.fromkeys(cause for spread in spreads for cause in spread.errors))
    column = {cause: index for index, cause in enumerate(causes)}
    slopes = np.zeros((len(spreads), len(causes)))
    for row, spread in enumerate(spreads):
        for cause, share in spread.errors.items():
            slopes[row, column[cause]] = share * cause.deviation
    # All that tells one case from another, rounded far below what matters: cases alike are drawn once.
    shares = np.round(slopes @ slopes.T, 15)
    tight = [float(spread.low - spread.mean) for spread in spreads]
    open_ = [float(spread.high - spread.mean) for spread in spreads]
    holds_apart = tuple(spread.gap.meeting is not Meeting.FLUSH for spread in spreads)
    stuck, off = _drawn(shares.tobytes(), tuple(tight), tuple(open_), holds_apart, draws, seed)
    alone = [spread.chance for spread in spreads]
    widest = max(off * (1 - off), stuck * (1 - stuck), 1 / draws)
    return CaseChance(place, stuck, off, sqrt(widest / draws), max(alone), min(1.0, sum(alone)))


@lru_cache(maxsize=512)
def _drawn(
    shares: bytes,
    tight: tuple[float, ...],
    open_: tuple[float, ...],
    holds_apart: tuple[bool, ...],
    draws: int,
    seed: int,
) -> tuple[float, float]:
    """How often gaps of the given covariance are too tight where that matters, and out of range at all."""
    count = len(tight)
    values, vectors = np.linalg.eigh(np.frombuffer(shares).reshape(count, count))
    roots = vectors * np.sqrt(np.maximum(values, 0.0))
    drawn = np.random.default_rng(seed).standard_normal((draws, count)) @ roots.T
    below = drawn < np.array(tight)
    stuck = below[:, np.array(holds_apart, dtype=bool)].any(axis=1)
    off = (below | (drawn > np.array(open_))).any(axis=1)
    return float(stuck.mean()), float(off.mean())
