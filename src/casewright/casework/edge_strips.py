"""The strips of edging that a job needs: on which edge of which part, and how long."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from ..sizes.affine import Affine
from .build.case import Case
from .build.meetings import Surface
from .directions import Way, third_axis
from .parts.covered_edge import CoveredEdge
from .parts.part import Part
from .project import Project


@dataclass(frozen=True, slots=True)
class EdgeStrip:
    """One strip: the part and edge it covers, and its finished length in inches."""

    part: Part
    edge: CoveredEdge
    length: Fraction


def edge_strips(project: Project) -> tuple[EdgeStrip, ...]:
    """Every strip of the job, in the order of its parts."""
    return tuple(strip for part in project for strip in part_strips(project, part))


def part_strips(project: Project, part: Part) -> tuple[EdgeStrip, ...]:
    """The strips of one part."""
    case = project.cases[part.case]
    return tuple(EdgeStrip(part, edge, project.sizes.of(_length(case, part, edge))) for edge in part.edges)


def _length(case: Case, part: Part, edge: CoveredEdge) -> Affine:
    """How long the strip is.

    On a single part the strips along the grain cover the ends of those across it. On a case that is put
    together a strip runs from one part to the next.
    """
    along = third_axis(edge.way.axis, part.lie.thickness)
    if not edge.first:
        seen = part.size(along)
        for hidden in _hidden(case, part, edge.way):
            seen = seen - hidden
        return seen
    return part.size(along) if along is part.lie.length else part.width


def _hidden(case: Case, part: Part, way: Way) -> Iterator[Affine]:
    """What of a part's edge is not seen in its case: the ends that stand in channels, and a notch."""
    parts = {one.mark: one for one in case.parts}
    for mate in case.mates:
        for ours, theirs in ((mate.first, mate.second), (mate.second, mate.first)):
            if ours.part == part.mark and _is_side(part, ours) and ours.looks.axis is not way.axis:
                yield from (
                    channel.depth
                    for channel in parts[theirs.part].channels
                    if channel.face is theirs.looks and channel.floor(parts[theirs.part]) == theirs.at
                )
    for feature in part.features:
        notch = feature.corner
        if notch is not None and notch.first_edge is way:
            yield notch.second


def _is_side(part: Part, surface: Surface) -> bool:
    return surface.at == part.end(surface.looks.axis, surface.looks)
