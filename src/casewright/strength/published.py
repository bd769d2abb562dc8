"""A figure with the place it was published, and whether it was read there."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib.resources import files
from typing import Any


@dataclass(frozen=True)
class PublishedFigure:
    """A value and its source. `read` tells that it was seen there; else it is from memory, or worked out
    as the source says."""

    value: Fraction
    source: str
    read: bool


@cache
def data_tables(name: str) -> Mapping[str, Any]:
    """A data file of this package; its decimals are exact."""
    text = files("casewright.strength").joinpath("data", f"{name}.toml").read_text(encoding="utf-8")
    return tomllib.loads(text, parse_float=Fraction)


def published(table: Mapping[str, Any], per: Fraction = Fraction(1)) -> PublishedFigure:
    """The figure of a table with `value`, `source` and `read`, times `per`."""
    return PublishedFigure(Fraction(table["value"]) * per, table["source"], table["read"])
