"""Features that are out by the same wherever they belong together: used as they are, others cut to match.

Shelves lie level if all their rows of holes are as much too high, and so does a fixed shelf if both its
dadoes are; a door hangs level if its cups and plates are. Rows, cups and plates that are still to be bored
are then bored as those were. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from ...casework.parts.features.feature import Feature
from ...casework.parts.part import Part, Role
from ...casework.project import Project
from ...lengths.length import show
from ...workshop.changed_cuts import ChangedCut
from ..facts import Facts
from ..harm import HarmKind
from ..hinge_places import Place, hinge_places
from ..housings import housings
from ..price import Seen, most_seen
from ..what_lines_up import UNNOTICED, shelf_lines_up
from .cure import PartCure
from .mends import side_of_part
from .way import KeepAsCut, Mend, WayKind

END_LEFT = Fraction(1, 2)
"""How much wood must stay between a hole and the end of its part (inches)."""

SHELVES, DOOR = "every shelf lies level", "the door hangs level"


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
        yield from _bored_to_match(project, facts, alike, out)
        if all(_agree(out, places, half) for places, _, _ in found):
            shown = most_seen(seen for _, _, seen in found)
            why = " ".join(dict.fromkeys(_why(project, held, out[places[0]]) for places, held, _ in found))
            marks = frozenset(part.mark for part in alike)
            kept = tuple(KeepAsCut(part.mark, why) for part in alike)
            yield PartCure(WayKind.USE, marks, kept, shown, marks)


def _all_said(part: Part, facts: Facts, out: dict[Place, Fraction]) -> bool:
    """Whether a feature out of place by so much is all that is wrong with the part."""
    cut = facts.spoiled[part.mark]
    return bool(cut.harms) and all(
        harm.fault is HarmKind.PLACE and (part.mark, harm.feature) in out for harm in cut.harms
    )


def _features(parts: Sequence[Part], out: dict[Place, Fraction]) -> Iterator[tuple[Part, Feature]]:
    for part in parts:
        for feature in part.features:
            if (part.mark, feature.name) in out:
                yield part, feature


def _together(project: Project, part: Part, feature: Feature) -> tuple[tuple[Place, ...], str, Seen] | None:
    """All features that must agree with this one, what comes of it (or the shelf that they hold), and what is
    seen if all are out alike; None where that would never do."""
    if holes := _holes_alike(project, part, feature):
        return holes, SHELVES if feature.serves else DOOR, Seen.NOTHING
    for shelf in project.cases[part.case].parts:
        if shelf.role is not Role.FIXED_SHELF:
            continue
        held = housings(project, shelf, shelf.lie.length)
        places = tuple((one.holder.mark, one.channel.name) for one in held)
        if (part.mark, feature.name) in places:
            return places, shelf.mark, Seen.DESIGN if shelf_lines_up(project, shelf) else Seen.IN_SIGHT
    return None


def _holes_alike(project: Project, part: Part, feature: Feature) -> tuple[Place, ...]:
    """The rows of the same shelves, or the cups and plates of the same door; empty for all else."""
    if not feature.serves:
        return hinge_places(project, part, feature)
    return tuple(
        (other.mark, row.name)
        for other in project.cases[part.case].parts
        for row in other.features
        if row.serves == feature.serves
    )


def _agree(out: dict[Place, Fraction], places: Sequence[Place], half: Fraction) -> bool:
    if not all(place in out for place in places):
        return False
    by = [out[place] for place in places]
    return max(by) - min(by) <= half and max(abs(one) for one in by) <= UNNOTICED


def _why(project: Project, held: str, by: Fraction) -> str:
    much = show(abs(by), project.job.mark, unit=True).marked
    if held in (SHELVES, DOOR):
        which = "rows of the bay" if held == SHELVES else "cups and plates of the door"
        return f"All {which} are out by the same {much}, so that {held}."
    return f"Both its dadoes are out by the same {much}: {held} lies level, that much from where it is drawn."


def _bored_to_match(
    project: Project, facts: Facts, alike: Sequence[Part], out: dict[Place, Fraction]
) -> Iterator[PartCure]:
    """The other rows of the same shelves, or the other cups and plates of the same door, none of them bored
    yet, bored out of place by the same."""
    half = project.job.mark.step / 2
    bored: dict[str, list[ChangedCut]] = {}
    level: list[str] = []
    for part, feature in _features(alike, out):
        by = out[part.mark, feature.name]
        places = _holes_alike(project, part, feature)
        if not places or not _holes_have_room(project, part, feature, by):
            return
        level.append(SHELVES if feature.serves else DOOR)
        for place in places:
            other = project.parts[place[0]]
            row = other.feature(place[1])
            if place in out:
                if abs(out[place] - by) > half or abs(by) > UNNOTICED:
                    return
            elif _is_cut(facts, *place) or not _holes_have_room(project, other, row, by):
                return
            else:
                words = _bore_words(project, other, row, by, part.mark)
                changed = ChangedCut(other.mark, row.name, words)
                if changed not in bored.setdefault(other.mark, []):
                    bored[other.mark].append(changed)
    if bored:
        marks = frozenset(part.mark for part in alike)
        why = f"The others are bored to match, so that {' and '.join(dict.fromkeys(level))}."
        kept = tuple(KeepAsCut(part.mark, why) for part in alike)
        mends = tuple(
            Mend(mark, Fraction(0), tuple(dict.fromkeys(one.words for one in rows)), changes=tuple(rows))
            for mark, rows in bored.items()
        )
        yield PartCure(WayKind.MATCH, marks, (*kept, *mends), Seen.NOTHING, marks | frozenset(bored))


def _is_cut(facts: Facts, mark: str, name: str) -> bool:
    """Whether a feature is cut already, or its part is spoiled otherwise."""
    cut = facts.finished.get(mark) or facts.spoiled.get(mark)
    if cut is None:
        return False
    so_far = cut.cut_so_far
    return so_far is None or name in so_far


def _holes_have_room(project: Project, part: Part, row: Feature, by: Fraction) -> bool:
    """Whether the row, so much farther from the end that it is measured from, stays on the part and clear of
    the channels of its face."""
    end, of = row.edges[-1], project.sizes.of
    shift = by if end.sign < 0 else -by
    channels = [one for one in part.features if one.channel and one.face is row.face]
    taken = [box.along(end.axis) for one in channels for box in one.cuts(part)]
    for bore in row.bores(part, project.sizes):
        low, high = (bore.mouth[end.axis.value] + shift + side * bore.radius for side in (-1, 1))
        if low < END_LEFT or high > of(part.size(end.axis)) - END_LEFT:
            return False
        # A groove for the back runs along the row and is clear of it; what crosses the row is a dado.
        if any(
            of(span.low) < high and low < of(span.high)
            for span in taken
            if of(span.high) - of(span.low) < of(part.size(end.axis)) / 2
        ):
            return False
    return True


def _bore_words(project: Project, part: Part, row: Feature, by: Fraction, like: str) -> str:
    much = show(abs(by), project.job.mark, unit=True).marked
    way = "farther from" if by > 0 else "nearer to"
    end = side_of_part(part, row.edges[-1])
    return f"Bore {row.name} of {part.mark} {much} {way} its {end} than it is drawn, to match {like}."
