"""The pens and tints of every drawing: few, and told apart by weight and dash before colour.

A shop prints on what it has, so nothing is shown by colour alone.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

INK = "#1d1b19"
SOFT = "#6f675e"
ACCENT = "#9c2f1c"
WHITE = "#ffffff"


@dataclass(frozen=True, slots=True)
class Pen:
    """A line: its `weight` and `dash` in points on paper."""

    weight: float
    colour: str = INK
    dash: tuple[float, ...] = ()


HEAVY = Pen(2.6)  # a reference edge, the strongest line on paper that prints no colour
BOLD = Pen(1.3)
FIRM = Pen(0.8)
FINE = Pen(0.5)
HAIR = Pen(0.35, SOFT)
HIDDEN = Pen(0.6, SOFT, (3.0, 2.0))
HAND_CUT = Pen(1.8, INK, (7.0, 2.5))
TABLE_CUT = Pen(0.7, INK)


class Tint(Enum):
    """What an area is filled with."""

    NONE = "none"
    PAPER = WHITE
    FACE = "#f6ecdb"
    EDGE = "#e2cda9"
    SHADE = "#cdb58c"
    CUT = "#b99b6b"
    THIN = "#eef0ec"
    CALM = "#f2f1ee"
    DARK = INK


class Layer(Enum):
    """What a line shows; the layers of a DXF file have these names."""

    BLANK = "BLANK"
    OUTLINE = "OUTLINE"
    REFERENCE = "REFERENCE"
    DADO = "DADO"
    GROOVE = "GROOVE"
    RABBET = "RABBET"
    NOTCH = "NOTCH"
    BORES = "BORES"
    EDGING = "EDGING"
    DIMENSIONS = "DIMENSIONS"
    TEXT = "TEXT"
    CASES = "CASES"
    ROOM = "ROOM"
    SHEET = "SHEET"
    PARTS = "PARTS"
    HATCHING = "HATCHING"
    OFFCUTS = "OFFCUTS"
    WASTE = "WASTE"
    CUTS_BY_HAND = "CUTS-BY-HAND"
    CUTS_AT_TABLE = "CUTS-AT-TABLE"
