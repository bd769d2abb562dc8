"""Which cups and plates belong to one door: a door hangs level where all of them are out by the same."""

from __future__ import annotations

from collections.abc import Iterator

from ..casework.build.fronts.door_hinges import CUPS, DoorHinges
from ..casework.parts.features.feature import Feature
from ..casework.parts.part import Part
from ..casework.project import Project

Place = tuple[str, str]
"""A part's mark and the name of a feature of it."""


def hinge_places(project: Project, part: Part, feature: Feature) -> tuple[Place, ...]:
    """The cups and the plates of the door that this feature is bored for; none where it is for no hinge."""
    for hung in doors_of(project, part.case):
        places = tuple(_places(project, part.case, hung))
        if (part.mark, feature.name) in places:
            return places
    return ()


def doors_of(project: Project, case: str) -> Iterator[DoorHinges]:
    """The hinges of each door of a case."""
    for bay in project.cases[case].fronts:
        for front in bay.fronts:
            yield from front.hinges


def _places(project: Project, case: str, hung: DoorHinges) -> Iterator[Place]:
    plates = f"plate-{hung.leaf.removeprefix(f'{case}-')}-"
    for other in project.cases[case].parts:
        for feature in other.features:
            cups = feature.name == CUPS and other.leaf == hung.leaf
            if cups or (other.mark == hung.upright and feature.name.startswith(plates)):
                yield other.mark, feature.name
