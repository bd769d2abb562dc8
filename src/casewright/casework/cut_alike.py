"""Parts that are cut alike: one idea for the parts list, the drawings, the pages and the packet.

Two parts are cut alike when one drawing and one set of settings makes both: the same material, the
same three sizes, and the same features at the same places, measured from the same edges. The two
hands of a pair are cut alike too, since their features carry the same words and only the face
differs; a group says how many of each hand it has, so that nobody cuts two left sides.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from .parts.features import Channel, Feature, Notch
from .parts.part import Hand, Part, Role
from .project import Project

Signature = tuple[object, ...]

# What a pair is called when both of its hands, or both of its places, stand in one group.
_PAIRS = {
    frozenset({Role.LEFT_SIDE, Role.RIGHT_SIDE}): "side",
    frozenset({Role.FRONT_STRETCHER, Role.BACK_STRETCHER}): "stretcher",
    frozenset({Role.PLINTH_FRONT, Role.PLINTH_BACK}): "plinth board",
}


@dataclass(frozen=True)
class PartGroup:
    """Parts cut alike, in the order of the job. Sizes in inches, length along the grain."""

    parts: tuple[Part, ...]
    length: Fraction
    width: Fraction
    thickness: Fraction

    @property
    def first(self) -> Part:
        """The part that stands for all of them."""
        return self.parts[0]

    @property
    def material(self) -> str:
        """The key of their sheet goods."""
        return self.first.material

    @property
    def marks(self) -> tuple[str, ...]:
        """The marks of all of them."""
        return tuple(part.mark for part in self.parts)

    @property
    def count(self) -> int:
        """How many there are."""
        return len(self.parts)

    @property
    def words(self) -> str:
        """What the parts are: `side`, or `bottom, fixed shelf`."""
        roles = dict.fromkeys(part.role for part in self.parts)
        pairs = {role: word for pair, word in _PAIRS.items() if pair <= roles.keys() for role in pair}
        return ", ".join(dict.fromkeys(pairs.get(role, role.value) for role in roles))

    def of_hand(self, hand: Hand) -> tuple[Part, ...]:
        """Those of one hand."""
        return tuple(part for part in self.parts if part.hand is hand)

    @property
    def pair(self) -> tuple[Part, Part] | None:
        """A left and a right part of the group, if it has both."""
        left, right = self.of_hand(Hand.LEFT), self.of_hand(Hand.RIGHT)
        return (left[0], right[0]) if left and right else None

    def within(self, case: str) -> PartGroup | None:
        """Those of one case; None where it has none of them."""
        parts = tuple(part for part in self.parts if part.case == case)
        return PartGroup(parts, self.length, self.width, self.thickness) if parts else None


def cut_alike(project: Project) -> tuple[PartGroup, ...]:
    """The parts list. Every part is in one group: by material in order of first use, then the
    longest and widest first, then in the order of the job."""
    found: dict[Signature, list[Part]] = {}
    for part in project:
        found.setdefault(signature(project, part), []).append(part)
    groups = [PartGroup(tuple(parts), *project.dimensions(parts[0])) for parts in found.values()]
    materials = list(dict.fromkeys(group.material for group in groups))
    return tuple(
        sorted(groups, key=lambda group: (materials.index(group.material), -group.length, -group.width))
    )


def within_case(groups: Iterable[PartGroup], case: str) -> tuple[PartGroup, ...]:
    """The parts list of one case."""
    return tuple(part for group in groups if (part := group.within(case)))


def signature(project: Project, part: Part) -> Signature:
    """What parts share exactly if they are cut alike."""
    plain = (part.material, *project.dimensions(part))
    if not part.features:
        return plain
    worked = sorted(str(_feature(project, part, feature)) for feature in part.features)
    return (*plain, part.hand is not Hand.NONE, part.lie.length, part.lie.width, *worked)


def _feature(project: Project, part: Part, feature: Feature) -> Signature:
    """A feature as the saw sees it: which face and edges it is set out from, and how far."""
    of = project.sizes.of
    if isinstance(feature, Notch):
        return feature.first_edge, of(feature.first), feature.second_edge, of(feature.second)
    on = feature.face is part.lie.worked
    if isinstance(feature, Channel):
        return feature.kind.value, on, feature.edge, of(feature.at), of(feature.width), of(feature.depth)
    sizes = (feature.setback, feature.first, feature.pitch, feature.number, feature.diameter, feature.depth)
    return (on, feature.edge, feature.end, *(of(size) for size in sizes))
