"""Closed forms of the beam tables (Roark; AISC manual, Table 3-23) that no shelf here needs: they judge the
solver, which judges the forms that shelves do need.

Loads are in pounds per inch or pounds, lengths in inches, stiffness EI in lb in2.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True)
class BeamSag:
    """How far a shelf sags between its supports, and at its ends beyond them (less than zero: they rise)."""

    between: Fraction
    beyond: Fraction = Fraction(0)

    @property
    def most(self) -> Fraction:
        """The further of the two, up or down."""
        return max(abs(self.between), abs(self.beyond))


def fixed_uniform(load: Fraction, span: Fraction, stiffness: Fraction) -> Fraction:
    """w L4 / 384 EI, ends held from turning."""
    return load * span**4 / (384 * stiffness)


def simple_at_middle(pounds: Fraction, span: Fraction, stiffness: Fraction) -> Fraction:
    """P L3 / 48 EI, a load at the middle, ends free to turn."""
    return pounds * span**3 / (48 * stiffness)


def fixed_at_middle(pounds: Fraction, span: Fraction, stiffness: Fraction) -> Fraction:
    """P L3 / 192 EI, a load at the middle, ends held from turning."""
    return pounds * span**3 / (192 * stiffness)


def simple_under_load(pounds: Fraction, at: Fraction, span: Fraction, stiffness: Fraction) -> Fraction:
    """P a2 b2 / 3 EI L: the sag under a load at any place, ends free to turn."""
    return pounds * at**2 * (span - at) ** 2 / (3 * stiffness * span)


def cantilever_uniform(load: Fraction, length: Fraction, stiffness: Fraction) -> Fraction:
    """w L4 / 8 EI at the free end."""
    return load * length**4 / (8 * stiffness)


def cantilever_at_end(pounds: Fraction, length: Fraction, stiffness: Fraction) -> Fraction:
    """P L3 / 3 EI at the free end, where the load is."""
    return pounds * length**3 / (3 * stiffness)


def overhanging_uniform(load: Fraction, span: Fraction, overhang: Fraction, stiffness: Fraction) -> BeamSag:
    """A shelf on pins that stand in from both its ends by the same `overhang`, loaded over its whole length.

    The middle sags w L2 (5 L2 - 24 a2) / 384 EI, an end w a (3 a3 + 6 a2 L - L3) / 24 EI. Raises ValueError
    for an overhang of more than a fifth of the span, where the middle is no longer the lowest place.
    """
    if 5 * overhang > span:
        raise ValueError(f"an overhang of {overhang} in is more than a fifth of the span, {span} in")
    middle = load * span**2 * (5 * span**2 - 24 * overhang**2) / (384 * stiffness)
    end = load * overhang * (3 * overhang**3 + 6 * overhang**2 * span - span**3) / (24 * stiffness)
    return BeamSag(middle, end)
