"""Parts that are cut alike, as the parts list, drawings, pages and packet all group them.

Two parts are cut alike if one drawing and one set of settings make both: the same material, the
same three sizes, the same edging, and the same features at the same places, measured from the same
edges. A left and right pair is cut alike too, since the features are described in the same way and only
the face differs; a group counts its left and right parts, so that nobody cuts two left sides.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from ..project import Project
from .features.feature import Feature
from .part import Hand, Part, Role

Signature = tuple[object, ...]

# What to call a group that has both parts of a pair.
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
        """The part that represents the group."""
        return self.parts[0]

    @property
    def material(self) -> str:
        """The key of their sheet good."""
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
        """The parts of one hand."""
        return tuple(part for part in self.parts if part.hand is hand)

    @property
    def pair(self) -> tuple[Part, Part] | None:
        """A left and a right part of the group; None unless it has both."""
        left, right = self.of_hand(Hand.LEFT), self.of_hand(Hand.RIGHT)
        return (left[0], right[0]) if left and right else None

    def within(self, case: str) -> PartGroup | None:
        """The parts that belong to one case; None if there are none."""
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
    """A value that two parts share exactly if they are cut alike."""
    edges = tuple((edge.way, edge.edging, edge.first) for edge in part.edges)
    plain = (part.material, *project.dimensions(part), *edges)
    if not part.features:
        return plain
    worked = sorted(str(_feature(project, part, feature)) for feature in part.features)
    return (*plain, part.hand is not Hand.NONE, part.lie.length, part.lie.width, *worked)


def _feature(project: Project, part: Part, feature: Feature) -> Signature:
    """A feature, the same for either hand: its kind, the edges it is laid out from, and its sizes."""
    of = project.sizes.of
    on_worked_face = feature.face is None or feature.face is part.lie.worked
    if feature.bench_joint:
        # In an edge or an end: a stile may be turned round, but not one of its joints to the other edge.
        first = next(one for one in part.features if one.bench_joint)
        on_worked_face = feature.face is first.face
    sizes = (of(size.form) for size in feature.sizes)
    return (feature.kind_words, on_worked_face, feature.edges, of(feature.count), *sizes)
