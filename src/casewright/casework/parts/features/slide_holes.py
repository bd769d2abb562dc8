"""What is bored for drawer slides: the screws of each in a side or divider, on a line across it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import ClassVar

from .feature import EDGE_WORDS, FeatureSize
from .hole_line import HoleLine

SLOTS_TAKE = Fraction(1, 16)
"""How far the holes of a slide may be out, inches: some of its own holes are slots (from memory)."""

SLIDE_COVERS = Fraction(3, 4)
"""How far about its screws a slide covers the wood, inches: one that is 45 mm high (from memory)."""


@dataclass(frozen=True, slots=True)
class SlideHoles(HoleLine):
    """The pilots of one slide's screws. Their line runs from front to back, `setback` from the lower end."""

    called_so: ClassVar[str] = "slide hole"
    code: ClassVar[str] = "slides"
    beside: ClassVar[tuple[str, str]] = ("lower end", "long")
    onward: ClassVar[tuple[str, str]] = ("front edge", "wide")

    @property
    def set_by_screws(self) -> Fraction:
        return SLOTS_TAKE

    @property
    def covered_within(self) -> Fraction:
        return SLIDE_COVERS

    @property
    def sizes(self) -> tuple[FeatureSize, ...]:
        first = f"first from the {EDGE_WORDS[self.end]} edge"
        return (
            FeatureSize(self.setback, f"from the {EDGE_WORDS[self.edge]} end", self.edge, self.code),
            FeatureSize(self.first, first, self.end, f"first {self.code[:-1]}"),
            FeatureSize(self.pitch, "apart"),
            FeatureSize(self.diameter, "across"),
            FeatureSize(self.depth, "deep"),
        )
