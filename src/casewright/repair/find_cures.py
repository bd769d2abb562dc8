"""The cures of spoiled parts, singly and together."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from ..casework.parts.part import Part
from ..casework.project import Project
from .facts import Facts
from .price import SEEN_MINUTES
from .repair_times import RepairPace
from .ways.as_it_is import used_as_it_is
from .ways.change_places import exchanges
from .ways.channels_to_part import channels_to_part
from .ways.cure import PartCure, lack_of
from .ways.joints_hold import joints_hold
from .ways.mends import mended
from .ways.out_alike import out_alike
from .ways.smaller_box import smaller_boxes
from .ways.way import ServeAs, WayKind

TAKEN_OUT = frozenset({WayKind.TURN, WayKind.CENTRE, WayKind.LIP, WayKind.PACK_IN})
"""Cures for which a part must lie on the bench."""

Together = tuple[WayKind, tuple[PartCure, ...]]


def cures_of(
    project: Project, facts: Facts, missing: Sequence[Part], pace: RepairPace
) -> Mapping[str, tuple[PartCure, ...]]:
    """The cures of each spoiled part that has any, the cheapest first. A part that is glued up is mended in
    its place or not at all."""
    found: dict[str, list[PartCure]] = {}
    for part in missing:
        cut = facts.spoiled.get(part.mark)
        if cut is None or min(cut.length, cut.width) <= 0:
            continue
        lack = lack_of(project, part.mark, cut)
        cures = [*used_as_it_is(project, lack), *mended(project, lack)]
        if facts.is_built_in(part):
            cures = [cure for cure in cures if cure.kind not in TAKEN_OUT]
        found[part.mark] = cures
    for cure in (
        *out_alike(project, facts, missing),
        *joints_hold(project, facts, missing),
        *channels_to_part(project, facts, missing),
        *smaller_boxes(project, facts, missing),
    ):
        for mark in cure.saves:
            found.setdefault(mark, []).append(cure)
    loose = [part for part in missing if not facts.is_built_in(part)]
    for cure in exchanges(project, facts, loose, pace):
        for mark in cure.saves:
            found.setdefault(mark, []).append(cure)
    return {
        mark: tuple(sorted(cures, key=lambda cure: price_of(cure, pace)))
        for mark, cures in found.items()
        if cures
    }


def price_of(cure: PartCure, pace: RepairPace) -> Fraction:
    """What a cure counts as, in minutes: those at the bench, and those for what is seen."""
    return sum((pace.minutes(one, 0) for one in cure.actions), SEEN_MINUTES[cure.seen])


def together(cures: Mapping[str, Sequence[PartCure]]) -> Iterator[Together]:
    """Each cure alone, and for several spoiled parts the cheapest of each that use no piece twice."""
    if len(cures) > 1:
        taken: set[str] = set()
        chosen: list[PartCure] = []
        for mark, own in cures.items():
            if any(mark in cure.saves for cure in chosen):
                continue
            free = next((cure for cure in own if not cure.touches & taken), None)
            if free:
                chosen.append(free)
                taken |= free.touches
        kinds = {cure.kind for cure in chosen}
        yield (kinds.pop() if len(kinds) == 1 else WayKind.MIXED), tuple(chosen)
    for own in cures.values():
        for cure in own:
            yield cure.kind, (cure,)


def pieces_given(cures: Sequence[PartCure]) -> frozenset[str]:
    """The spoiled pieces that are no longer wood for others."""
    given = {mark for cure in cures for mark in cure.saves if not _exchanged(cure)}
    return frozenset(
        given | {one.piece for cure in cures for one in cure.actions if isinstance(one, ServeAs)}
    )


def _exchanged(cure: PartCure) -> bool:
    return any(isinstance(one, ServeAs) for one in cure.actions)
