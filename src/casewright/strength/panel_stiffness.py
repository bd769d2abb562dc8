"""How stiff a panel's material is: sheet goods by kind, solid wood by its own figure in the wood data.

What is not listed has no stiffness here: the caller asks the maker, and never puts in a guess.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Any

from ..lengths.quantities import MODULUS_UNITS
from ..shop.materials import PanelKind
from ..shop.woods import Wood
from .published import PublishedFigure, data_tables, published

MILLION = 1_000_000


@dataclass(frozen=True)
class PanelStiffness:
    """The moduli of one material in pounds per square inch.

    `along` and `across` the grain of the face are moduli of elasticity in bending, `shear` is the modulus of
    rigidity in twisting, `poisson` the share of its bend along the grain by which it curls across. `low` and
    `high` are other published figures along the grain, None without any.
    """

    kind: str
    along: PublishedFigure
    across: PublishedFigure
    shear: PublishedFigure
    poisson: PublishedFigure
    low: PublishedFigure | None = None
    high: PublishedFigure | None = None

    def lengthwise(self, *, grain_along: bool) -> PublishedFigure:
        """The modulus along the shelf, which lies with its grain along its length or across it."""
        return self.along if grain_along else self.across

    def crosswise(self, *, grain_along: bool) -> PublishedFigure:
        """The modulus from the front of the shelf to its back."""
        return self.across if grain_along else self.along


@cache
def sheet_kinds() -> Mapping[str, PanelStiffness]:
    """The kinds of sheet goods whose stiffness is known, by name."""
    tables = data_tables("stiffness")
    return {kind: _kind(kind, table) for kind, table in tables.items() if kind != "wood"}


def _kind(kind: str, table: Mapping[str, Any]) -> PanelStiffness:
    figures = ("along", "across", "shear", "low", "high")
    per = MODULUS_UNITS[table["unit"]]
    moduli = {name: published(table[name], per) for name in figures if name in table}
    return PanelStiffness(kind, poisson=published(table["poisson"]), **moduli)


def panel_stiffness(kind: PanelKind) -> PanelStiffness:
    """The stiffness of a kind of sheet goods."""
    return sheet_kinds()[kind.value]


def board_stiffness(wood: Wood) -> PanelStiffness:
    """The stiffness of solid wood, clear and at 12 % moisture: Wood Handbook, Table 5-3b."""
    along = PublishedFigure(wood.stiffness * MILLION, wood.source, "stiffness" not in wood.from_memory)
    table = data_tables("stiffness")["wood"]
    across, shear = (published(table[name], along.value) for name in ("across", "shear"))
    return PanelStiffness(wood.name, along, across, shear, published(table["poisson"]))


def with_modulus(stiffness: PanelStiffness, modulus: Fraction) -> PanelStiffness:
    """The same kind with the maker's own modulus along the grain, in pounds per square inch: the others go
    with it.

    Raises ValueError where it is not more than zero.
    """
    if modulus <= 0:
        raise ValueError(f"the stiffness of {stiffness.kind} must be more than zero, not {modulus} psi")
    share = modulus / stiffness.along.value

    def own(figure: PublishedFigure) -> PublishedFigure:
        return PublishedFigure(figure.value * share, "the maker's own figure", True)

    return PanelStiffness(
        stiffness.kind, own(stiffness.along), own(stiffness.across), own(stiffness.shear), stiffness.poisson
    )
