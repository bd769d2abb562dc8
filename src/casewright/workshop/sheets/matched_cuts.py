"""Matched parts that the hand-held saw cuts to size: side by side in one pass, or one marked from the other.

The table saw's fence keeps its setting from one part to the next, a clamped straightedge does not: two lines
measured one after another differ by what two readings of the rule differ. So the pieces of a match group wait
for each other, are clamped side by side with their ends flush and are cut in one pass as far as the
straightedge reaches across them. Where one comes of what the other's cut leaves, or they are too wide
together, the later is marked from the part that is cut already. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from ...casework.project import Project
from ..operations import Machine, Operation, OperationKind

_Side = tuple[OperationKind, Fraction, str]
"""Which way a part is cut, the size, and the edge it is measured from."""


def cut_together(project: Project, cuts: Sequence[Operation]) -> list[Operation]:
    """The cuts in their order; those by hand that bring a match group to one size know of each other."""
    pairing = _Pairing(project.job.shop.hand_saw.cut_length, {cut.key: cut for cut in cuts})
    for keys in _alike(project, cuts):
        pairing.pair(keys)
    return [pairing.cuts[cut.key] for cut in cuts]


def _alike(project: Project, cuts: Iterable[Operation]) -> list[list[str]]:
    """The cuts that must be alike: of one side of a match group, or of several that share a cut."""
    found: list[tuple[_Side, set[str], list[str]]] = []
    for cut in cuts:
        groups = set(_groups_sized(project, cut))
        if not groups or cut.makes is None:
            continue
        side = (cut.kind, cut.makes, cut.hold.against)
        same = [one for one in found if one[0] == side and one[1] & groups]
        keys = [key for _, _, several in same for key in several]
        others = [one for one in found if one not in same]
        found = [*others, (side, groups.union(*(one[1] for one in same)), [*keys, cut.key])]
    return [keys for _, _, keys in found]


def _groups_sized(project: Project, cut: Operation) -> Iterator[str]:
    """The match groups of which a cut by hand brings a part to size."""
    if cut.setting.machine is not Machine.HAND_SAW:
        return
    for mark in cut.sizes:
        part = project.parts.get(mark)
        if part is not None and part.match is not None and cut.makes in project.dimensions(part)[:2]:
            yield part.match


class _Pairing:
    """The cuts by their keys while they are paired: whatever is added to what a cut waits for stays free of
    cycles."""

    def __init__(self, reach: Fraction, cuts: dict[str, Operation]) -> None:
        self.reach = reach
        self.cuts = cuts

    def pair(self, keys: Sequence[str]) -> None:
        """Cut one side of a match group in as few passes as can be, the later ones marked from the first."""
        passes = self._passes(keys)
        for together in passes:
            if len(together) > 1:
                waits = tuple(dict.fromkeys(key for one in together for key in self.cuts[one].after))
                for one in together:
                    self.cuts[one] = replace(self.cuts[one], after=waits, together=tuple(together))
        first = passes[0]
        for other in passes[1:]:
            if self._waits_for(first, other):
                first, other = other, first
            pattern = self.cuts[first[0]]
            for one in other:
                after = (*self.cuts[one].after, pattern.key)
                self.cuts[one] = replace(self.cuts[one], after=after, marked_from=pattern.sizes[0])

    def _passes(self, keys: Sequence[str]) -> list[list[str]]:
        """The cuts shared out over passes: none waits for another of its pass, and the straightedge lies
        across them all. Whole sheets are not laid side by side."""
        passes: list[list[str]] = []
        for key in keys:
            for together in passes:
                wide = sum(self.cuts[one].travel for one in (*together, key))
                apart = self._waits_for(together, [key]) or self._waits_for([key], together)
                small = self.cuts[key].kind is not OperationKind.CARRY
                if small and wide <= self.reach and not apart:
                    together.append(key)
                    break
            else:
                passes.append([key])
        return passes

    def _waits_for(self, later: Iterable[str], earlier: Iterable[str]) -> bool:
        """Whether any of these cuts waits for any of those, however far back."""
        wanted, seen, waiting = set(earlier), set[str](), list(later)
        while waiting:
            for key in self.cuts[waiting.pop()].after:
                if key in wanted:
                    return True
                if key in self.cuts and key not in seen:
                    seen.add(key)
                    waiting.append(key)
        return False
