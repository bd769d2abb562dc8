"""The rectangle solver: small items from large objects (bins), in guillotine patterns, with a proved bound.

In the typology of G. Waescher, H. Haussner and H. Schumann (European Journal of Operational Research 183,
2007) the problem is two-dimensional and rectangular, input minimisation: a cutting stock or bin packing
problem, as the items are much alike or not, over one or several sizes of large object. Use from outside what
`__all__` names.
"""

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
from .stop_rules import EndsEarly, FirstOf, MaxIterations, MaxSeconds, Progress, Stop
from .work_count import Count, WorkCount, uncounted

__all__ = [
    "Bound",
    "Count",
    "EndsEarly",
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
    "WorkCount",
    "solve_instance",
    "uncounted",
]
