"""How parts meet, where that puts them, and which loops it closes.

Joints say only which surface of one part meets which surface of another. Walking those
meetings in the order of assembly places every part; a meeting between two parts that already
have their places closes a loop, and the gap left there is a form over the sizes along the way.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import Enum
from functools import cached_property

from ...sizes.affine import NOTHING, Affine, total
from ..directions import Axis, Way


class Meeting(Enum):
    """How two surfaces are meant to meet."""

    SEATED = "seated"  # pressed home, glue between
    FLUSH = "flush"  # in one plane
    SLIP = "slip fit"  # a panel in its dado: goes in by hand, does not rattle
    PLAY = "play"  # room left on purpose


@dataclass(frozen=True, slots=True)
class Surface:
    """A plane of a part: `at` from the part's low corner along the axis of the way it looks."""

    part: str
    looks: Way
    at: Affine
    words: str


@dataclass(frozen=True, slots=True)
class Mate:
    """Two surfaces that meet. `first` lies below `second` along the axis where they face each other.

    `gap` is the distance wanted from `first` to `second`.
    """

    name: str
    meeting: Meeting
    first: Surface
    second: Surface
    gap: Affine = NOTHING

    @property
    def axis(self) -> Axis:
        return self.first.looks.axis


@dataclass(frozen=True, slots=True)
class Link:
    """One step of a chain: across `part` from surface to surface, or across the meeting `mate`.

    `step` is what it adds to the distance.
    """

    words: str
    part: str | None
    mate: str | None
    step: Affine


@dataclass(frozen=True, slots=True)
class Chain:
    """A closed loop: the `gap` that the `links` leave at the meeting `mate`, over the parts' sizes."""

    mate: Mate
    links: tuple[Link, ...]
    gap: Affine

    @property
    def name(self) -> str:
        return self.mate.name


@dataclass(frozen=True)
class Placement:
    """Each part's low corner from the first part's, and the loops that the meetings close.

    `loose` lists parts and axes that no meeting places. Loops through `removed` parts are ignored.
    """

    corners: Mapping[tuple[str, Axis], Affine]
    loose: tuple[tuple[str, Axis], ...]
    _closing: tuple[Mate, ...]
    _tree: Mapping[tuple[str, Axis], list[tuple[str, Mate]]]
    removed: frozenset[str] = frozenset()

    @cached_property
    def chains(self) -> tuple[Chain, ...]:
        """The loops, found when they are first asked for.

        Two fronts flush with a third are flush with each other whatever the sizes: a meeting
        that nothing can open is no chain to watch.
        """
        found = (_close(mate, self._tree) for mate in self._closing)
        return tuple(
            chain
            for chain in found
            if (chain.gap.names or chain.gap != chain.mate.gap) and not self._parts(chain) & self.removed
        )

    def _parts(self, chain: Chain) -> set[str]:
        links = {link.part for link in chain.links if link.part is not None}
        return links | {chain.mate.first.part, chain.mate.second.part}


def place(first: str, parts: Iterable[str], mates: Iterable[Mate]) -> Placement:
    """Put `parts` where `mates`, taken in order, put them; `first` stays at the origin."""
    groups = {(part, axis): _Group.of(part) for part in parts for axis in Axis}
    tree: dict[tuple[str, Axis], list[tuple[str, Mate]]] = defaultdict(list)
    closing: list[Mate] = []
    for mate in mates:
        axis, a, b = mate.axis, mate.first.part, mate.second.part
        group, other = groups[a, axis], groups[b, axis]
        if group is other:
            closing.append(mate)
            continue
        tree[a, axis].append((b, mate))
        tree[b, axis].append((a, mate))
        # corner(b) + second.at = corner(a) + first.at + gap
        shift = group.corners[a] + mate.first.at + mate.gap - mate.second.at - other.corners[b]
        kept, moved = (other, group) if first in other.corners else (group, other)
        kept.take(moved, shift if kept is group else -shift)
        for part in moved.corners:
            groups[part, axis] = kept
    corners: dict[tuple[str, Axis], Affine] = {}
    loose: list[tuple[str, Axis]] = []
    for (part, axis), group in groups.items():
        if first in group.corners:
            corners[part, axis] = group.corners[part]
        else:
            loose.append((part, axis))
    return Placement(corners, tuple(loose), tuple(closing), tree)


class _Group:
    """Parts whose places along one axis are known relative to each other."""

    def __init__(self, corners: dict[str, Affine]) -> None:
        self.corners = corners

    @classmethod
    def of(cls, part: str) -> _Group:
        return cls({part: NOTHING})

    def take(self, other: _Group, shift: Affine) -> None:
        for part, corner in other.corners.items():
            self.corners[part] = corner + shift


def _close(mate: Mate, tree: Mapping[tuple[str, Axis], list[tuple[str, Mate]]]) -> Chain:
    """The loop that `mate` closes: from its first surface round through the tree to its second."""
    steps = _path(mate.first.part, mate.second.part, mate.axis, tree)
    links: list[Link] = []
    here = mate.first
    for crossed, onward in steps:
        entering, leaving = (crossed.first, crossed.second) if onward else (crossed.second, crossed.first)
        links.append(Link(f"{here.words} to {entering.words}", here.part, None, entering.at - here.at))
        links.append(Link(crossed.name, None, crossed.name, crossed.gap if onward else -crossed.gap))
        here = leaving
    links.append(Link(f"{here.words} to {mate.second.words}", here.part, None, mate.second.at - here.at))
    gap = total(link.step for link in links)
    return Chain(mate, tuple(link for link in links if link.mate or link.step != NOTHING), gap)


def _path(
    start: str, goal: str, axis: Axis, tree: Mapping[tuple[str, Axis], list[tuple[str, Mate]]]
) -> list[tuple[Mate, bool]]:
    """The meetings on the way from `start` to `goal`; True where crossed from first to second."""
    came: dict[str, tuple[str, Mate] | None] = {start: None}
    waiting = [start]
    for part in waiting:
        if part == goal:
            break
        for neighbour, mate in tree[part, axis]:
            if neighbour not in came:
                came[neighbour] = (part, mate)
                waiting.append(neighbour)
    steps: list[tuple[Mate, bool]] = []
    part = goal
    while (back := came[part]) is not None:
        before, mate = back
        steps.append((mate, mate.first.part == before))
        part = before
    return steps[::-1]
