"""A colour for each sheet good, the same in every picture and file of one job."""

from __future__ import annotations

from collections.abc import Mapping

from ..casework.project import Project

Colour = tuple[float, float, float]
"""Red, green and blue from 0 to 1 (sRGB)."""

_WOODS: tuple[Colour, ...] = (
    (0.88, 0.74, 0.53),
    (0.67, 0.47, 0.31),
    (0.94, 0.88, 0.74),
    (0.53, 0.58, 0.50),
    (0.78, 0.56, 0.44),
    (0.47, 0.36, 0.30),
    (0.72, 0.74, 0.76),
    (0.60, 0.66, 0.74),
)

Palette = Mapping[str, Colour]
"""Colours by the keys of a job's sheet goods."""


def palette(project: Project) -> Palette:
    """A colour for each of the job's sheet goods, given out in the order of the job."""
    return {key: _WOODS[place % len(_WOODS)] for place, key in enumerate(project.job.sheets)}
