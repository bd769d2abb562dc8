"""The rectangle core of the break-down: items, bins, guillotine patterns, and a proved bound."""

from .instance import (
    Bound,
    FirstStage,
    Instance,
    LargeObject,
    Pattern,
    PlacedItem,
    RowAxis,
    SmallItem,
    Solution,
    Strip,
    Waste,
)
from .solve_instance import solve_instance
from .stop_rules import FirstOf, MaxIterations, MaxSeconds, Progress, Stop

__all__ = [
    "Bound",
    "FirstOf",
    "FirstStage",
    "Instance",
    "LargeObject",
    "MaxIterations",
    "MaxSeconds",
    "Pattern",
    "PlacedItem",
    "Progress",
    "RowAxis",
    "SmallItem",
    "Solution",
    "Stop",
    "Strip",
    "Waste",
    "solve_instance",
]
