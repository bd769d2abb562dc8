"""A panel cut too narrow whose edge is still to be covered: a thicker strip of edging makes up for it.

Limits and times are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from ...casework.build.edged_edges import EDGE_NAMES
from ...casework.hidden_sides import is_hidden
from ...casework.project import Project
from ...shop.edging import Edging
from ..price import Seen
from .cure import Lack, PartCure, one_part
from .way import Mend, WayKind

MOST_THICKER = Fraction(3, 8)
"""Inches that a strip may be thicker than the others: beyond that it is a lip of its own."""

THINNEST_SAWN = Fraction(1, 8)
"""Inches: what is thinner comes from a roll, and nobody saws one strip of it thicker."""

UNNOTICED = Fraction(1, 16)
"""Inches by which one strip among others may be thicker without anybody seeing it."""

STRIP_MINUTES_MORE = Fraction(10)
"""To saw one strip of another thickness."""


def thicker_strips(project: Project, lack: Lack) -> Iterator[PartCure]:
    """A strip thicker by what the panel lacks, for each edge along the grain that is edged first."""
    part = lack.part
    if lack.cut.worked or lack.short > 0 or not 0 < lack.narrow <= MOST_THICKER:
        return
    for edge in part.edges:
        edging = project.job.edging[edge.edging]
        sawn = edging.taken_off and edging.thickness >= THINNEST_SAWN
        if edge.way.axis is part.lie.width and edge.first and sawn:
            unseen = lack.narrow <= UNNOTICED or is_hidden(project, part, edge.way)
            steps = _steps(project, lack, edging, EDGE_NAMES[edge.way])
            mend = Mend(part.mark, STRIP_MINUTES_MORE, steps, f"a thicker strip on {part.mark}")
            seen = Seen.NOTHING if unseen else Seen.IN_SIGHT
            yield one_part(WayKind.THICKER_STRIP, lack, (mend,), seen)


def _steps(project: Project, lack: Lack, edging: Edging, edge: str) -> tuple[str, ...]:
    mark, finished = lack.part.mark, project.printed(project.worked(lack.part)[1])
    thick, usual = (project.printed(one) for one in (edging.thickness + lack.narrow, edging.thickness))
    return (
        f"Saw one strip for {mark} {thick} thick instead of {usual}, as wide as the {edging.name}.",
        f"Glue it on the {edge} edge of {mark}, which brings it to {finished} wide.",
    )
