"""Measuring tools: the one list for the bench, the record and the tolerances."""

from __future__ import annotations

from enum import Enum


class MeasuringTool(Enum):
    """A measuring tool, with the name used at the bench and in the record."""

    RULE = "rule"
    TAPE = "tape"
    CALIPER = "caliper"
    DEPTH_GAUGE = "depth gauge"

    @classmethod
    def called(cls, name: str) -> MeasuringTool:
        """The tool of that name; for an unknown name a rule, the least exact of those at a bench."""
        return next((tool for tool in cls if tool.value == name), cls.RULE)
