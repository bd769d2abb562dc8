"""How far a shelf sags as a beam: closed forms for the usual supports, exact.

Loads are in pounds per inch of the shelf's length, lengths in inches, stiffness EI in lb in2. The forms are
those of the beam tables (Roark; AISC manual, Table 3-23). They leave out the sag from shear, about
(E / G) (h / L)2 of the whole: under a hundredth in a shelf forty times as long as thick, two or three in
plywood twenty times as long.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

MIDDLE_OF_THREE = Fraction(541_613, 10**8)
"""The greatest x (1 - 3 x2 + 2 x3) / 48, rounded up: the sag of each of two equal spans over three supports,
in w L4 / EI, at x = (1 + sqrt 33) / 16 of the span from the outer support. AISC prints 0.0054."""


class EndSupport(Enum):
    """What carries the ends of a shelf, as it is reckoned.

    A dado holds an end from turning a little, by how much nobody can say: it counts as a rest at the inner
    face of each side. Ends count as FIXED only where they cannot turn at all.
    """

    DADO = "dado"
    PINS = "pins"
    FIXED = "fixed"


@dataclass(frozen=True)
class BeamSag:
    """How far a shelf sags between its supports, and at its ends beyond them (less than zero: they rise)."""

    between: Fraction
    beyond: Fraction = Fraction(0)

    @property
    def most(self) -> Fraction:
        """The further of the two, up or down."""
        return max(abs(self.between), abs(self.beyond))


def simple_uniform(load: Fraction, span: Fraction, stiffness: Fraction) -> Fraction:
    """5 w L4 / 384 EI, ends free to turn."""
    return 5 * load * span**4 / (384 * stiffness)


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


def two_spans_uniform(load: Fraction, span: Fraction, stiffness: Fraction) -> Fraction:
    """The sag of each of two equal spans, whole over a support at the middle; `span` is one of them."""
    return MIDDLE_OF_THREE * load * span**4 / stiffness


def shelf_sag(
    support: EndSupport, load: Fraction, span: Fraction, stiffness: Fraction, overhang: Fraction = Fraction(0)
) -> BeamSag:
    """The sag of a shelf loaded evenly over its length.

    `span` lies between the inner faces of the sides in a dado, and between the lines of the pins, which stand
    in from the shelf's ends by `overhang`.
    """
    if support is EndSupport.FIXED:
        return BeamSag(fixed_uniform(load, span, stiffness))
    if support is EndSupport.PINS:
        return overhanging_uniform(load, span, overhang, stiffness)
    return BeamSag(simple_uniform(load, span, stiffness))
