"""Whether a finished part is still right after the job has changed, and if not, what would make it so."""

from __future__ import annotations

from enum import Enum

from ...casework.directions import Way
from ...casework.parts.part import Part
from ...casework.project import Project
from ..facts import AsCut


class Verdict(Enum):
    """What has to be done to a finished part."""

    RIGHT = "right as it is"
    TRIM = "right once trimmed"
    REMAKE = "must be made again"


def judge(before: Project, after: Project, mark: str, cut: AsCut) -> Verdict:
    """Whether the part `mark`, cut as `cut` for the job `before`, still serves in the job `after`.

    A part whose features are cut can be trimmed only at an edge from which none is measured.
    """
    part = after.parts.get(mark)
    if part is None:
        return Verdict.REMAKE
    length, width, thickness = after.dimensions(part)
    if after.parts[mark].material != before.parts[mark].material or thickness != before.dimensions(part)[2]:
        return Verdict.REMAKE
    if length > cut.length or width > cut.width:
        return Verdict.REMAKE
    if cut.worked and not _features_fit(before, after, mark, length < cut.length, width < cut.width):
        return Verdict.REMAKE
    return Verdict.RIGHT if (length, width) == (cut.length, cut.width) else Verdict.TRIM


def sides_to_trim(after: Project, mark: str, cut: AsCut) -> tuple[tuple[Way, ...], ...]:
    """The ends or edges that the part may be trimmed at, a set for each size that is too large.

    Once features are cut, those from which none is measured; before that, either.
    """
    part = after.parts[mark]
    length, width, _ = after.dimensions(part)
    measured = {edge for feature in part.features for edge in feature.edges} if cut.worked else set()
    return tuple(
        tuple(way for way in Way if way.axis is axis and way not in measured)
        for axis, off in ((part.lie.length, cut.length - length), (part.lie.width, cut.width - width))
        if off > 0
    )


def _features_fit(before: Project, after: Project, mark: str, shorter: bool, narrower: bool) -> bool:
    old, new = before.parts[mark], after.parts[mark]
    if _signature(before, old) != _signature(after, new):
        return False
    edges = {edge for feature in new.features for edge in feature.edges}
    for trimmed, axis in ((shorter, new.lie.length), (narrower, new.lie.width)):
        if trimmed and {way for way in Way if way.axis is axis} <= edges:
            return False
    return True


def _signature(project: Project, part: Part) -> tuple[tuple[object, ...], ...]:
    """Everything about the part's features that a cutter is set to."""
    of = project.sizes.of
    return tuple(
        (
            feature.name,
            feature.kind_words,
            feature.face,
            feature.edges,
            of(feature.count),
            *(of(size.form) for size in feature.sizes),
        )
        for feature in part.features
    )
