"""The minutes of a repair, step by step: our own first estimates, no source."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from casewright.repair.repair_times import RepairPace
from casewright.repair.ways.way import (
    Action,
    Buy,
    Cost,
    CutAgain,
    Forgo,
    GlueOn,
    KeepAsCut,
    MakeOf,
    NewPlaces,
    SetInput,
    TrimTo,
)


@pytest.mark.parametrize(
    ("action", "features", "minutes"),
    [
        (CutAgain("B1-L", "ply offcut 1"), 0, 8),
        (CutAgain("B1-L", "ply offcut 1"), 3, 8 + 3 * 4),
        (TrimTo("B1-L", F(30), F(20)), 3, 4),
        (GlueOn("B1-L", F(20), F(1), "ply offcut 1"), 3, 25 + 8),
        (Buy("ply", "ply", 2), 3, 90),
        (SetInput("B1.depth", "depth", F(20), F(19)), 3, 3),
        (NewPlaces("ply", ("B1-L",)), 3, 3),
        (Forgo("B1-A1"), 3, 0),
        (MakeOf("B1-A1", "thin"), 3, 0),
        (KeepAsCut("B1-L"), 3, 0),
    ],
)
def test_a_step_takes_its_minutes(action: Action, features: int, minutes: int) -> None:
    assert RepairPace().minutes(action, features) == minutes


def test_money_counts_before_minutes_and_minutes_before_all_else() -> None:
    """From the dearest to the cheapest, each worse than the next in one respect and better in those after."""
    falling = [
        Cost(F(2), F(0), 0, F(0), F(0)),
        Cost(F(1), F(2), 0, F(0), F(0)),
        Cost(F(1), F(1), 2, F(0), F(0)),
        Cost(F(1), F(1), 1, F(2), F(0)),
        Cost(F(1), F(1), 1, F(1), F(2)),
        Cost(F(1), F(1), 1, F(1), F(1)),
    ]
    assert sorted(falling, key=Cost.key, reverse=True) == falling
