"""Channels cut a little too wide or too deep, whose joints hold all the same: the fit is asked."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from ...casework.parts.part import Part
from ...casework.project import Project
from ..as_cut_in_fit import gaps_spoiled, sizes_of_gaps
from ..facts import AsCut, Facts
from ..harm import HarmKind
from .cure import PartCure
from .way import KeepAsCut, WayKind

WHY = "With its channels as they were cut, its joints still fit."


def joints_hold(project: Project, facts: Facts, missing: Sequence[Part]) -> Iterator[PartCure]:
    """For each case the cure of all its spoiled parts whose every fault is a channel that is a little too
    large, if every joint holds with all of them at once."""
    for case in dict.fromkeys(part.case for part in missing):
        sizes: dict[str, Fraction] = {}
        marks: list[str] = []
        for part in missing:
            cut = facts.spoiled.get(part.mark)
            found = _channels(project, part, cut) if cut and part.case == case else {}
            if found:
                marks.append(part.mark)
                sizes |= found
        if not marks or not sizes.keys() <= sizes_of_gaps(project, case):
            continue  # of what no gap knows the fit says nothing
        if not gaps_spoiled(project, case, sizes):
            saved = frozenset(marks)
            yield PartCure(WayKind.USE, saved, tuple(KeepAsCut(mark, WHY) for mark in marks), touches=saved)


def _channels(project: Project, part: Part, cut: AsCut) -> dict[str, Fraction]:
    """The sizes as cut of its channels that are too large, by ledger name; empty if anything else is wrong
    with the part, or nobody said by how much."""
    length, width, _ = project.dimensions(part)
    sizes: dict[str, Fraction] = {}
    for harm in cut.harms:
        channel = part.feature(harm.feature).channel if harm.feature else None
        large = channel and harm.by > 0 and harm.fault in (HarmKind.LARGE, HarmKind.DEEP)
        if channel is None or not large or (cut.length, cut.width) != (length, width):
            return {}
        form = channel.width if harm.fault is HarmKind.LARGE else channel.depth
        sizes[form.name] = project.sizes.of(form) + harm.by
    return sizes
