"""The joints of a case that take a tap at the dry fit, and how those that were tried went together."""

from __future__ import annotations

from typing import Any

from ...tolerance.learning.tapped_joints import tapped_joints
from ...tolerance.outcomes.by_dry_fits import TALLIED
from ...tolerance.tolerance_wording import gap_title
from ..jobs.worked_job import PlannedJob
from ..shop.shop_floor import BenchRecord


def joints_of_case(floor: PlannedJob, case: str) -> list[dict[str, str]]:
    """The joints of a case by key and in words, as a tablet keeps them."""
    return [
        {"name": spread.gap.key, "words": gap_title(spread)}
        for spread in floor.fit.in_place(case)
        if spread.gap.role in TALLIED
    ]


def dry_fits_told(heard: BenchRecord) -> dict[str, Any]:
    """How each joint that was tried went together, by its key, after the last place of the record."""
    joints: dict[str, str] = {}
    if heard.state is not None and heard.floor is not None:
        fit = heard.floor.fit
        tapped = tapped_joints(fit, heard.state.dry_fits)
        joints = {fit.gaps[name].key: how for name, how in tapped.how.items()}
    return {"place": heard.place, "joints": joints}
