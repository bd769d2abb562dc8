"""A part's shape in exact numbers, before any geometry kernel sees it.

Every kernel takes its boxes and bores from here, so where two kernels disagree it is about geometry
and never about a size.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from ..casework.directions import Axis, Box
from ..casework.parts.holes import Bore
from ..casework.parts.part import Part
from ..sizes.ledger import Sizes

Point = tuple[Fraction, Fraction, Fraction]


@dataclass(frozen=True, slots=True)
class Block:
    """A box square to the axes, from its `low` corner to its `high` one."""

    low: Point
    high: Point


@dataclass(frozen=True)
class PartShape:
    """A part as it leaves the bench: a `blank` from the origin, less `cuts` and `bores`.

    Inches, from the part's own low corner along the axes of its case.
    """

    blank: Point
    cuts: tuple[Block, ...] = ()
    bores: tuple[Bore, ...] = ()

    def __hash__(self) -> int:
        return self._hash

    @cached_property
    def _hash(self) -> int:
        # Cached: a side with fifty holes is looked up once for every joint on it.
        return hash((self.blank, self.cuts, self.bores))


def shape_of(part: Part, sizes: Sizes) -> PartShape:
    """The shape of a part at the ledger's values."""
    cuts: list[Block] = []
    bores: list[Bore] = []
    for feature in part.features:
        cuts.extend(_block(cut, sizes) for cut in feature.cuts(part))
        bores.extend(feature.bores(part, sizes))
    return PartShape(_block(part.blank(), sizes).high, tuple(cuts), tuple(bores))


def _block(box: Box, sizes: Sizes) -> Block:
    x, y, z = (box.along(axis) for axis in Axis)
    return Block(
        (sizes.of(x.low), sizes.of(y.low), sizes.of(z.low)),
        (sizes.of(x.high), sizes.of(y.high), sizes.of(z.high)),
    )
