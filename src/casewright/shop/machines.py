"""Saws, cutters and jigs, as far as a size or a setting depends on them. Lengths in inches."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from .materials import Offcut


@dataclass(frozen=True)
class HandSaw:
    """A hand-held circular saw run along a straightedge; it breaks sheets into pieces to carry.

    `clean_up` is how much oversize its cuts are left where the edge is cut again.
    `repeatability` is the standard deviation of where its cut lands. `base_offset` is how far its
    base reaches from the cut to the straightedge (nothing where the straightedge's own edge is
    the line), `blade_diameter` how large its blade is: measure both on your own saw.
    """

    name: str
    kerf: Fraction
    clean_up: Fraction
    cut_length: Fraction
    repeatability: float
    base_offset: Fraction = Fraction(3, 2)
    blade_diameter: Fraction = Fraction(29, 4)


@dataclass(frozen=True)
class TableSaw:
    """A table saw. `rip_capacity` is the greatest distance from the fence to the blade.

    `setting` is the standard deviation of a fence distance as set by the rule, `cut` that of
    one cut among several on the same setting. `table_left` is how far the table carries a piece
    beyond the blade, away from the fence, and `table_deep` from the maker's edge to the far one.
    """

    name: str
    kerf: Fraction
    rip_capacity: Fraction
    blade_height: Fraction
    setting: float
    cut: float
    table_left: Fraction = Fraction(14)
    table_deep: Fraction = Fraction(27)


@dataclass(frozen=True)
class DadoStack:
    """Two outside cutters of `outside` each, chippers between them, shims to bring it to width.

    `chippers` and `shims` list the pieces on the shelf, each as often as it is there.
    """

    name: str
    outside: Fraction
    chippers: tuple[Fraction, ...]
    shims: tuple[Fraction, ...]
    greatest: Fraction
    depth_setting: float


@dataclass(frozen=True)
class PinJig:
    """A drilling jig for shelf pins whose own fence sets the row `setback` in from the edge."""

    name: str
    setback: Fraction
    pitch: Fraction
    holes: int
    diameter: Fraction


@dataclass(frozen=True)
class Carry:
    """What the maker will carry alone: `weight` in pounds, `length` in inches."""

    weight: Fraction
    length: Fraction


@dataclass(frozen=True)
class Shop:
    """Everything at hand. `rule` is the standard deviation of a reading by the rule, in inches."""

    hand_saw: HandSaw
    table_saw: TableSaw
    dado_stack: DadoStack
    carry: Carry
    rule: float
    pin_jig: PinJig | None = None
    rack: tuple[Offcut, ...] = field(default=())
