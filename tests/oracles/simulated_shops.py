"""Shops that cut with known deviations and read what they cut by caliper, for tests and benchmarks."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from casewright.shop.deviations import Deviations
from casewright.shop.measuring_tools import MeasuringTool
from casewright.tolerance.learning.own_deviations import CutReading, SetBy

SETTINGS = 24
MOST_PIECES = 4  # cut on one setting; from one to so many


def caliper_readings(true: Deviations, rng: np.random.Generator) -> Iterator[CutReading]:
    """Readings of pieces cut at 24 settings of the fence's scale, a random few on each."""
    offset = rng.normal(0.0, true.scale)
    for setting in range(SETTINGS):
        stands = offset + rng.normal(0.0, true.fence)
        number = float(rng.integers(8, 96)) / 16
        for piece in range(int(rng.integers(1, MOST_PIECES + 1))):
            error = stands + rng.normal(0.0, true.cut) + rng.normal(0.0, true.caliper)
            name = f"S{setting}-{piece}.width"
            yield CutReading(
                name, SetBy.FENCE, f"setting {setting}", number, number + error, MeasuringTool.CALIPER
            )
