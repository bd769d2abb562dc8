"""What things cost as a job file says it."""

from __future__ import annotations

from enum import Enum
from fractions import Fraction
from typing import Any

from ...shop.prices import NO_PRICES, FinishPrice, GluePrice, Prices, Sharpening
from .differences import Entries, differing
from .literals import area_literal, cut_length_literal, number_literal

_AREAS = ("covers", "per_hour")


def cost_entries(prices: Prices) -> Entries:
    """The table `costs` of a job file; empty where nothing is told."""
    return {
        name: _table(value) if isinstance(value, _TABLES) else number_literal(value)
        for name, value in differing(vars(prices), vars(NO_PRICES)).items()
    }


_TABLES = (GluePrice, FinishPrice, Sharpening)


def _table(told: GluePrice | FinishPrice | Sharpening) -> Entries:
    return {name: _value(name, value) for name, value in differing(vars(told), vars(type(told)())).items()}


def _value(name: str, value: Any) -> Any:
    match value:
        case Fraction() if name in _AREAS:
            return area_literal(value)
        case Fraction():
            return cut_length_literal(value) if name == "lasts" else number_literal(value)
        case Enum():
            return value.value
        case tuple():
            return list(value)
    return value
