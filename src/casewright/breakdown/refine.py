"""The later goals: better plans of the same sheets."""

from __future__ import annotations

from .draft import fits
from .engine import Stop
from .planner import Planner
from .reshape import reshaped
from .score import standing


def refine(planner: Planner, stop: Stop, seed: int) -> None:
    polish(planner, stop)


def polish(planner: Planner, stop: Stop) -> None:
    """Reshape single sheets while that makes the plan better."""
    grid, scorer = planner.grid, planner.scorer
    layouts = list(planner.layouts)
    whole = standing(scorer, layouts)
    free = planner.problem.pattern.stages is None
    wanted = {
        (crosscut, size)
        for item in grid.items
        for turned in ((False, True) if item.may_turn else (False,))
        for crosscut, size in zip((True, False), item.size(turned), strict=True)
    }
    best = whole.rank()
    for place in range(len(layouts)):
        improved = True
        while improved:
            improved = False
            now = layouts[place]
            cost = grid.bins[now.bin].cost
            for other in reshaped(now, grid, free, wanted):
                if not fits(grid, other):
                    continue
                whole.change([(scorer(now), cost)], [(scorer(other), cost)])
                rank = whole.rank()
                if rank < best:
                    best, layouts[place], improved = rank, other, True
                    break
                whole.change([(scorer(other), cost)], [(scorer(now), cost)])
    planner.offer_ready(layouts, planner.missing)
