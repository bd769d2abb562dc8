"""How far off shops cut and sheets are thick, as standard deviations in inches.

Common practice, no source, but for MDF: ANSI A208.2 allows 0.005 in, of which 0.0015 is a standard deviation.
No published measurements of small shops' fences were found.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


@dataclass(frozen=True, slots=True)
class ShopErrors:
    """One shop. `scale` is drawn once a build and is in everything set by the fence's scale; `setting` once
    for each number set; `cut` for each cut. `gauged` is a fence set from the piece itself (a rabbet as wide
    as the sheet), `packed` and `tried` a dado's width by numbers or tried in the stock. `sled` is how far a
    crosscut on the sled is out of square over 24 in, one angle a build."""

    name: str
    scale: float
    setting: float
    gauged: float
    cut: float
    packed: float
    tried: float
    two_passes: float
    height: float
    flatness: float
    hand_saw: float
    rule: float
    sled: float


FIRST_CABINETS = ShopErrors(
    "first cabinets", 0.010, 0.010, 0.006, 0.003, 0.004, 0.003, 0.005, 0.004, 0.004, 0.020, 0.010, 0.012
)
CAREFUL = ShopErrors(
    "careful", 0.006, 0.006, 0.003, 0.003, 0.003, 0.002, 0.003, 0.003, 0.003, 0.012, 0.007, 0.006
)
PROFESSIONAL = ShopErrors(
    "professional", 0.002, 0.003, 0.002, 0.002, 0.002, 0.0015, 0.002, 0.002, 0.002, 0.008, 0.005, 0.003
)
STARTING_SHOPS = (FIRST_CABINETS, CAREFUL, PROFESSIONAL)

CALIPER = 0.001
"""A reading by caliper. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class SheetErrors:
    """A sheet good: how its sheets differ, and places in one sheet; `stiffness` is E in psi."""

    name: str
    between: float
    within: float
    stiffness: float


PLY_E = 1.3e6
"""Hardwood plywood, the value the project's stiffness table takes. Measured lay-ups: 0.99 to 1.30e6."""

BOARD_E = 0.36e6
"""MDF, 2500 N/mm2, as a European MDF association takes for shelves; particleboard M-2 has 0.33e6."""

GOOD_PLY = SheetErrors("good ply", 0.004, 0.0035, PLY_E)
HOME_CENTRE_PLY = SheetErrors("home-centre ply", 0.008, 0.008, PLY_E)
MDF = SheetErrors("MDF", 0.0015, 0.0015, BOARD_E)


class DadoWidth(Enum):
    """How the dado stack is set to a sheet."""

    BY_NUMBERS = "by numbers"  # to the mean of the caliper readings, plus the play
    TRIED = "tried in the stock"  # in a piece of the thickest sheet, plus the play
