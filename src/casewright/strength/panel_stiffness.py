"""How stiff a panel's material is: sheet goods by kind, solid wood by its own figure in the wood data.

What is not listed has no stiffness here: the caller asks the maker, and never puts in a guess.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Any

from ..shop.woods import Wood
from .published import NEWTON_PER_SQUARE_MM, PublishedFigure, data_tables, published

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


def _unit(name: str) -> Fraction:
    return {"psi": Fraction(1), "N/mm2": NEWTON_PER_SQUARE_MM}[name]


@cache
def sheet_kinds() -> Mapping[str, PanelStiffness]:
    """The kinds of sheet goods whose stiffness is known, by name."""
    tables = data_tables("stiffness")
    return {kind: _kind(kind, table) for kind, table in tables.items() if kind != "wood"}


def _kind(kind: str, table: Mapping[str, Any]) -> PanelStiffness:
    figures = ("along", "across", "shear", "low", "high")
    per = _unit(table["unit"])
    moduli = {name: published(table[name], per) for name in figures if name in table}
    return PanelStiffness(kind, poisson=published(table["poisson"]), **moduli)


@cache
def _kinds_by_sheet() -> Mapping[str, str]:
    tables = data_tables("stiffness")
    return {sheet: kind for kind, table in tables.items() for sheet in table.get("sheets", ())}


def sheet_stiffness(catalogue_name: str) -> PanelStiffness | None:
    """The stiffness of a sheet good of the catalogue; None where no figure is known: ask for it."""
    kind = _kinds_by_sheet().get(catalogue_name)
    return None if kind is None else sheet_kinds()[kind]


def board_stiffness(wood: Wood) -> PanelStiffness:
    """The stiffness of solid wood, clear and at 12 % moisture: Wood Handbook, Table 5-3b."""
    along = PublishedFigure(wood.stiffness * MILLION, wood.source, "stiffness" not in wood.from_memory)
    table = data_tables("stiffness")["wood"]
    across, shear = (published(table[name], along.value) for name in ("across", "shear"))
    return PanelStiffness(wood.name, along, across, shear, published(table["poisson"]))


def stiffness_given(
    kind: str, along: Fraction, across: Fraction | None = None, shear: Fraction | None = None
) -> PanelStiffness:
    """The maker's own figure, in pounds per square inch, for a material that no table has.

    Without the other two, the panel is taken to be a board without grain, and to curl as such boards do.
    Raises ValueError where a figure is not more than zero.
    """
    moduli = (along, along if across is None else across, along * 2 / 5 if shear is None else shear)
    if min(moduli) <= 0:
        raise ValueError(f"the stiffness of {kind} must be more than zero, not {min(moduli)} psi")
    lengthwise, crosswise, twisted = (PublishedFigure(one, "the maker's own figure", True) for one in moduli)
    share = min(Fraction(1), lengthwise.value / crosswise.value) / 4
    poisson = PublishedFigure(
        share, "a quarter, common for boards without grain, of the less stiff way", False
    )
    return PanelStiffness(kind, lengthwise, crosswise, twisted, poisson)
