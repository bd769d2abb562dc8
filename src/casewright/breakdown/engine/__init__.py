"""The rectangle core of the break-down: items, bins, guillotine patterns, and a proved bound."""

from .model import Axis, Bin, Bound, FirstCut, Instance, Item, Pattern, Piece, Rest, Solution, Strip
from .solve import solve
from .stop import FirstOf, MaxIterations, MaxSeconds, NoneBetter, Progress, Stop

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
