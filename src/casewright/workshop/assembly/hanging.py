"""Where the cases go on the wall: how high each hangs, where its strips take screws, who lifts it.

Studs and walls are not known here, so no screw into a wall is chosen: that is for a person who knows them.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ...casework.extents import case_body, case_extent, part_extent
from ...casework.hung import hangs_on_wall
from ...casework.parts.part import Role
from ...casework.project import Project
from .case_lifts import CaseLift, case_lift


@dataclass(frozen=True, slots=True)
class PlacedCase:
    """A case where it goes: inches above the floor of its lower and upper edge and of the middle of each
    mounting strip, from above. `hung` cases do not stand on the floor, and their edges are those of their
    sides, as on the level line; `lift` is what it weighs and who lifts it."""

    mark: str
    wall: str
    hung: bool
    bottom: Fraction
    top: Fraction
    strips: tuple[Fraction, ...]
    lift: CaseLift


def placed_cases(project: Project) -> tuple[PlacedCase, ...]:
    """Every case, those that hang first (common practice: nothing stands in the way below them yet), each
    group in the order of the walls."""
    found = [placed_case(project, case.mark) for run in project.runs for case in run.cases]
    return tuple(sorted(found, key=lambda one: not one.hung))


def placed_case(project: Project, mark: str) -> PlacedCase:
    """The case called `mark` where it goes."""
    run, case = project.run_of(mark).run, project.cases[mark]
    hung = hangs_on_wall(run, case.spec)
    box = (case_body if hung else case_extent)(project, case)
    strips = {
        (extent.low[2] + extent.high[2]) / 2
        for part in case.parts
        if part.role is Role.MOUNTING_STRIP
        for extent in (part_extent(project, part),)
    }
    return PlacedCase(
        mark,
        run.wall,
        hung,
        box.low[2],
        box.high[2],
        tuple(sorted(strips, reverse=True)),
        case_lift(project, mark),
    )
