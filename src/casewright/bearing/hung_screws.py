"""How the screws that cases are hung with are told, by gauge and in millimetres."""

from __future__ import annotations

from fractions import Fraction

from ..lengths.length import Mark, Unit, show
from ..strength.hung_on_screws import HungRow
from ..workshop.assembly.screws import screw_words


def hung_screw_words(row: HungRow, unit: Unit) -> str:
    """The screw of a row: `#8 × 2 1/2"`, and for a shop that measures in millimetres `#8 (4.2 × 63.5 mm)`.

    The gauge stays: the published values are for numbered screws.
    """
    screw, length = row.cases[0].screw, row.cases[0].length
    if unit is Unit.INCH:
        return screw_words(f"#{screw.gauge}", length, Mark.SIXTY_FOURTH)
    across = show(Fraction(screw.shank), Mark.TENTH_MILLIMETRE).plain
    return f"#{screw.gauge} ({screw_words(across, length, Mark.TENTH_MILLIMETRE)})"


def metric_screws(row: HungRow) -> str:
    """Which metric screw may take the place of a numbered one."""
    core = show(Fraction(row.cases[0].screw.root), Mark.TENTH_MILLIMETRE, unit=True).plain
    return (
        "The values are published for numbered screws. A metric wood screw serves in their place if it is no "
        f"shorter and its core, inside the thread, is no thinner than {core}."
    )
