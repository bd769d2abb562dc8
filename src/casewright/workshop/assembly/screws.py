"""Wood screws for casework: size, length, the holes they need, and how many along a joint."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil

from ...lengths.length import MM, Rule, Unit, show

PENETRATION = 6
"""A screw holds when it is six diameters deep in the wood (NDS, least penetration of wood screws)."""
SPACING = Fraction(6)
"""From one screw to the next along a joint, at most. Common practice, no source."""
FROM_THE_END = Fraction(3, 2)
SHY = Fraction(1, 8)
"""Of wood left before the point of a screw that must not come out. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Screw:
    """A wood screw by its size, with its length and the drills for it; inches.

    `size` is as it stands on the box: `#8`, or the diameter in millimetres. One for a pocket hole has a wide
    head that seats on the flat of its hole (common practice, from memory).
    """

    size: str
    length: Fraction
    diameter: Fraction
    pilot: Fraction
    clearance: Fraction
    pocket: bool = False

    @property
    def sold_as(self) -> str:
        """What to ask for in the store."""
        return "washer-head pocket screws" if self.pocket else "wood screws"


@dataclass(frozen=True, slots=True)
class _Box:
    """Screws of one size as they are sold. Those for boards thinner than `FIRM` are the thinner ones."""

    size: str
    diameter: Fraction
    pilot: Fraction
    clearance: Fraction
    lengths: tuple[Fraction, ...]

    def screw(self, length: Fraction) -> Screw:
        """The screw of this size that is so long."""
        return Screw(self.size, length, self.diameter, self.pilot, self.clearance)

    def longest(self, passes: Fraction, most: Fraction) -> Screw | None:
        """The longest that passes so much wood and is no longer than `most`; None where none is."""
        length = max((each for each in self.lengths if passes < each <= most), default=None)
        return None if length is None else self.screw(length)


FIRM = Fraction(1, 2)
_INCHES = tuple(Fraction(quarters, 4) for quarters in (3, 4, 5, 6, 7, 8, 10, 12))
_MILLIMETRES = tuple(MM * length for length in (16, 20, 25, 30, 35, 40, 45, 50, 60, 70))

# Shank diameters of numbered screws are those of ASME B18.6.1. Their pilot and clearance holes are
# from a boatbuilder's screw chart (plate 6B), which gives a pilot for #8 in hardwood and for #6 in
# softwood. Metric sizes, lengths and drills are common practice, no source. Charts disagree, so try
# one in scrap of your own sheet.
_BOXES = {
    Unit.INCH: (
        _Box("#6", Fraction(138, 1000), Fraction(1, 16), Fraction(9, 64), _INCHES),
        _Box("#8", Fraction(164, 1000), Fraction(7, 64), Fraction(11, 64), _INCHES),
    ),
    Unit.MM: (
        _Box("3.5", MM * 7 / 2, MM * 2, MM * 4, _MILLIMETRES),
        _Box("4", MM * 4, MM * 5 / 2, MM * 9 / 2, _MILLIMETRES),
    ),
}


def screw_through(thickness: Fraction, unit: Unit) -> Screw | None:
    """The screw that holds a board `thickness` thick to what lies behind it: the shortest
    standard length that goes six diameters in. None for a board too thick for any standard screw."""
    thin, thick = _BOXES[unit]
    box = thick if thickness >= FIRM else thin
    needed = thickness + PENETRATION * box.diameter
    for length in box.lengths:
        if length >= needed:
            return box.screw(length)
    return None


def angled_screw(thickness: Fraction, unit: Unit) -> Screw:
    """The screw that goes at an angle, or in a pocket hole, through the end of a board `thickness` thick: of
    the standard length nearest to the thickness and half an inch (common practice, from memory: 1 1/4 in
    for boards of 3/4 in), so that it does not come out behind."""
    thin, thick = _BOXES[unit]
    box = thick if thickness >= FIRM else thin
    length = min(box.lengths, key=lambda each: abs(each - thickness - Fraction(1, 2)))
    return box.screw(length)


def blind_screw(through: Fraction, into: Fraction, unit: Unit) -> Screw | None:
    """The longest screw through one board into the back of another that ends `SHY` of its face; None where no
    standard length does."""
    thin, thick = _BOXES[unit]
    box = thick if through >= FIRM else thin
    return box.longest(through, through + into - SHY)


def screw_from_below(passes: Fraction, most: Fraction, unit: Unit) -> Screw | None:
    """The longest screw that passes so much wood from below and is no longer than `most`; None where no
    standard length does."""
    _, thick = _BOXES[unit]
    return thick.longest(passes, most)


def pocket_screw(thickness: Fraction, unit: Unit) -> Screw:
    """The screw for a pocket hole in a board `thickness` thick: as long as an angled one."""
    return replace(angled_screw(thickness, unit), pocket=True)


def screw_words(size: str, length: Fraction, rule: Rule, *, gap: str = " ") -> str:
    """A screw by its size and length, wherever one is told: `#8 × 1 3/4"`, `4 × 30 mm`."""
    return f"{size} × {show(length, rule, unit=True, gap=gap).marked}"


def drill(size: Fraction, unit: Unit) -> str:
    """A drill as it is marked: `7/64`, `2.5 mm`. Never rounded to the rule's marks."""
    return str(size) if unit is Unit.INCH else f"{float(size / MM):g} mm"


def screw_places(run: Fraction) -> tuple[Fraction, ...]:
    """Where along a joint `run` long the screws go, from one end: two at least, evenly spaced."""
    inset = min(FROM_THE_END, run / 4)
    spaces = max(1, ceil((run - 2 * inset) / SPACING))
    return tuple(inset + (run - 2 * inset) * place / spaces for place in range(spaces + 1))
