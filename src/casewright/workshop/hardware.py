"""Hardware counted off the parts: shelf pins, and screws by their size."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from ..casework.parts.part import Role
from ..casework.project import Project
from .assembly.joining import joinings
from .assembly.screws import Screw

PINS_TO_A_SHELF = 4
"""Common practice, no source: a pin near each corner."""


def shelf_pins(project: Project) -> int:
    """How many pins the adjustable shelves rest on."""
    return PINS_TO_A_SHELF * sum(part.role is Role.ADJUSTABLE_SHELF for part in project)


def screw_count(project: Project, cases: Iterable[str]) -> Counter[Screw]:
    """How many screws of each size the cases take."""
    found: Counter[Screw] = Counter()
    for mark in cases:
        for joining in joinings(project, mark):
            for joint in joining.screws:
                found[joint.screw] += len(joint.places)
    return found
