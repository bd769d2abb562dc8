"""Pairs of parts cut from one piece, the second part being what the first leaves of it.

A piece ripped at u and cut once more at p leaves r = u - p - kerf, and r needs no setting of its own. One
such pair saves nothing, because u is a setting too. But where several pairs of sizes add up to the same u, or
u is a size that is cut anyway, each pair after the first saves one. Cabinets are full of such sums: two cases
share bottoms and shelves, and a shelf is always the same amount shorter than its bottom.

Sums of three or four sizes were looked at over the small cabinet jobs: none saved a setting that no pair
saved.
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
    """Pairs of sizes with one sum, along x or along y.

    Each pair is (size cut off, size left over) and together with one kerf makes up `whole`.
    """

    along_x: bool
    whole: int
    pairs: tuple[tuple[int, int], ...]

    def saves(
        self, pair: tuple[int, int], settings: Container[GridSetting], needed: Container[GridSetting]
    ) -> bool:
        """Whether cutting this pair would save one of the settings `settings` now: its second size must be on
        one that no present pair needs, its first on one that is set anyway."""
        cut, left = ((self.along_x, size) for size in pair)
        return cut in settings and left in settings and left not in needed


def pair_families(grid: IntegerGrid, loose: Sequence[Leaf], reach: int | None = None) -> list[PairFamily]:
    """Every family of these parts' sizes that fits a sheet and the fence's `reach`.

    Of two sizes the rarer one is left over, since every copy of it needs a partner.
    """
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
    """The piece from which two parts are cut. It comes to its full size first: the outer stack forces that
    cut, and the second part's size then follows from the first's."""
    inner = Stack(along_x, (cut, left))
    x, y = node_extent(inner, grid)
    outer = Stack(along_x, (inner,))
    return replace(outer, least_x=x) if along_x else replace(outer, least_y=y)


def pair_up(grid: IntegerGrid, family: PairFamily, loose: Collection[Leaf]) -> list[Stack] | None:
    """A pair for every copy of the sizes left over, or None if partners are too few.

    Partners are chosen to be as equal as possible on the other side, where the pair is as wide as the wider.
    """
    axis = 0 if family.along_x else 1
    by_size: dict[int, list[Leaf]] = defaultdict(list)
    for leaf in loose:
        by_size[node_extent(leaf, grid)[axis]].append(leaf)

    def across(leaf: Leaf) -> int:
        return node_extent(leaf, grid)[1 - axis]

    paired = []
    for cut, left in family.pairs:
        partners = by_size[cut]
        for leaf in sorted(by_size[left], key=across, reverse=True):
            if not partners:
                return None
            partner = min(partners, key=lambda other: abs(across(other) - across(leaf)))
            partners.remove(partner)
            paired.append(make_pair(grid, family.along_x, partner, leaf))
    return paired


def parts_and_pairs(node: Node | HandNode, grid: IntegerGrid) -> Iterator[Leaf | Stack]:
    """The pairs in a layout, and the parts that are in none."""
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
    """The settings of a pair: of the whole piece, of the part cut from it, and of the part left over, on
    which nothing needs to be set."""
    parted = _parted(pair, grid)
    assert parted is not None, "this stack is not a pair"
    axis = 0 if pair.along_x else 1
    whole, cut, left = (node_extent(node, grid)[axis] for node in (pair, *parted))
    return (pair.along_x, whole), (pair.along_x, cut), (pair.along_x, left)


def node_settings(node: Leaf | Stack, grid: IntegerGrid) -> set[GridSetting]:
    """The settings that bring a part, or both parts of a pair, to size."""
    if isinstance(node, Leaf):
        return set(settings_for(node_extent(node, grid)))
    across = 1 if node.along_x else 0
    return {
        *pair_settings(node, grid)[:2],
        *((not node.along_x, node_extent(leaf, grid)[across]) for leaf in leaves(node)),
    }


def _parted(node: Stack, grid: IntegerGrid) -> tuple[Leaf, Leaf] | None:
    """The two parts of a pair, None for any other stack."""
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
