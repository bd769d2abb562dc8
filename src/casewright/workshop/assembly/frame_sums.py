"""The lengths of a face frame's rails from what the dry fit measures, and where its mullions stand."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from ...casework.directions import Axis
from ...casework.parts.part import Role
from ...casework.project import Project


@dataclass(frozen=True, slots=True)
class RailSum:
    """The rails of one case: their marks, their planned length, and by how much they are `shorter`, or
    longer, than the room between the sides; both as printed."""

    marks: tuple[str, ...]
    length: Fraction
    by: Fraction
    shorter: bool


def rail_sum(project: Project, case: str) -> RailSum | None:
    """How the rails follow from the room between the sides; None for a case without a frame."""
    rails = [part for part in project.cases[case].parts if part.role is Role.RAIL]
    if not rails:
        return None
    room, length = project.sizes.of(project.cases[case].inside), project.dimensions(rails[0])[0]
    less = project.rule.number(room) - project.rule.number(length)
    return RailSum(tuple(part.mark for part in rails), length, abs(less), less > 0)


def mullion_places(project: Project, case: str) -> Iterator[tuple[str, Fraction]]:
    """Each mullion, with how far its left edge is from the left end of the rails."""
    rails = [part for part in project.cases[case].parts if part.role is Role.RAIL]
    for part in project.cases[case].parts:
        if part.role is Role.MULLION:
            at = Axis.X.value
            yield part.mark, project.corner(part)[at] - project.corner(rails[0])[at]
