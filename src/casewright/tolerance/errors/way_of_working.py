"""A way of working: which sizes share a setting, what is measured, what is fitted, and from where.

The plan is one way of working; advice is another, weighed by the same sums.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from ...shop.measuring_tools import MeasuringTool


@dataclass(frozen=True, slots=True)
class FittedSize:
    """A size cut from a direct measurement of the room that the rest of gap `gap` leaves for it."""

    gap: str
    tool: MeasuringTool


@dataclass(frozen=True, slots=True)
class Method:
    """How the job is worked. The empty one works to the plan's numbers and measures nothing.

    `settings` gives sizes, by name, another setting than their own. `measured` lists sizes (or inputs, as a
    sheet's thickness) that are measured, and with what, before anything that follows from them is made;
    `follow` are the parts that are then cut to match, where all others are still cut to the plan. `fitted`
    lists sizes cut from a direct measurement. `moved` lists channel places laid off from the opposite edge.
    `proved` lists the settings of depths that are proved on a test piece with a gauge. `tried` gives the
    channels that are tried in the stock, and how much wider than the mean of their sheet they come out: as
    wide as the piece asks, whatever play the plan gives them. `again` gives a setting of a number that was
    set before the setting it then had, `stops` lists those of the crosscut sled's stop, which has a scale of
    its own, and `sheets` says which sheet each part is cut from.
    """

    settings: Mapping[str, str] = field(default_factory=dict)
    measured: Mapping[str, MeasuringTool] = field(default_factory=dict)
    follow: frozenset[str] = frozenset()
    fitted: Mapping[str, FittedSize] = field(default_factory=dict)
    moved: frozenset[str] = frozenset()
    proved: frozenset[str] = frozenset()
    tried: Mapping[str, Fraction] = field(default_factory=dict)
    again: Mapping[str, str] = field(default_factory=dict)
    stops: frozenset[str] = frozenset()
    sheets: Mapping[str, str] = field(default_factory=dict)

    def with_(self, more: Method) -> Method:
        """This way of working with what another adds to it."""
        return Method(
            settings={**self.settings, **more.settings},
            measured={**self.measured, **more.measured},
            follow=self.follow | more.follow,
            fitted={**self.fitted, **more.fitted},
            moved=self.moved | more.moved,
            proved=self.proved | more.proved,
            tried={**self.tried, **more.tried},
            again={**self.again, **more.again},
            stops=self.stops | more.stops,
            sheets={**self.sheets, **more.sheets},
        )


TO_PLAN = Method()
