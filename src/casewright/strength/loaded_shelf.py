"""A shelf under its load: how far it sags at once, and after years."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

from .beam import EndSupport, simple_uniform, two_spans_uniform
from .creep import Creep
from .loads import ShelfLoad
from .panel_stiffness import PanelStiffness
from .published import PublishedFigure
from .shelf_plate import (
    PlateSag,
    StiffeningStrip,
    Stiffness,
    plate_sag,
    plate_stiffness,
    strip_stiffness,
)

BILLIONTH = Fraction(1, 10**9)

SAGS_KEPT = 8192
"""Sags kept, at once and after years: those of a large job, with what was tried on each shelf to mend it."""


@dataclass(frozen=True)
class ShelfMaterial:
    """What a panel or a strip is made of: how stiff it is, and how it creeps."""

    stiffness: PanelStiffness
    creep: Creep

    def aged(self) -> PanelStiffness:
        """The stiffness that gives the sag after years: each modulus divided by the creep (EN 1995-1-1,
        2.3.2.2)."""
        share = 1 / self.creep.after_years.value

        def less(figure: PublishedFigure) -> PublishedFigure:
            return replace(figure, value=figure.value * share)

        return replace(
            self.stiffness,
            along=less(self.stiffness.along),
            across=less(self.stiffness.across),
            shear=less(self.stiffness.shear),
        )


@dataclass(frozen=True)
class ShelfStrip:
    """A strip glued along an edge of the panel with its grain along it: `width` from front to back, `height`,
    and how far its upper face stands `above` that of the panel, inches."""

    width: Fraction
    height: Fraction
    material: ShelfMaterial
    above: Fraction = Fraction(0)

    def strip(self, *, years: bool) -> StiffeningStrip:
        """The strip as a part of the section, at once or after years."""
        stiffness = self.material.aged() if years else self.material.stiffness
        return StiffeningStrip(self.width, self.height, stiffness.along.value, self.above)


@dataclass(frozen=True)
class LoadedShelf:
    """A shelf, top or bottom with what it carries, inches.

    `span` lies between the inner faces of what carries its ends. `depth` is the panel's own, without strips.
    `grain_along` tells that the grain of its face runs from side to side, `back_held` that its back edge is
    glued or screwed to the back all along, `middle` that a support at its middle halves the span. Raises
    ValueError where a size is not more than zero.
    """

    span: Fraction
    depth: Fraction
    thickness: Fraction
    material: ShelfMaterial
    load: ShelfLoad
    support: EndSupport = EndSupport.DADO
    grain_along: bool = True
    front: ShelfStrip | None = None
    back: ShelfStrip | None = None
    back_held: bool = False
    middle: bool = False

    def __post_init__(self) -> None:
        for name, size in (("span", self.span), ("depth", self.depth), ("thickness", self.thickness)):
            if size <= 0:
                raise ValueError(f"the {name} of a shelf must be more than zero, not {float(size):g} in")

    @property
    def whole_depth(self) -> Fraction:
        """From front to back with the strips."""
        return self.depth + sum(one.width for one in (self.front, self.back) if one)

    @property
    def clear_span(self) -> Fraction:
        """Between two neighbouring supports."""
        return self.span / 2 if self.middle else self.span

    @property
    def is_plain(self) -> bool:
        """Whether it is a bare panel that only its ends and middle carry, a beam."""
        return not (self.front or self.back or self.back_held)


@dataclass(frozen=True)
class ShelfSag:
    """How far a shelf sags, inches: halfway along its front edge and its back edge, and where it is most."""

    front: Fraction
    back: Fraction
    most: Fraction


@lru_cache(maxsize=SAGS_KEPT)
def sag_of(shelf: LoadedShelf, *, years: bool) -> ShelfSag:
    """The sag of a shelf at once, or after years.

    A bare panel is a beam. One with strips, or held by its back, is a plate as deep as from the middle of one
    strip to the middle of the other, that rests on its ends and is free to turn there; a support at its
    middle then counts as an end, on the cautious side. The shelf's own weight is left out: the published
    loads are laid on a shelf that already bears itself.
    """
    creep = shelf.material.creep.after_years.value
    strips = [one for one in (shelf.front, shelf.back) if one]
    if years and all(one.material.creep.after_years.value == creep for one in strips):
        first = sag_of(shelf, years=False)  # of one creep all through, it only sags further
        return ShelfSag(first.front * creep, first.back * creep, first.most * creep)
    stiffness = shelf.material.aged() if years else shelf.material.stiffness
    load = shelf.load.per_square_inch(shelf.span, shelf.whole_depth)
    if shelf.is_plain:
        return _as_beam(shelf, stiffness, load)

    middle_to_middle = (shelf.depth + shelf.whole_depth) / 2

    def added(strip: ShelfStrip | None) -> Stiffness:
        if strip is None:
            return 0.0
        return strip_stiffness(
            strip.strip(years=years),
            shelf.clear_span,
            middle_to_middle,
            shelf.thickness,
            stiffness,
            grain_along=shelf.grain_along,
        )

    sag = plate_sag(
        float(load * shelf.whole_depth / middle_to_middle),
        float(shelf.clear_span),
        float(middle_to_middle),
        plate_stiffness(stiffness, shelf.thickness, grain_along=shelf.grain_along),
        front=added(shelf.front),
        back=added(shelf.back),
        back_held=shelf.back_held,
    )
    return _exact(sag)


def _as_beam(shelf: LoadedShelf, stiffness: PanelStiffness, load: Fraction) -> ShelfSag:
    modulus = stiffness.lengthwise(grain_along=shelf.grain_along).value
    bends = modulus * shelf.depth * shelf.thickness**3 / 12
    sag = two_spans_uniform if shelf.middle else simple_uniform
    most = sag(load * shelf.depth, shelf.clear_span, bends)
    return ShelfSag(most, most, most)


def _exact(sag: PlateSag) -> ShelfSag:
    front, back, most = (
        Fraction(round(one / BILLIONTH)) * BILLIONTH for one in (sag.front, sag.back, sag.most)
    )
    return ShelfSag(front, back, most)
