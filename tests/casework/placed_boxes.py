"""Where the parts of a job stand: what tests of places start from."""

from __future__ import annotations

from casewright.casework.extents import RoomBox, part_extent
from casewright.casework.project import Project


def boxes(project: Project) -> dict[str, RoomBox]:
    """The box of each part in its room, by the part's mark."""
    return {mark: part_extent(project, part) for mark, part in project.parts.items()}
