"""How the gaps beside inset fronts of solid wood change with the seasons, and panels in their frames."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from ...casework.build.case import Case
from ...casework.build.fronts.placed_fronts import PlacedFront
from ...casework.directions import Axis
from ...casework.front_choices import FrontLie
from ...casework.movement import movement_text, moves_words, panel_movement, part_movements
from ...casework.parts.part import Part, Role
from ...casework.project import Project


def season_words(project: Project, case: Case) -> Iterator[str]:
    """What the gaps of inset doors come to in the damp and in the dry season, for the doors that move most;
    nothing for plywood, which keeps its size."""
    if case.spec.construction.fronts is not FrontLie.INSET:
        return
    doors = [front for bay in case.fronts for front in bay.fronts if front.kind.is_door]
    gap = case.spec.construction.front_gap
    found = [_gap_left(project, case, door, gap) for door in doors]
    if found and (moved := min(found)) != (gap, gap):
        now, damp, dry = (movement_text(project.job, one) for one in (gap, *moved))
        yield (
            f"Solid wood moves: the gaps beside the doors, {now} now, close to {damp} in the damp season and "
            f"open to {dry} in the dry."
        )


def panel_words(project: Project, case: Case) -> Iterator[str]:
    """What the panels of framed doors do in their grooves, for the one that moves most; nothing for
    plywood."""
    moving = part_movements(
        project.job, [part for part in case.parts if part.role is Role.DOOR_PANEL], project.sizes
    )
    if not moving:
        return
    most = max(moving, key=lambda one: one.moves.shrinks + one.moves.swells)
    wide = project.printed(most.width)
    shrinks, swells = (movement_text(project.job, one) for one in (most.moves.shrinks, most.moves.swells))
    play = project.printed(case.spec.construction.panel_play)
    yield (
        f"Solid wood moves: a panel cut {wide} wide {moves_words(shrinks, swells)} across the grain; "
        f"its grooves leave it {play} in all. Finish it before it goes in, so that no bare edge shows in the "
        "dry season, and set it in their middle."
    )


def _gap_left(project: Project, case: Case, door: PlacedFront, gap: Fraction) -> tuple[Fraction, Fraction]:
    """Each gap beside a door or a pair when they have swollen, and when they have shrunk."""
    swells = shrinks = Fraction(0)
    for part in (part for part in case.parts if _widens(part, door)):
        moves = panel_movement(
            project.sizes.of(part.width), project.job.sheets[part.material], project.job.climate
        )
        swells, shrinks = swells + moves.swells, shrinks + moves.shrinks
    gaps = len(door.leaves) + 1
    return max(gap - swells / gaps, Fraction(0)), gap + shrinks / gaps


def _widens(part: Part, door: PlacedFront) -> bool:
    """Whether a part moves its door's width: a slab with its grain upright, or a stile."""
    return part.leaf in door.leaves and part.lie.width is Axis.X and part.role is not Role.DOOR_PANEL
