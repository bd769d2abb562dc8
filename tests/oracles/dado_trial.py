"""A dado packed by numbers, set by two measured sheets, or tried in the thickest: from first principles.

Only how many panels go into dados of one packing, and which sheet each comes from, is taken from the job.
Thicknesses are drawn at three levels; nothing here knows of causes, chains or shares of variance.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Builds = NDArray[np.float64]  # one value a build, in inches

SLIDES = 0.004
"""By how much a dado is wider than the thickest place of the piece that slides in by hand and does not fall
out (common practice, no source)."""


@dataclass(frozen=True)
class Pile:
    """A lot of sheets: deviations of the lot, of its sheets and of places in one, and of packing a dado by
    numbers and by trial. `play` is added where it is packed by numbers. Inches."""

    lot: float
    sheets: float
    places: float
    packed: float
    tried: float
    play: float


@dataclass(frozen=True)
class DadoTrial:
    """The space beside each panel in its dado, a row for each panel: by numbers, by two sheets measured in
    three places, and tried in a piece of the thickest sheet."""

    by_numbers: Builds
    measured: Builds
    tried: Builds


def draw_dados(pile: Pile, sheet_of_panel: Sequence[int], builds: int, seed: int) -> DadoTrial:
    """Make all panels and one packing, `builds` times. Thicknesses are beside the plan's."""
    rng = np.random.default_rng(seed)
    lot = pile.lot * rng.standard_normal(builds)
    sheets = lot + pile.sheets * rng.standard_normal((max(sheet_of_panel) + 1, builds))
    panels = sheets[list(sheet_of_panel)]
    panels = panels + pile.places * rng.standard_normal(panels.shape)
    packing = rng.standard_normal(builds)
    by_numbers = pile.play + pile.packed * packing
    readings = sheets[:2, None] + pile.places * rng.standard_normal((2, 3, builds))
    # A piece of the thickest sheet slides in, at the thickest of three places along its end.
    piece = sheets.max(axis=0) + pile.places * rng.standard_normal((3, builds)).max(axis=0)
    return DadoTrial(
        by_numbers - panels,
        readings.mean(axis=(0, 1)) + by_numbers - panels,
        piece + SLIDES + pile.tried * packing - panels,
    )
