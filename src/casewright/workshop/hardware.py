"""What is counted off the parts besides sheets: shelf pins, screws, sticks of edging, drawer slides."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from ..casework.parts.part import Role
from ..casework.project import Project
from ..shop.slides import Slide, SlideKind
from .assembly.joining import GlueUp
from .assembly.screws import Screw
from .edging_work import EdgingBought, edging_bought

PINS_TO_A_SHELF = 4
"""Common practice, no source: a pin near each corner."""


@dataclass(frozen=True, slots=True)
class SlidesBought:
    """Slides of one kind and length (inches): what one drawer runs on."""

    slide: Slide
    length: Fraction

    @property
    def sold_as(self) -> str:
        """What to ask for: one in the middle, or a pair."""
        alone = self.slide.kind is SlideKind.CENTER
        return self.slide.name if alone else f"{self.slide.name}, pairs"


@dataclass(frozen=True)
class Hardware:
    """What to buy besides sheet goods. `screws` are those of each size, the most numerous first; `slides` are
    those of each length, by drawers."""

    shelf_pins: int
    screws: tuple[tuple[Screw, int], ...]
    edging: tuple[EdgingBought, ...] = ()
    slides: tuple[tuple[SlidesBought, int], ...] = ()


def hardware(project: Project, joinings: Iterable[GlueUp]) -> Hardware:
    """Pins for every shelf on pins, the screws of these glue-ups, edging and drawer slides; no spare ones."""
    shelves = sum(part.role is Role.ADJUSTABLE_SHELF for part in project)
    screws: Counter[Screw] = Counter()
    for joining in joinings:
        for joint in joining.screws:
            screws[joint.screw] += len(joint.places)
    slides = Counter(
        SlidesBought(one.on.slide, one.on.length)
        for case in project.cases.values()
        for one in case.drawers
        if one.on and one.box
    )
    return Hardware(
        PINS_TO_A_SHELF * shelves, tuple(screws.most_common()), edging_bought(project), tuple(slides.items())
    )
