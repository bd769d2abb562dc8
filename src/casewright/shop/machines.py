"""Saws, cutters and jigs, with the figures that sizes and settings depend on. Lengths in inches."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from .deviations import Deviations, Workmanship
from .dry_fits import NO_DRY_FITS, DryFits
from .materials import Offcut

HOURLY = Fraction(60)
"""What an hour at the bench counts as where the shop does not say, in the job's money (common practice, no
source)."""


@dataclass(frozen=True)
class HandSaw:
    """A hand-held circular saw run along a straightedge; it breaks sheets down to be carried.

    `clean_up` is how much oversize to leave an edge that will be cut again. `base_offset` is the distance
    from the cut to the straightedge (zero if the straightedge itself is the cut line); measure it and
    `blade_diameter` on your own saw.
    """

    name: str
    kerf: Fraction
    clean_up: Fraction
    cut_length: Fraction
    base_offset: Fraction = Fraction(3, 2)
    blade_diameter: Fraction = Fraction(29, 4)


@dataclass(frozen=True)
class TableSaw:
    """A table saw. `rip_capacity` is the greatest distance from the fence to the blade.

    `table_left` is how far the table extends past the blade on the side away from the
    fence, `table_deep` its depth from the front edge to the back edge.
    """

    name: str
    kerf: Fraction
    rip_capacity: Fraction
    blade_height: Fraction
    table_left: Fraction = Fraction(14)
    table_deep: Fraction = Fraction(27)


@dataclass(frozen=True)
class DadoStack:
    """Two outside cutters, each `outside` wide, with chippers between them and shims to adjust the width.

    `chippers` and `shims` list the thickness of every piece at hand. `greatest` is the widest stack that
    fits the arbor.
    """

    name: str
    outside: Fraction
    chippers: tuple[Fraction, ...]
    shims: tuple[Fraction, ...]
    greatest: Fraction


@dataclass(frozen=True)
class PinJig:
    """A drilling jig for shelf pins; its fence sets the row of holes `setback` in from the edge."""

    name: str
    setback: Fraction
    pitch: Fraction
    holes: int
    diameter: Fraction


@dataclass(frozen=True)
class Carry:
    """The most that one person carries: `weight` in pounds, `length` in inches. With no weight of the maker's
    own it is what the lifting equation recommends for each lift."""

    weight: Fraction | None
    length: Fraction


@dataclass(frozen=True)
class Shop:
    """The machines and offcuts at hand, how exactly the shop works, and what an hour in it counts as.

    `deviations` are those of its `workmanship`, but for the shop's own figures; `dry_fits` is how its dry
    fits went beside what was predicted.
    """

    hand_saw: HandSaw
    table_saw: TableSaw
    dado_stack: DadoStack
    carry: Carry
    workmanship: Workmanship
    deviations: Deviations
    pin_jig: PinJig | None = None
    rack: tuple[Offcut, ...] = field(default=())
    hourly: Fraction = HOURLY
    dry_fits: DryFits = NO_DRY_FITS
