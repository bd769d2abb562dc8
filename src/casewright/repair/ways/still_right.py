"""Whether a finished part is still right after the job has changed, and if not, what would make it so."""

from __future__ import annotations

from collections.abc import Iterable
from enum import Enum

from ...casework.directions import Way
from ...casework.parts.features.feature import Feature
from ...casework.parts.part import Part
from ...casework.project import Project
from ...sizes.affine import Affine
from ..facts import AsCut
from ..harm import Harm, HarmKind


class Verdict(Enum):
    """What has to be done to a finished part."""

    RIGHT = "right as it is"
    TRIM = "right once trimmed"
    REMAKE = "must be made again"


def judge(before: Project, after: Project, mark: str, cut: AsCut) -> Verdict:
    """Whether the part `mark`, cut as `cut` for the job `before`, still serves in the job `after`.

    A part whose features are cut can be trimmed only at an edge from which none is measured. One with
    harms must be told by how much each of them is out; it serves if they are right in the job `after`.
    """
    part = after.parts.get(mark)
    if part is None:
        return Verdict.REMAKE
    length, width, thickness = after.dimensions(part)
    if after.parts[mark].material != before.parts[mark].material or thickness != before.dimensions(part)[2]:
        return Verdict.REMAKE
    if length > cut.length or width > cut.width:
        return Verdict.REMAKE
    if cut.harms and not _right_as_cut(before, after, mark, cut):
        return Verdict.REMAKE
    smaller = length < cut.length, width < cut.width
    if not cut.harms and not _features_fit(before, after, mark, cut, *smaller):
        return Verdict.REMAKE
    return Verdict.RIGHT if (length, width) == (cut.length, cut.width) else Verdict.TRIM


def sides_to_trim(after: Project, mark: str, cut: AsCut) -> tuple[tuple[Way, ...], ...]:
    """The ends or edges that the part may be trimmed at, a set for each size that is too large.

    Once features are cut, those from which none is measured; before that, either.
    """
    part = after.parts[mark]
    length, width, _ = after.dimensions(part)
    measured = {edge for feature in cut.made_of_it(part) for edge in feature.edges}
    return tuple(
        tuple(way for way in Way if way.axis is axis and way not in measured)
        for axis, off in ((part.lie.length, cut.length - length), (part.lie.width, cut.width - width))
        if off > 0
    )


def _features_fit(
    before: Project, after: Project, mark: str, cut: AsCut, shorter: bool, narrower: bool
) -> bool:
    part, made = after.parts[mark], cut.made_of_it(after.parts[mark])
    if _signature(before, cut.made_of_it(before.parts[mark])) != _signature(after, made):
        return False
    edges = {edge for feature in made for edge in feature.edges}
    for trimmed, axis in ((shorter, part.lie.length), (narrower, part.lie.width)):
        if trimmed and {way for way in Way if way.axis is axis} <= edges:
            return False
    return True


def feature_form(part: Part, harm: Harm) -> Affine | None:
    """The size of a feature that a harm is about: its place or its depth; None for any other harm."""
    feature = part.feature(harm.feature) if harm.feature else None
    if feature is None:
        return None
    if harm.fault is HarmKind.DEEP:
        return next((one.form for one in feature.sizes if one.words == "deep"), None)
    if harm.fault is HarmKind.PLACE:
        return next((one.form for one in feature.sizes if one.edge is feature.edges[-1]), None)
    return None


def _right_as_cut(before: Project, after: Project, mark: str, cut: AsCut) -> bool:
    """Whether what is cut into a part so far is what the changed job asks for, to half a mark of the rule."""
    old, new = before.parts[mark], after.parts[mark]
    off = {feature_form(old, harm): harm.by for harm in cut.harms}
    if None in off or not all(off.values()) or len(off) < len(cut.harms):
        return False
    was, made = cut.made_of_it(old), cut.made_of_it(new)
    half = before.job.mark.step / 2
    pairs = zip(was, made, strict=False)
    return len(was) == len(made) and all(
        (one.name, one.face, one.edges, before.sizes.of(one.count))
        == (other.name, other.face, other.edges, after.sizes.of(other.count))
        and all(
            abs(before.sizes.of(size.form) + off.get(size.form, 0) - after.sizes.of(wanted.form)) <= half
            for size, wanted in zip(one.sizes, other.sizes, strict=True)
        )
        for one, other in pairs
    )


def _signature(project: Project, features: Iterable[Feature]) -> tuple[tuple[object, ...], ...]:
    """Everything about the features that a cutter is set to."""
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
        for feature in features
    )
