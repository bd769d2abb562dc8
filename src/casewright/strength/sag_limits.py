"""How far a shelf may sag, by whose figure."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from .published import data_tables


@dataclass(frozen=True)
class SagLimit:
    """A published limit: a `share` of the span, a sag of `most` inches, or the less of the two.

    `figure` is the limit in the words of its source. `after_years` tells that it is for the sag after years;
    else it is for the sag at once. `load` is the load of loads.toml it belongs to, None where it stands for
    any.
    """

    name: str
    figure: str
    source: str
    read: bool
    after_years: bool
    share: Fraction | None = None
    most: Fraction | None = None
    load: str | None = None

    def allowed(self, span: Fraction) -> Fraction:
        """The sag that still meets the figure over a span in inches."""
        given = (None if self.share is None else self.share * span, self.most)
        return min(sag for sag in given if sag is not None)


@cache
def sag_limits() -> Mapping[str, SagLimit]:
    """The published limits, by name."""
    return {
        name: SagLimit(
            name,
            table["figure"],
            table["source"],
            table["read"],
            table["after_years"],
            Fraction(*table["share"]) if "share" in table else None,
            table.get("most"),
            table.get("load"),
        )
        for name, table in data_tables("limits").items()
    }
