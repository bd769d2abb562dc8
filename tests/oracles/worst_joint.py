"""What happens to a case in simulated builds: each joint of each build in its class, the worst decides."""

from __future__ import annotations

import numpy as np

from casewright.tolerance.outcomes.gap_spread import Fit
from casewright.tolerance.outcomes.outcome import Outcome
from oracles.simulate import Simulated


def worst_of_joints(shops: Simulated, plan: Fit, place: str) -> Outcome:
    """The shares of simulated builds, each joint of each build put in its class by the bounds themselves."""
    grade = np.zeros(0)
    shown = np.zeros(0, dtype=bool)
    for spread in plan.in_place(place):
        drawn, b = shops.gaps[spread.gap.name], spread.bounds
        own = np.zeros(len(drawn))
        for worse, below in ((1, b.hand), (2, b.ease), (3, b.again_low)):
            own = np.where(drawn < (-np.inf if below is None else float(below)), worse, own)
        for worse, above in ((2, b.ease_high), (3, b.again_high)):
            own = np.where(drawn > (np.inf if above is None else float(above)), worse, own)
        seen = drawn < (-np.inf if b.shown_low is None else float(b.shown_low))
        seen |= drawn > (np.inf if b.shown_high is None else float(b.shown_high))
        grade = np.maximum(grade, own) if len(grade) else own
        shown = shown | seen if len(shown) else seen
    share = [float((grade == one).mean()) for one in range(4)]
    return Outcome(share[0], share[1], float(shown.mean()), share[2], share[3])
