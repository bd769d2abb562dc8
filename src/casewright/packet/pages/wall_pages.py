"""The walls in rows, each its elevation with its plan in line below: the first row is for the cover."""

from __future__ import annotations

from collections.abc import Sequence

from ...casework.project import Project
from ...drawings.kit.pages import PlacedScene, at_scale, fit_row
from ...drawings.views.elevation import elevation
from ...drawings.views.plan_view import plan_view
from ...drawings.views.room import Wall, walls
from .page_picture import Json, embed_picture

ROOM = (520.0, 318.0)
"""Points for a row of walls: the width of A4 between its margins, and half a page below a heading."""

GAP = 16.0
BESIDE = (62.0, 92.0)
"""Points that the figures take beside a wall, and above and below it, at least."""

LEAST = 1.45
"""Points for an inch at least where walls share a row: a case of two feet then holds its mark and width."""


def wall_pages(project: Project) -> list[Json]:
    """The rows of walls: each wall's name and picture."""
    return [
        [{"name": wall.name, "picture": embed_picture(placed)} for wall, placed in row]
        for row in wall_rows(project)
    ]


def wall_rows(project: Project) -> list[list[tuple[Wall, PlacedScene]]]:
    """The walls with their drawings, in the order in which the job names them: as many to a row as it holds
    at a scale that can be read."""
    rows: list[list[Wall]] = []
    for wall in walls(project):
        if rows and _scale([*rows[-1], wall]) >= LEAST:
            rows[-1].append(wall)
        else:
            rows.append([wall])
    return [list(zip(row, _drawn(row), strict=True)) for row in rows]


def _long(row: Sequence[Wall]) -> float:
    return sum(right - left for right, left in (wall.ends[::-1] for wall in row))


def _scale(row: Sequence[Wall]) -> float:
    """The points that an inch has where these walls fill a row."""
    return (ROOM[0] - GAP * (len(row) - 1) - BESIDE[0] * len(row)) / _long(row)


def _drawn(row: Sequence[Wall]) -> tuple[PlacedScene, ...]:
    deep = max(wall.deep for wall in row)
    size = (_long(row), max(wall.top for wall in row) + deep)
    beside = (BESIDE[0] * len(row) + GAP * (len(row) - 1), BESIDE[1])
    return fit_row(lambda point: tuple(_wall(wall, point) for wall in row), size, ROOM, beside, GAP)


def _wall(wall: Wall, point: float) -> PlacedScene:
    return at_scale(elevation(wall, point), point, plan_view(wall, point), gap=12.0)
