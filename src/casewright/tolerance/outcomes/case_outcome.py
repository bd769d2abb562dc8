"""What happens to a whole case at the dry fit: the worst of its joints decides, all their causes at once."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from .bounds import Bounds
from .gap_spread import Fit, GapSpread
from .outcome import Outcome, mean_outcome

DRAWS = 8_000
RARE = 0.002
NEVER = 1e9  # inches: a limit that no gap passes


def case_outcome(fit: Fit, place: str) -> Outcome:
    """The outcome of a case, or of a run in its opening.

    The causes of all its gaps are drawn together (seeded), so that gaps which share causes go wrong together;
    the worst joint decides. Where cutting again is rarer than sampling can tell, it is the sum of its joints'
    chances, which is never too small.
    """
    return _together(fit.in_place(place))


def job_outcome(fit: Fit) -> Outcome:
    """The shares over the cases of a job: of so many cases, so many by hand."""
    return mean_outcome([case_outcome(fit, mark) for mark in fit.project.cases])


def _together(every: Sequence[GapSpread]) -> Outcome:
    # What cannot be out of its range needs no draw.
    spreads = [spread for spread in every if spread.outcome.by_hand < 1.0 or spread.outcome.shown > 0.0]
    if not spreads:
        return Outcome(1.0, 0.0, 0.0, 0.0, 0.0)
    causes = list(dict.fromkeys(cause for spread in spreads for cause in spread.errors))
    column = {cause: index for index, cause in enumerate(causes)}
    slopes = np.zeros((len(spreads), len(causes)))
    for row, spread in enumerate(spreads):
        for cause, share in spread.errors.items():
            slopes[row, column[cause]] = share * cause.deviation
    # All that tells one case from another, rounded far below what matters: cases alike are drawn once.
    shares = np.round(slopes @ slopes.T, 15)
    limits = tuple(_beside_mean(spread.own_bounds, float(spread.mean)) for spread in spreads)
    clamp, ease, recut, shown = _drawn(shares.tobytes(), limits)
    if recut < RARE:
        recut = min(RARE, sum(spread.outcome.recut for spread in spreads))
    ease = max(0.0, ease - recut)
    clamp = min(clamp, 1.0 - ease - recut)
    return Outcome(1.0 - clamp - ease - recut, clamp, shown, ease, recut)


def _beside_mean(bounds: Bounds, mean: float) -> tuple[float, ...]:
    """Each limit less the mean: hand, ease, ease above, again, again above, shown below, shown above."""
    low = [
        -NEVER if one is None else float(one) - mean for one in (bounds.hand, bounds.ease, bounds.shown_low)
    ]
    eased = bounds.again_high if bounds.ease_high is None else bounds.ease_high
    high = [NEVER if one is None else float(one) - mean for one in (eased, bounds.shown_high)]
    again = -NEVER if bounds.again_low is None else float(bounds.again_low) - mean
    wide = NEVER if bounds.again_high is None else float(bounds.again_high) - mean
    # Without a limit for clamps, what is eased is what goes in by hand no more.
    return max(low[0], low[1]), low[1], high[0], again, wide, low[2], high[1]


@lru_cache(maxsize=512)
def _drawn(shares: bytes, limits: tuple[tuple[float, ...], ...]) -> tuple[float, float, float, float]:
    """How often the worst of gaps with the given covariance wants a clamp, how often easing or more,
    how often cutting again, and how often any shows."""
    count = len(limits)
    values, vectors = np.linalg.eigh(np.frombuffer(shares).reshape(count, count))
    kept = values > 1e-18
    roots = vectors[:, kept] * np.sqrt(values[kept])
    drawn = np.random.default_rng(0).standard_normal((DRAWS, int(kept.sum()))) @ roots.T
    hand, ease, ease_high, again, wide, shown_low, shown_high = np.array(limits).T
    work = _any(drawn < ease) | _any(drawn > ease_high)
    clamp = _any(drawn < hand) & ~work
    shown = _any(drawn < shown_low) | _any(drawn > shown_high)
    recut = _any(drawn < again) | _any(drawn > wide)
    return float(clamp.mean()), float(work.mean()), float(recut.mean()), float(shown.mean())


def _any(found: NDArray[np.bool_]) -> NDArray[np.bool_]:
    return np.asarray(found.any(axis=1))
