"""How exactly a shop works: the standard deviation of everything that makes a size come out otherwise."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from .measuring_tools import MeasuringTool


class Workmanship(Enum):
    """Where a shop starts from, until its own readings say better."""

    FIRST_CABINETS = "first cabinets"
    CAREFUL = "careful"
    PROFESSIONAL = "professional"


SLED_SPAN = 24
"""Inches over which a sled is said to be out of square: about a carcase's depth."""


@dataclass(frozen=True)
class Deviations:
    """Standard deviations, in inches, of one shop.

    `fence` is of a fence set by its scale, anew for each number; `scale` of the scale's own offset, the
    same in every setting; `fence_again` of a fence set a second time, from a finished piece. `cut` is from
    cut to cut on one setting; `sled` of how far the crosscut sled cuts out of square over `SLED_SPAN`.
    `dado_packed` is of a dado's width when the stack is packed by numbers, `dado_tried` when it is tried in
    the stock; `groove` of a groove cut in two passes and proved on a test piece. `height` is of a cutter's
    height, `flatness` of a channel's depth where the sheet does not lie flat. `hand_saw` is of a cut along a
    straightedge, `fitted` of a part cut to fit the case put together dry. `rule`, `tape`, `caliper` and
    `depth_gauge` are of laying out or reading by that tool.
    """

    fence: float
    scale: float
    fence_again: float
    cut: float
    sled: float
    dado_packed: float
    dado_tried: float
    groove: float
    height: float
    flatness: float
    hand_saw: float
    fitted: float
    rule: float
    tape: float
    caliper: float
    depth_gauge: float

    def reading(self, tool: MeasuringTool) -> float:
        """The deviation of one reading by `tool`."""
        return {
            MeasuringTool.RULE: self.rule,
            MeasuringTool.TAPE: self.tape,
            MeasuringTool.CALIPER: self.caliper,
            MeasuringTool.DEPTH_GAUGE: self.depth_gauge,
        }[tool]
