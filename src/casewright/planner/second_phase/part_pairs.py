"""Couples: two parts cut from one piece, the second being what the first leaves of it.

A piece cut off at u gives, after a cut at p, the rest r = u - p - kerf, which needs no setting of
its own. One such piece gains nothing, for u is a setting too; but where sizes are so that several
pairs add up to one u, or to a size that is cut anyway, each pair after the first saves a setting.
Cabinets are full of such sums: what two cases have in common, and the shelf that is always so much
shorter than the bottom.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Collection, Container, Iterator, Sequence
from dataclasses import dataclass, replace

from ..layout.integer_grid import IntegerGrid
from ..layout.layout_tree import CarriedPiece, HandNode, HandStack, Leaf, Node, Stack, leaves, node_extent
from ..layout.orientation import GridSetting, settings_for


@dataclass(frozen=True)
class PairFamily:
    """Sizes that can all be what is left of pieces of one size.

    `pairs` are sizes (cut, left) along x, or along y, that a piece of `whole` is parted into.
    """

    along_x: bool
    whole: int
    pairs: tuple[tuple[int, int], ...]

    def saves(
        self, pair: tuple[int, int], made: Container[GridSetting], needed: Container[GridSetting]
    ) -> bool:
        """Whether this pair saves a setting of those that are made now: not one that couples need,
        nor by one that nothing else is cut on."""
        cut, left = ((self.along_x, size) for size in pair)
        return cut in made and left in made and left not in needed


def pair_families(grid: IntegerGrid, loose: Sequence[Leaf], reach: int | None = None) -> list[PairFamily]:
    """Every family these parts have enough copies for: each copy of a size that is to be left over
    needs a partner to be cut from. No piece is ripped wider than the fence's `reach`."""
    most = [max(bin_.usable[axis] for bin_ in grid.bins) for axis in (0, 1)]
    if reach is not None:
        most[1] = min(most[1], reach)
    found = []
    for axis in (0, 1):
        copies = Counter(node_extent(leaf, grid)[axis] for leaf in loose)
        sums: dict[int, list[tuple[int, int]]] = defaultdict(list)
        for one in copies:
            for other in copies:
                if one < other and one + grid.kerf + other <= most[axis]:
                    left = min((one, other), key=lambda size: (copies[size], size))
                    sums[one + grid.kerf + other].append((one + other - left, left))
        found += [PairFamily(axis == 0, whole, tuple(sorted(pairs))) for whole, pairs in sums.items()]
    return found


def make_pair(grid: IntegerGrid, along_x: bool, cut: Leaf, left: Leaf) -> Stack:
    """The piece the two are cut from. It is brought to its size before they are parted."""
    inner = Stack(along_x, (cut, left))
    x, y = node_extent(inner, grid)
    outer = Stack(along_x, (inner,))
    return replace(outer, least_x=x) if along_x else replace(outer, least_y=y)


def pair_up(grid: IntegerGrid, family: PairFamily, loose: Collection[Leaf]) -> list[Stack] | None:
    """A couple for every copy of the sizes left over, partners as like as can be on the other
    side; None if there are too few."""
    axis = 0 if family.along_x else 1
    by_size: dict[int, list[Leaf]] = defaultdict(list)
    for leaf in loose:
        by_size[node_extent(leaf, grid)[axis]].append(leaf)

    def across(leaf: Leaf) -> int:
        return node_extent(leaf, grid)[1 - axis]

    made = []
    for cut, left in family.pairs:
        partners = by_size[cut]
        for leaf in sorted(by_size[left], key=across, reverse=True):
            if not partners:
                return None
            partner = min(partners, key=lambda other: abs(across(other) - across(leaf)))
            partners.remove(partner)
            made.append(make_pair(grid, family.along_x, partner, leaf))
    return made


def parts_and_pairs(node: Node | HandNode, grid: IntegerGrid) -> Iterator[Leaf | Stack]:
    """The couples in a layout, and the parts that are in none."""
    if isinstance(node, Leaf):
        yield node
    elif isinstance(node, CarriedPiece):
        yield from parts_and_pairs(node.node, grid)
    elif isinstance(node, HandStack):
        for piece in node.children:
            yield from parts_and_pairs(piece, grid)
    elif _parted(node, grid) is not None:
        yield node
    else:
        for child in node.children:
            yield from parts_and_pairs(child, grid)


def pair_settings(pair: Stack, grid: IntegerGrid) -> tuple[GridSetting, GridSetting, GridSetting]:
    """The settings of a couple: of the piece, of the part cut from it, of the part left over,
    which need not be made."""
    parted = _parted(pair, grid)
    assert parted is not None, "no couple"
    axis = 0 if pair.along_x else 1
    whole, cut, left = (node_extent(node, grid)[axis] for node in (pair, *parted))
    return (pair.along_x, whole), (pair.along_x, cut), (pair.along_x, left)


def node_settings(node: Leaf | Stack, grid: IntegerGrid) -> set[GridSetting]:
    """The settings that bring a part, or a couple's two, to size."""
    if isinstance(node, Leaf):
        return set(settings_for(node_extent(node, grid)))
    across = 1 if node.along_x else 0
    return {
        *pair_settings(node, grid)[:2],
        *((not node.along_x, node_extent(leaf, grid)[across]) for leaf in leaves(node)),
    }


def _parted(node: Stack, grid: IntegerGrid) -> tuple[Leaf, Leaf] | None:
    """The two parts of a couple, None for any other stack."""
    inner = node.children[0]
    if len(node.children) != 1 or not isinstance(inner, Stack) or inner.along_x != node.along_x:
        return None
    least = node.least_x if node.along_x else node.least_y
    if least != node_extent(inner, grid)[0 if node.along_x else 1]:
        return None
    match inner.children:
        case (Leaf() as cut, Leaf() as left):
            return cut, left
    return None
