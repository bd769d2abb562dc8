"""How far a shelf sags as a beam: the closed forms of its two ways to be carried, exact.

Loads are in pounds per inch of the shelf's length, lengths in inches, stiffness EI in lb in2. The forms are
those of the beam tables (Roark; AISC manual, Table 3-23). They leave out the sag from shear, about
(E / G) (h / L)2 of the whole: under a hundredth in a shelf forty times as long as thick, two or three in
plywood twenty times as long.
"""

from __future__ import annotations

from enum import Enum
from fractions import Fraction

MIDDLE_OF_THREE = Fraction(541_613, 10**8)
"""The greatest x (1 - 3 x2 + 2 x3) / 48, rounded up: the sag of each of two equal spans over three supports,
in w L4 / EI, at x = (1 + sqrt 33) / 16 of the span from the outer support. AISC prints 0.0054."""


class EndSupport(Enum):
    """What carries the ends of a shelf, as it is reckoned.

    A dado holds an end from turning a little, by how much nobody can say: it counts as a rest at the inner
    face of each side, as pins do.
    """

    DADO = "dado"
    PINS = "pins"


def simple_uniform(load: Fraction, span: Fraction, stiffness: Fraction) -> Fraction:
    """5 w L4 / 384 EI, ends free to turn."""
    return 5 * load * span**4 / (384 * stiffness)


def two_spans_uniform(load: Fraction, span: Fraction, stiffness: Fraction) -> Fraction:
    """The sag of each of two equal spans, whole over a support at the middle; `span` is one of them."""
    return MIDDLE_OF_THREE * load * span**4 / stiffness
