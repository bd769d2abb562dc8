"""Features that are out by the same wherever they belong together: used as they are.

Shelves lie level if all their rows of holes are as much too high, and so does a fixed shelf if both its
dadoes are. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from ...casework.parts.features.feature import Feature
from ...casework.parts.part import Part, Role
from ...casework.project import Project
from ...lengths.length import show
from ..facts import Facts
from ..harm import HarmKind
from ..housings import housings
from ..price import Seen, most_seen
from ..what_lines_up import UNNOTICED, shelf_lines_up
from .cure import PartCure
from .way import KeepAsCut, WayKind

Place = tuple[str, str]
"""A part's mark and the name of a feature of it."""


def out_alike(project: Project, facts: Facts, missing: Sequence[Part]) -> Iterator[PartCure]:
    """Cures that save all spoiled parts of a case at once whose every fault is one that agrees."""
    for case in dict.fromkeys(part.case for part in missing):
        parts = [part for part in missing if part.case == case and part.mark in facts.spoiled]
        out = {
            (part.mark, harm.feature): harm.by
            for part in parts
            for harm in facts.spoiled[part.mark].harms
            if harm.fault is HarmKind.PLACE and harm.by
        }
        alike = [part for part in parts if _all_said(part, facts, out)]
        groups = [_together(project, part, feature) for part, feature in _features(alike, out)]
        if not groups or any(group is None for group in groups):
            continue
        found = [group for group in groups if group is not None]
        half = project.job.mark.step / 2
        if all(_agree(out, places, half) for places, _, _ in found):
            shown = most_seen(seen for _, _, seen in found)
            why = " ".join(dict.fromkeys(_why(project, held, out[places[0]]) for places, held, _ in found))
            marks = frozenset(part.mark for part in alike)
            kept = tuple(KeepAsCut(part.mark, why) for part in alike)
            yield PartCure(WayKind.USE, marks, kept, shown, marks)


def _all_said(part: Part, facts: Facts, out: dict[Place, Fraction]) -> bool:
    """Whether a feature out of place by so much is all that is wrong with the part."""
    cut = facts.spoiled[part.mark]
    return bool(cut.harms) and all((part.mark, harm.feature) in out for harm in cut.harms)


def _features(parts: Sequence[Part], out: dict[Place, Fraction]) -> Iterator[tuple[Part, Feature]]:
    for part in parts:
        for feature in part.features:
            if (part.mark, feature.name) in out:
                yield part, feature


def _together(project: Project, part: Part, feature: Feature) -> tuple[tuple[Place, ...], str, Seen] | None:
    """All features that must agree with this one, what rests on them, and what is seen if all are out alike;
    None where that would never do."""
    if feature.serves:
        rows = tuple(
            (other.mark, row.name)
            for other in project.cases[part.case].parts
            for row in other.features
            if row.serves == feature.serves
        )
        return rows, "shelves", Seen.NOTHING
    for shelf in project.cases[part.case].parts:
        if shelf.role is not Role.FIXED_SHELF:
            continue
        held = housings(project, shelf, shelf.lie.length)
        places = tuple((one.holder.mark, one.channel.name) for one in held)
        if (part.mark, feature.name) in places:
            return places, shelf.mark, Seen.DESIGN if shelf_lines_up(project, shelf) else Seen.IN_SIGHT
    return None


def _agree(out: dict[Place, Fraction], places: Sequence[Place], half: Fraction) -> bool:
    if not all(place in out for place in places):
        return False
    by = [out[place] for place in places]
    return max(by) - min(by) <= half and max(abs(one) for one in by) <= UNNOTICED


def _why(project: Project, held: str, by: Fraction) -> str:
    much = show(abs(by), project.job.mark, unit=True).marked
    if held == "shelves":
        return f"All rows of the bay are out by the same {much}, so that every shelf lies level."
    return f"Both its dadoes are out by the same {much}: {held} lies level, that much from where it is drawn."
