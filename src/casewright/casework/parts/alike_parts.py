"""Parts that are worked alike, so that a job of many cases keeps to a list a person can hold.

Parts of one material and size with the same features at the same places form one group. The two
hands of a pair are one group too: their features carry the same words, only the face differs.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from ..project import Project
from .features import Feature
from .part import Hand, Part

Signature = tuple[object, ...]


@dataclass(frozen=True)
class Group:
    """Equal parts, in the order of the job. Sizes in inches."""

    parts: tuple[Part, ...]
    length: Fraction
    width: Fraction
    thickness: Fraction

    @property
    def first(self) -> Part:
        return self.parts[0]

    @property
    def marks(self) -> tuple[str, ...]:
        return tuple(part.mark for part in self.parts)

    @property
    def count(self) -> int:
        return len(self.parts)

    @property
    def words(self) -> str:
        """What the parts are: `left side, right side`."""
        return ", ".join(dict.fromkeys(part.role.value for part in self.parts))

    def of_hand(self, hand: Hand) -> tuple[Part, ...]:
        return tuple(part for part in self.parts if part.hand is hand)

    @property
    def pair(self) -> tuple[Part, Part] | None:
        """A left and a right part of the group, if it has both."""
        left, right = self.of_hand(Hand.LEFT), self.of_hand(Hand.RIGHT)
        return (left[0], right[0]) if left and right else None


def groups(project: Project, parts: Iterable[Part] | None = None) -> tuple[Group, ...]:
    """The parts (all of the job's unless given) in groups, in order of first appearance."""
    found: dict[Signature, list[Part]] = {}
    for part in project if parts is None else parts:
        found.setdefault(signature(project, part), []).append(part)
    return tuple(Group(tuple(alike), *project.dimensions(alike[0])) for alike in found.values())


def signature(project: Project, part: Part) -> Signature:
    """What two parts share exactly if they may stand in for each other, or are a handed pair."""
    plain = (part.material, *project.dimensions(part))
    if not part.features:
        return plain
    worked = sorted(str(_feature(project, part, feature)) for feature in part.features)
    return (*plain, part.hand is not Hand.NONE, part.lie.length, part.lie.width, *worked)


def _feature(project: Project, part: Part, feature: Feature) -> Signature:
    """A feature in the same words on either hand: which face, of the two, does not tell them apart."""
    of = project.sizes.of
    on_worked_face = feature.face is None or feature.face is part.lie.worked
    sizes = (of(size.form) for size in feature.sizes)
    return (feature.kind_words, on_worked_face, feature.edges, of(feature.count), *sizes)
