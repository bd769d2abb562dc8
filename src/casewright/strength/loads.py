"""What a shelf carries, by what it is used for or by the maker's own figure."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from functools import cache

from ..lengths.quantities import AREA_UNITS, LONG_UNITS
from .published import PublishedFigure, data_tables, published


class LoadPer(Enum):
    """What the pounds of a load are spread over: a square foot of shelf, or a foot of its length."""

    SQUARE_FOOT = "ft2"
    FOOT = "ft"


@dataclass(frozen=True)
class ShelfLoad:
    """A load that fills a shelf evenly, in pounds per foot or square foot; `low` and `high` are other figures
    for the same use, None without any. `most` is the most that its source lays on one shelf, None without a
    limit."""

    use: str
    per: LoadPer
    pounds: PublishedFigure
    low: PublishedFigure | None = None
    high: PublishedFigure | None = None
    most: Fraction | None = None

    def on_shelf(self, length: Fraction, depth: Fraction) -> Fraction:
        """Pounds on a whole shelf, its sides in inches."""
        square = self.per is LoadPer.SQUARE_FOOT
        one = AREA_UNITS["ft2"] if square else LONG_UNITS["ft"]
        full = self.pounds.value * (length * depth if square else length) / one
        return full if self.most is None else min(full, self.most)

    def per_square_inch(self, length: Fraction, depth: Fraction) -> Fraction:
        """Pounds on a square inch of a shelf, its sides in inches."""
        return self.on_shelf(length, depth) / (length * depth)


@cache
def shelf_uses() -> Mapping[str, ShelfLoad]:
    """The uses of shelves whose load is known, by name."""
    return {
        use: ShelfLoad(
            use,
            LoadPer(table["per"]),
            published(table),
            **{name: published(table[name]) for name in ("low", "high") if name in table},
            most=None if "most" not in table else Fraction(table["most"]),
        )
        for use, table in data_tables("loads").items()
    }


def load_given(pounds: Fraction, per: LoadPer) -> ShelfLoad:
    """The maker's own load. Raises ValueError where it is not more than zero."""
    if pounds <= 0:
        raise ValueError(f"the load of a shelf must be more than zero, not {float(pounds):g} lb")
    return ShelfLoad("the maker's own load", per, PublishedFigure(pounds, "the maker's own figure", True))
