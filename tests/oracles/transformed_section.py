"""The section of a shelf: a panel with its edging and strips, glued into one beam.

A shelf that cannot twist bends so, and judges the plate that stands for one that can. The transformed section
of the mechanics texts: each part is widened by its own modulus, the neutral axis goes through the centroid of
that, and the stiffness EI is the second moment about it. It holds for parts glued along their whole length
which bend straight down together.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from casewright.strength.shelf_plate import StiffeningStrip


@dataclass(frozen=True)
class SectionPart:
    """A rectangle of the section, inches: `width` from front to back, `height`, its lower edge at `bottom`
    above any line that all parts share. `modulus` is in pounds per square inch."""

    width: Fraction
    height: Fraction
    bottom: Fraction
    modulus: Fraction

    def __post_init__(self) -> None:
        for name, size in (("width", self.width), ("height", self.height), ("modulus", self.modulus)):
            if size <= 0:
                raise ValueError(f"the {name} of a part of the section must be more than zero, not {size}")

    @property
    def tension_stiffness(self) -> Fraction:
        """Modulus times area, pounds."""
        return self.modulus * self.width * self.height

    @property
    def middle(self) -> Fraction:
        """The height of the rectangle's middle."""
        return self.bottom + self.height / 2

    def about(self, line: Fraction) -> Fraction:
        """Modulus times second moment of area about a level line, lb in2."""
        own = self.height**2 / 12
        return self.tension_stiffness * (own + (self.middle - line) ** 2)


@dataclass(frozen=True)
class ShelfSection:
    """Rectangles glued into one beam, in any number.

    Raises ValueError where there is none.
    """

    parts: tuple[SectionPart, ...]

    def __post_init__(self) -> None:
        if not self.parts:
            raise ValueError("a section needs at least one part")

    @property
    def neutral_axis(self) -> Fraction:
        """The height at which bending neither stretches nor squeezes, above the line of the parts."""
        total = sum(part.tension_stiffness for part in self.parts)
        return sum((part.tension_stiffness * part.middle for part in self.parts), Fraction(0)) / total

    @property
    def stiffness(self) -> Fraction:
        """EI about the neutral axis, lb in2."""
        axis = self.neutral_axis
        return sum((part.about(axis) for part in self.parts), Fraction(0))


def bare_panel(depth: Fraction, thickness: Fraction, modulus: Fraction) -> ShelfSection:
    """A panel without edging: EI is E b h3 / 12."""
    return ShelfSection((SectionPart(depth, thickness, Fraction(0), modulus),))


def panel_with_strips(
    depth: Fraction, thickness: Fraction, modulus: Fraction, strips: tuple[StiffeningStrip, ...]
) -> ShelfSection:
    """A panel with strips along its edges. `depth` is the panel's own, without the strips."""
    return ShelfSection(
        (
            SectionPart(depth, thickness, Fraction(0), modulus),
            *(
                SectionPart(strip.width, strip.height, thickness + strip.above - strip.height, strip.modulus)
                for strip in strips
            ),
        )
    )
