"""What a load that stands for years makes of a shelf's first sag."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from .published import PublishedFigure, data_tables, published


@dataclass(frozen=True)
class Creep:
    """The sag after years as a multiple of the first; `low` and `high` are other published figures, None
    without any."""

    after_years: PublishedFigure
    low: PublishedFigure | None = None
    high: PublishedFigure | None = None

    @property
    def spread(self) -> tuple[PublishedFigure, PublishedFigure]:
        """The least and the greatest figure published."""
        return self.low or self.after_years, self.high or self.after_years


def _creep(table: Mapping[str, Any]) -> Creep:
    return Creep(
        published(table), **{name: published(table[name]) for name in ("low", "high") if name in table}
    )


@cache
def _creep_by_kind() -> Mapping[str, Creep]:
    tables = data_tables("creep").values()
    return {kind: _creep(table) for table in tables for kind in table["kinds"]}


def creep_of_kind(kind: str) -> Creep | None:
    """The creep of a kind of sheet goods; None where no figure is known: ask for it."""
    return _creep_by_kind().get(kind)


@cache
def creep_of_wood() -> Creep:
    """The creep of solid wood."""
    return _creep(data_tables("creep")["wood"])
