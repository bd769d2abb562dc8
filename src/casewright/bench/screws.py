"""Wood screws for casework: size, length, the holes they want, and how many along a joint."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

LENGTHS = tuple(Fraction(n, 4) for n in (3, 4, 5, 6, 7, 8, 10, 12))
PENETRATION = 6
"""A screw holds when it goes in six diameters (NDS, least penetration of wood screws)."""
SPACING = Fraction(6)
"""From one screw to the next along a joint, at most. Common practice, no source."""
FROM_THE_END = Fraction(3, 2)


@dataclass(frozen=True, slots=True)
class Screw:
    """A wood screw by its number, with its length and the drills for it; inches.

    Shank diameters are those of ASME B18.6.1. `pilot` and `clearance` are from a boatbuilder's
    screw chart (plate 6B), which gives a pilot for #8 in hardwood and for #6 in softwood; charts
    disagree, so try one in scrap of your own sheet.
    """

    number: int
    length: Fraction
    diameter: Fraction
    pilot: Fraction
    clearance: Fraction


_SIX = (6, Fraction(138, 1000), Fraction(1, 16), Fraction(9, 64))
_EIGHT = (8, Fraction(164, 1000), Fraction(7, 64), Fraction(11, 64))


def screw_through(thickness: Fraction) -> Screw:
    """The screw that holds a board `thickness` thick to what lies behind it: the shortest usual
    length that goes six diameters in. ValueError for a board thicker than any takes."""
    number, diameter, pilot, clearance = _EIGHT if thickness >= Fraction(1, 2) else _SIX
    wanted = thickness + PENETRATION * diameter
    for length in LENGTHS:
        if length >= wanted:
            return Screw(number, length, diameter, pilot, clearance)
    raise ValueError(f"no usual screw goes through {float(thickness):.3g} in and holds")


def screw_places(run: Fraction) -> tuple[Fraction, ...]:
    """Where along a joint `run` long the screws go, from one end: two at least, evenly spaced."""
    inset = min(FROM_THE_END, run / 4)
    spaces = max(1, ceil((run - 2 * inset) / SPACING))
    return tuple(inset + (run - 2 * inset) * place / spaces for place in range(spaces + 1))
