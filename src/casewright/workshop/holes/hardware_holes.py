"""Hole patterns of hinges and drawer slides, as rows for the same jig and story stick as shelf pins.

The figures of the 32 mm system: holes 32 mm apart, 5 mm wide, the front row 37 mm in from the
front edge of a side under an overlay door (32 mm trade reference pages). A hinge cup is 35 mm
wide and its centre lies the boring distance and 17.5 mm in from the door's edge, 12.5 mm deep; its
dowels are 8 mm wide, 45 mm apart and 9.5 mm behind the cup's centre (hinge makers' drilling
sheets; they differ, so drill to the sheet that came with yours).
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ...casework.parts.holes import HoleRow
from ...lengths.length import MM

PITCH = 32 * MM
SYSTEM_HOLE = 5 * MM
FRONT_ROW = 37 * MM
CUP_DIAMETER = 35 * MM
CUP_DEPTH = Fraction(25, 2) * MM
DOWEL_DIAMETER = 8 * MM
DOWELS_APART = 45 * MM
DOWELS_BEHIND = Fraction(19, 2) * MM
LEAST_BORING, GREATEST_BORING = 3 * MM, 8 * MM


@dataclass(frozen=True, slots=True)
class Hole:
    """A hole by its centre: `along` from the end (or front edge), `across` from the edge. Inches."""

    along: Fraction
    across: Fraction
    diameter: Fraction
    depth: Fraction


def plate_row(height: Fraction, depth: Fraction, door: Fraction | None = None) -> HoleRow:
    """The two holes of a hinge's mounting plate in a side, its middle `height` above the side's end.

    `door` is the thickness of an inset door, which sets the row back by as much (from memory).
    """
    setback = FRONT_ROW + (door or Fraction(0))
    return HoleRow(height - PITCH / 2, PITCH, 2, setback, SYSTEM_HOLE, depth)


def cup_holes(height: Fraction, boring: Fraction) -> tuple[Hole, Hole, Hole]:
    """A hinge's cup and its two dowels in a door, `height` up from the door's lower end.

    `boring` is the distance from the door's edge to the edge of the cup. ValueError outside 3 to
    8 mm, what hinges are made for.
    """
    if not LEAST_BORING <= boring <= GREATEST_BORING:
        raise ValueError(f"a boring distance is 3 to 8 mm, not {float(boring / MM):g} mm")
    centre = boring + CUP_DIAMETER / 2
    behind = centre + DOWELS_BEHIND
    return (
        Hole(height, centre, CUP_DIAMETER, CUP_DEPTH),
        Hole(height - DOWELS_APART / 2, behind, DOWEL_DIAMETER, CUP_DEPTH),
        Hole(height + DOWELS_APART / 2, behind, DOWEL_DIAMETER, CUP_DEPTH),
    )


def slide_row(height: Fraction, slide: Fraction, depth: Fraction) -> HoleRow:
    """The holes of a drawer slide `slide` long: a level row in a side, `height` above its lower end.

    The row runs from the front edge: its first hole 37 mm in, the others 32 mm apart, as many as
    lie within the slide. ValueError for a slide too short for two.
    """
    number = int((slide - FRONT_ROW) / PITCH) + 1
    if slide < FRONT_ROW + PITCH:
        raise ValueError(f"a slide {float(slide / MM):.0f} mm long has no room for two holes")
    return HoleRow(FRONT_ROW, PITCH, number, height, SYSTEM_HOLE, depth)
