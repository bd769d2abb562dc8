"""The bays of a case in a job file, with what is inside them and before them."""

from __future__ import annotations

from fractions import Fraction

from ...casework.front_choices import Front, Hung
from ...casework.job import Bay
from ..front_tables import FrontTable
from ..tables import BayTable
from .entries import WidthShare


def width_or_share(width: Fraction | WidthShare) -> tuple[Fraction | None, Fraction]:
    """The width, or None with its share."""
    return (None, width.weight) if isinstance(width, WidthShare) else (width, Fraction(1))


def bay_from(table: BayTable) -> Bay:
    width, weight = width_or_share(WidthShare(Fraction(1)) if table.width is None else table.width)
    fronts = tuple(_front(front) for front in table.fronts)
    return Bay(width, weight, tuple(table.fixed), table.adjustable, fronts)


def _front(table: FrontTable) -> Front:
    height, weight = width_or_share(table.height)
    return Front(table.kind, height, weight, table.hung or Hung.LEFT, table.box_height)
