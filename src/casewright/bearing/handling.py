"""What the maker carries alone, beside what the lifting equation recommends for one person and for two."""

from __future__ import annotations

from collections.abc import Iterator

from ..casework.project import Project
from ..findings import Finding, Weight
from ..lengths.quantities import weighed
from ..strength.lift_limit import LIFTING_SOURCE, LOAD_CONSTANT
from ..strength.usual_lifts import limit_on_edge


def handling_findings(project: Project) -> Iterator[Finding]:
    """A note where the shop's own limit lies above what the equation allows in the best posture, with what it
    recommends for a sheet. The limit stays the maker's: the plan is made by it."""
    own, limit, unit = project.job.shop.carry.weight, limit_on_edge(), project.job.unit
    if own is not None and own > LOAD_CONSTANT:
        text = (
            f"the shop's limit for one person is {weighed(own, unit)}; for a sheet on edge off the floor, "
            f"{LIFTING_SOURCE}, recommends {weighed(limit.one, unit)} for one and {weighed(limit.two, unit)} "
            "for two."
        )
        fix = "Lift more with a helper or a cart, or lower your limit: pieces are then cut smaller."
        yield Finding("carry-above-equation", "shop.carry.weight", text, fix, Weight.NOTE)
