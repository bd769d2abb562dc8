"""Minutes at the bench: what joints that do not go together cost, and what preventing it costs."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from ..outcomes.gap_spread import GapSpread
from ..outcomes.outcome import Outcome


@dataclass(frozen=True, slots=True)
class BenchMinutes:
    """Minutes of one maker.

    Of a joint: `clamp` for one that is drawn together, `ease` for an end sanded or trimmed, `recut` for a
    part cut again, `shown` for a gap or step to fill. Of a change: `two_sheets` measured, `try_packing` of
    the dado stack and `try_groove` of a groove in the stock, `depth_piece` for a depth proved, `own_setting`
    for a part that is set for alone, `reading` for one size measured. What saves less than `least` beyond
    what it costs is not advised.
    """

    clamp: float
    ease: float
    recut: float
    shown: float
    two_sheets: float
    try_packing: float
    try_groove: float
    depth_piece: float
    own_setting: float
    reading: float
    least: float

    def of(self, outcome: Outcome) -> float:
        """What a joint is expected to cost at the dry fit."""
        return (
            self.clamp * outcome.clamp
            + self.ease * outcome.ease
            + self.recut * outcome.recut
            + self.shown * outcome.shown
        )

    def of_all(self, spreads: Iterable[GapSpread]) -> float:
        """What several joints are expected to cost."""
        return sum(self.of(spread.outcome) for spread in spreads)


@cache
def bench_minutes() -> BenchMinutes:
    """The minutes that come with the program."""
    text = files("casewright.tolerance.advice").joinpath("data", "minutes.toml").read_text(encoding="utf-8")
    data = tomllib.loads(text)
    return BenchMinutes(**data["joint"], **data["change"])
