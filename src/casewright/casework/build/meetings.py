"""How parts meet: the positions this gives them, and the loops it closes.

Joints only say which surface of one part meets which surface of another. Following those meetings in
order of assembly places every part. A meeting between two parts that are already placed closes a loop:
the gap there is a form over the sizes around the loop.
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
    """How two surfaces are designed to meet."""

    SEATED = "seated"  # pressed home, glue between
    FLUSH = "flush"  # in one plane
    SLIP = "slip fit"  # a panel in its dado: pushed in by hand, no rattle
    PLAY = "play"  # clearance left on purpose


@dataclass(frozen=True, slots=True)
class Surface:
    """A flat surface of a part that faces `looks`, `at` from the part's low corner along that axis."""

    part: str
    looks: Way
    at: Affine
    words: str


@dataclass(frozen=True, slots=True)
class Mate:
    """Two surfaces that meet. `first` lies below `second` along the axis where they face each other.

    `gap` is the design distance from `first` to `second`.
    """

    name: str
    meeting: Meeting
    first: Surface
    second: Surface
    gap: Affine = NOTHING

    @property
    def axis(self) -> Axis:
        return self.first.looks.axis

    @property
    def key(self) -> str:
        """What tells this meeting from every other of the job, whatever it is called: the two parts, the axis
        and how they meet. Shops' records name joints by it, so it is never made otherwise."""
        one, other = sorted((self.first.part, self.second.part))
        return f"{one} {other} {self.axis.name} {self.meeting.value}"


@dataclass(frozen=True, slots=True)
class Link:
    """One step of a chain: across `part` from surface to surface, or across the meeting `mate`.

    `step` is its contribution to the distance.
    """

    words: str
    part: str | None
    mate: str | None
    step: Affine


@dataclass(frozen=True, slots=True)
class Chain:
    """A closed loop: the `gap` that the `links` leave at the meeting `mate`, as a form over sizes."""

    mate: Mate
    links: tuple[Link, ...]
    gap: Affine

    @property
    def name(self) -> str:
        return self.mate.name


@dataclass(frozen=True)
class Placement:
    """Each part's low corner, measured from the first part's, and the loops that the meetings close.

    `loose` lists parts, with the axis, that no meeting places. Loops through `removed` parts are ignored.
    """

    corners: Mapping[tuple[str, Axis], Affine]
    loose: tuple[tuple[str, Axis], ...]
    _closing: tuple[Mate, ...]
    _tree: Mapping[tuple[str, Axis], list[tuple[str, Mate]]]
    removed: frozenset[str] = frozenset()

    @cached_property
    def chains(self) -> tuple[Chain, ...]:
        """The loops, found on first use.

        Meetings that no size can open are left out: two fronts flush with a third are flush with each
        other whatever the sizes.
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
    """Place `parts` by their meetings, taken in order; `first` is at the origin."""
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
    """Parts whose positions along one axis are known relative to each other."""

    def __init__(self, corners: dict[str, Affine]) -> None:
        self.corners = corners

    @classmethod
    def of(cls, part: str) -> _Group:
        return cls({part: NOTHING})

    def take(self, other: _Group, shift: Affine) -> None:
        for part, corner in other.corners.items():
            self.corners[part] = corner + shift


def _close(mate: Mate, tree: Mapping[tuple[str, Axis], list[tuple[str, Mate]]]) -> Chain:
    """The loop that `mate` closes, from its first surface through the tree to its second."""
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
    """The meetings between `start` and `goal`; True for those crossed from first to second surface."""
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
