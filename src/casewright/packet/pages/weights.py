"""What parts and cases weigh, as printed."""

from __future__ import annotations

from collections.abc import Iterable

from ...casework.parts.part import Part
from ...casework.parts.weights import weight_of
from ...casework.project import Project
from ...lengths.quantities import weighed


def weight_words(project: Project, parts: Iterable[Part]) -> str:
    """`weight_of` as printed: `108 lb`, or kilograms where the shop works in millimetres."""
    pounds = weight_of(project, parts)
    return "not known" if pounds is None else weighed(pounds, project.job.unit)
