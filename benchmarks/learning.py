"""Learning: how near a shop's own deviations come after 24 settings read by caliper, in simulated shops."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import partial

import numpy as np

from casewright.jobfile.catalogue import packaged_catalogue
from casewright.shop.deviations import Deviations, Workmanship
from casewright.tolerance.learning.own_deviations import (
    CutReading,
    OwnDeviations,
    learn_deviations,
    nearest_start,
)
from oracles.simulated_shops import caliper_readings

TITLE = "Learning a shop's own deviations"
SHOPS = 1000
NEAR = 1.3
NEEDED = 0.9

Learn = Callable[[Sequence[CutReading]], OwnDeviations]


def run(quick: bool = False) -> str:
    """The table, as Markdown."""
    return "\n".join(_rows(SHOPS // 10 if quick else SHOPS))


def fails(text: str) -> bool:
    """Whether fewer than nine shops in ten are near, started from their own column."""
    own = [line for line in text.splitlines() if line.endswith("| own |")]
    return any(float(cell.strip(" %")) / 100 < NEEDED for line in own for cell in line.split("|")[3:5])


def _rows(shops: int) -> Iterator[str]:
    yield f"Shops whose figure lies within a factor {NEAR} of the deviation they were simulated with, of"
    yield f"{shops} each, after 24 settings of the fence with one to four pieces on each, read by caliper."
    yield "Started from the shop's own column, and from another: four readings' worth of a wrong belief."
    yield ""
    yield "| shop | started from | fence | cut | column |"
    yield "|-|-|-|-|-|"
    columns = packaged_catalogue().deviations
    for shop in Workmanship:
        for start in dict.fromkeys((shop, Workmanship.CAREFUL)):
            near = _near(columns[shop], partial(learn_deviations, columns[start]), shops)
            which = "own" if start is shop else "other"
            yield f"| {shop.value} | {start.value} | {near['fence']:.1%} | {near['cut']:.1%} | {which} |"
        near = _near(columns[shop], _advised, shops)
        fence, cut = f"{near['fence']:.1%}", f"{near['cut']:.1%}"
        yield f"| {shop.value} | careful, then the one named | {fence} | {cut} | named |"


def _advised(readings: Sequence[CutReading]) -> OwnDeviations:
    """As a maker does who starts from careful and takes the starting shop that his readings name."""
    columns = packaged_catalogue().deviations
    first = learn_deviations(columns[Workmanship.CAREFUL], readings)
    return learn_deviations(columns[nearest_start(first, Workmanship.CAREFUL, columns)], readings)


def _near(true: Deviations, learn: Learn, shops: int) -> dict[str, float]:
    rng = np.random.default_rng(1)
    near = {"fence": 0, "cut": 0}
    for _ in range(shops):
        for figure in learn(list(caliper_readings(true, rng))).figures:
            if figure.name in near:
                near[figure.name] += 1 / NEAR < figure.to_use / getattr(true, figure.name) < NEAR
    return {name: count / shops for name, count in near.items()}
