"""The rectangle core of the break-down: items, bins, guillotine patterns, and a proved bound."""

from .instance import Axis, Bin, Bound, FirstCut, Instance, Item, Pattern, Piece, Rest, Solution, Strip
from .solve_instance import solve
from .stop_rules import FirstOf, MaxIterations, MaxSeconds, NoneBetter, Progress, Stop

__all__ = [
    "Axis",
    "Bin",
    "Bound",
    "FirstCut",
    "FirstOf",
    "Instance",
    "Item",
    "MaxIterations",
    "MaxSeconds",
    "NoneBetter",
    "Pattern",
    "Piece",
    "Progress",
    "Rest",
    "Solution",
    "Stop",
    "Strip",
    "solve",
]
