"""How wide a line of text comes out, near enough to keep lettering clear of lines.

Widths are in ems of the packet's typeface, from its own tables; other signs count as a letter.
"""

from __future__ import annotations

from fractions import Fraction

from ...lengths.length import Mark, Shown, Unit, show
from ...lengths.quantities import caliper

THIN_SPACE = "\u2009"

_NARROW = dict.fromkeys("fijlrtI.,;:'|!()[]-·", 0.30)
_WIDE = dict.fromkeys("mwMWO@%&QGDHNU", 0.74)
_OTHER = {THIN_SPACE: 0.2, " ": 0.2, "/": 0.35, '"': 0.42, "~": 0.5, "×": 0.5, "Ø": 0.62}
_WIDTHS = {**_NARROW, **_WIDE, **_OTHER}

CAP_HEIGHT = 0.66


def width_of(text: str, size: float, *, bold: bool = False) -> float:
    """The width of `text` set `size` points high, in points."""
    ems = sum(_WIDTHS.get(sign, 0.5 if sign.islower() or sign.isdigit() else 0.57) for sign in text)
    return ems * size * (1.06 if bold else 1.0)


def shown(length: Fraction, mark: Mark) -> Shown:
    """The length as drawings print it: a thin space keeps 21 25/32 from being read as 2125/32."""
    return show(length, mark, gap=THIN_SPACE)


def lettered(length: Fraction, mark: Mark) -> str:
    """`shown`, with `~` before it where it is rounded."""
    return shown(length, mark).marked


def in_full(length: Fraction, unit: Unit) -> str:
    """The length by the caliper, with the same thin space."""
    return caliper(length, unit, gap=THIN_SPACE)
