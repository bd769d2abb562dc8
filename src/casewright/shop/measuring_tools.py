"""What a size is measured with in the shop: the one list for benches, records and tolerances."""

from __future__ import annotations

from enum import Enum


class MeasuringTool(Enum):
    """A tool by its name at the bench and in the record."""

    RULE = "rule"
    TAPE = "tape"
    CALIPER = "caliper"
    DEPTH_GAUGE = "depth gauge"

    @classmethod
    def called(cls, name: str) -> MeasuringTool:
        """The tool of that name; a rule, the least exact at a bench, where the name is none of these."""
        return next((tool for tool in cls if tool.value == name), cls.RULE)
