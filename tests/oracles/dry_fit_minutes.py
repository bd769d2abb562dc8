"""What dry fits cost in simulated builds, joint by joint: only where each space lies, and minutes a joint."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
from numpy.typing import NDArray

from casewright.tolerance.advice.bench_minutes import bench_minutes
from casewright.tolerance.outcomes.gap_spread import GapSpread
from oracles.simulate import Builds, Simulated


def joint_minutes(spread: GapSpread, drawn: Builds) -> Builds:
    """What one joint costs in each build; a limit of None is never passed."""
    bounds, cost = spread.bounds, bench_minutes()

    def below(limit: Fraction | None) -> NDArray[np.bool_]:
        return np.zeros(drawn.shape, bool) if limit is None else drawn < float(limit)

    def above(limit: Fraction | None) -> NDArray[np.bool_]:
        return np.zeros(drawn.shape, bool) if limit is None else drawn > float(limit)

    again = below(bounds.again_low) | above(bounds.again_high)
    ease = (below(bounds.ease) | above(bounds.ease_high)) & ~again
    clamp = below(bounds.hand) & ~again & ~ease
    shown = below(bounds.shown_low) | above(bounds.shown_high)
    return np.asarray(cost.recut * again + cost.ease * ease + cost.clamp * clamp + cost.shown * shown)


def job_minutes(shops: Simulated) -> Builds:
    """What the dry fits of the whole job cost in each build."""
    every = [joint_minutes(spread, shops.gaps[name]) for name, spread in shops.fit.spreads.items()]
    return np.asarray(np.sum(every, axis=0))
