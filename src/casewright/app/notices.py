"""What the packet's cover says besides the figures: sizes that could be taken for one another."""

from __future__ import annotations

from ..casework.project import Project
from ..documents.packet import Notice
from ..putright.guard import look_alikes

MOST = 8
"""Lines of a notice; a cover that says everything is read by nobody."""


def notices(project: Project) -> tuple[Notice, ...]:
    """Every notice there is reason for."""
    lines = [f"{alike.likeness.value.capitalize()}: {alike.advice}" for alike in look_alikes(project)]
    if len(lines) > MOST:
        lines = [*lines[: MOST - 1], f"and {len(lines) - MOST + 1} more such pairs."]
    return (Notice("Sizes easily taken for one another", tuple(lines)),) if lines else ()
