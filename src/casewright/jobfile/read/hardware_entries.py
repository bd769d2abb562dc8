"""The hinges and drawer slides of a job file, each laid over the catalogue entry it is like."""

from __future__ import annotations

from collections.abc import Iterable

from ...casework.job import FittedWith
from ...shop.hinges import Hinge, HingeChart, HingeRow
from ...shop.slides import SCREW_FIGURES, Slide
from ..front_tables import FittedTable
from ..hardware_tables import HingeTable, SlideTable
from .overlay import given_entries, laid_over

OWN_CHART = "its own sheet"
"""What the chart of the maker's own hinge is called."""


def hinge_of(key: str, table: HingeTable, start: Hinge | None, charts: tuple[HingeChart, ...]) -> Hinge:
    """The hinge a table describes; without a chart of its own those published count.

    Raises MissingEntries where it starts from no other and is not complete.
    """
    given = given_entries(table)
    given.pop("like", None)
    if rows := given.pop("chart", None):
        steps = tuple(HingeRow(row.hinges, row.weight, row.height) for row in rows)
        given["charts"] = (HingeChart(OWN_CHART, steps),)
    elif start is None:
        given["charts"] = charts
    return laid_over(Hinge, {"key": key, **given}, start)


def fitted_from(tables: Iterable[FittedTable]) -> FittedWith:
    """What a case is fitted with; each table goes before those in front of it."""
    return FittedWith(**{name: key for table in tables for name, key in given_entries(table).items()})


def slide_of(key: str, table: SlideTable, start: Slide | None) -> Slide:
    """The slides a table describes. Raises MissingEntries as `hinge_of` does."""
    given = given_entries(table)
    given.pop("like", None)
    if "lengths" in given:
        given["lengths"] = tuple(sorted(given["lengths"]))
    return laid_over(Slide, {"key": key, **given}, start)


def untold_of_screws(slide: Slide) -> tuple[str, ...]:
    """The figures of its screws that slides do not tell, where they tell others of them."""
    untold = tuple(name for name in SCREW_FIGURES if getattr(slide, name) is None)
    return untold if len(untold) < len(SCREW_FIGURES) else ()
