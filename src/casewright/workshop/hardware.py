"""What is counted off the parts besides sheets: shelf pins, screws by their size, sticks of edging."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from ..casework.parts.part import Role
from ..casework.project import Project
from .assembly.joining import GlueUp
from .assembly.screws import Screw
from .edging_work import EdgingBought, edging_bought

PINS_TO_A_SHELF = 4
"""Common practice, no source: a pin near each corner."""


@dataclass(frozen=True)
class Hardware:
    """What to buy besides sheet goods. `screws` are those of each size, the most numerous first."""

    shelf_pins: int
    screws: tuple[tuple[Screw, int], ...]
    edging: tuple[EdgingBought, ...] = ()


def hardware(project: Project, joinings: Iterable[GlueUp]) -> Hardware:
    """The pins of every shelf on pins, the screws of these glue-ups, and the edging; no spare ones."""
    shelves = sum(part.role is Role.ADJUSTABLE_SHELF for part in project)
    screws: Counter[Screw] = Counter()
    for joining in joinings:
        for joint in joining.screws:
            screws[joint.screw] += len(joint.places)
    return Hardware(PINS_TO_A_SHELF * shelves, tuple(screws.most_common()), edging_bought(project))
