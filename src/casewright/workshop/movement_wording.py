"""How much the solid wood of a job shrinks and swells in the house, in words that pages and papers share.

Parts of one wood and width move alike and stand in one line; above the lines stands what moisture they go by.
"""

from __future__ import annotations

from dataclasses import dataclass

from ..casework.movement import (
    PartMovement,
    as_usual,
    climate_text,
    movement_text,
    moves_words,
    part_movements,
)
from ..casework.parts.part import Part
from ..casework.project import Project

MOVEMENT_TITLE = "How the solid wood moves"


@dataclass(frozen=True)
class MovementLine:
    """Parts of one wood and width, and how much they shrink and swell from the size they are cut to."""

    words: str
    marks: tuple[str, ...]
    width: str
    shrinks: str
    swells: str


@dataclass(frozen=True)
class MovementTold:
    """A line for the parts that move alike; `basis` tells what moisture of the wood they go by."""

    basis: str
    lines: tuple[MovementLine, ...]


def movement_told(project: Project) -> MovementTold | None:
    """How every part of solid wood moves, alike ones in one line; None in a job of panels only."""
    moving = part_movements(project.job, project, project.sizes)
    if not moving:
        return None
    alike: dict[tuple[str, str], list[PartMovement]] = {}
    for one in moving:
        key = (project.parts[one.mark].material, project.printed(one.width))
        alike.setdefault(key, []).append(one)
    return MovementTold(
        _basis(project, beyond=any(one.moves.by_shrinkage for one in moving)),
        tuple(
            MovementLine(
                _stock(project, material),
                tuple(one.mark for one in parts),
                width,
                *_in_words(project, parts[0]),
            )
            for (material, width), parts in alike.items()
        ),
    )


def moves_in_short(project: Project, part: Part) -> str:
    """`shrinks 1/16", swells 3/32"`: what a part of solid wood does in the house; empty for a panel."""
    moving = part_movements(project.job, [part], project.sizes)
    if not moving:
        return ""
    shrinks, swells = _in_words(project, moving[0])
    return moves_words(shrinks, swells)


def movement_lines(told: MovementTold) -> tuple[str, ...]:
    """The sentence on the moisture, then one for each line."""
    lines = (
        f"{', '.join(one.marks)}: {one.words}, {one.width} wide; {moves_words(one.shrinks, one.swells)}."
        for one in told.lines
    )
    return (told.basis, *lines)


def _in_words(project: Project, one: PartMovement) -> tuple[str, str]:
    """How much a part shrinks, and how much it swells."""
    job, moves = project.job, one.moves
    return movement_text(job, moves.shrinks), movement_text(job, moves.swells)


def _stock(project: Project, material: str) -> str:
    sheet = project.job.sheets[material]
    assert sheet.wood is not None
    return f"{sheet.wood.name}, {_SAWN[sheet.sawn.value]}"


_SAWN = {"flat": "flatsawn", "quarter": "quartersawn", "mixed": "flat and quartersawn"}


def _basis(project: Project, *, beyond: bool) -> str:
    climate = project.job.climate
    taken = as_usual(climate) if climate.assumed else "as the job file says"
    words = f"From the width you cut, with wood of {climate_text(climate)} ({taken})."
    return f"{words} Beyond 6 to 14 % it is figured from the wood's total shrinkage." if beyond else words
