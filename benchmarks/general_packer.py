"""A general-purpose rectangle packer's guillotine modes on our problems, as the yardstick.

Every guillotine mode of `rectpack` with every sort order it offers, kerf folded in as for our own
engine. The packer turns all parts or none, so each order is tried both ways where all parts may
turn. Its layouts are read back as edge-to-edge cuts; one that is not (its modes may merge free
rectangles into such) does not count.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import rectpack
from rectpack import guillotine

from casewright.planner.layout.cut_draft import layout_fits
from casewright.planner.layout.integer_grid import IntegerGrid, grid_of
from casewright.planner.layout.layout_tree import Leaf, Node, SheetLayout, make_stack
from casewright.planner.layout.score import Scorer, job_totals
from casewright.planner.problem import Problem

CHOICES = ("Bssf", "Blsf", "Baf")
SPLITS = ("Sas", "Las", "Slas", "Llas", "Maxas", "Minas")
MODES = [getattr(guillotine, f"Guillotine{choice}{split}") for choice in CHOICES for split in SPLITS]
SORTS = [
    rectpack.SORT_AREA,
    rectpack.SORT_PERI,
    rectpack.SORT_DIFF,
    rectpack.SORT_SSIDE,
    rectpack.SORT_LSIDE,
    rectpack.SORT_RATIO,
]

Placed = tuple[int, int, int, int, int]
"""x, y, extent along x, extent along y, item."""


@dataclass(frozen=True)
class Packed:
    layouts: tuple[SheetLayout, ...]


@dataclass(frozen=True)
class Best:
    """The fewest sheets over all modes and orders; the settings of the first packing with so few, and
    the fewest settings of all packings with so few."""

    sheets: int
    settings: int
    fewest_settings: int


def best(problem: Problem) -> Best | None:
    """None if no packing is all edge to edge. Settings are counted as our own plans' are."""
    grid = grid_of(problem)
    scorer = Scorer(problem, grid)
    found: Best | None = None
    for packed in _runs(grid):
        if packed is None or (found is not None and len(packed.layouts) > found.sheets):
            continue
        settings = len(job_totals(scorer, packed.layouts).settings)
        if found is None or len(packed.layouts) < found.sheets:
            found = Best(len(packed.layouts), settings, settings)
        elif settings < found.fewest_settings:
            found = replace(found, fewest_settings=settings)
    return found


def _runs(grid: IntegerGrid) -> Iterator[Packed | None]:
    turns = [False, True] if all(item.may_turn for item in grid.items) else [False]
    for mode in MODES:
        for order in SORTS:
            for turn in turns:
                yield _run(grid, mode, order, turn)


def _run(grid: IntegerGrid, mode: type, order: object, turn: bool) -> Packed | None:
    packer = rectpack.newPacker(
        rectpack.PackingMode.Offline, rectpack.PackingBin.BBF, mode, order, rotation=turn
    )
    for index, item in enumerate(grid.items):
        for _ in range(item.count):
            packer.add_rect(item.length + grid.kerf, item.width + grid.kerf, index)
    bin_ = grid.bins[0]
    wide, high = (side + grid.kerf for side in bin_.usable)
    packer.add_bin(wide, high, float("inf"))
    packer.pack()
    sheets: list[list[Placed]] = [[] for _ in range(len(packer))]
    for sheet, x, y, width, height, index in packer.rect_list():
        sheets[sheet].append((x, y, width, height, index))
    if sum(len(sheet) for sheet in sheets) != sum(item.count for item in grid.items):
        return None
    layouts = []
    for placed in sheets:
        node = edge_to_edge(grid, placed)
        if node is None:
            return None
        layout = SheetLayout(0, node)
        if not layout_fits(grid, layout):
            return None
        layouts.append(layout)
    return Packed(tuple(layouts))


def edge_to_edge(grid: IntegerGrid, placed: list[Placed]) -> Node | None:
    """The placed parts as a tree of edge-to-edge cuts, None if no such cuts part them."""
    if len(placed) == 1:
        _, _, x, y, index = placed[0]
        item = grid.items[index]
        return Leaf(index, (x, y) != (item.length + grid.kerf, item.width + grid.kerf))
    for axis in (0, 1):
        groups = _parted(placed, axis)
        if len(groups) > 1:
            nodes = [edge_to_edge(grid, group) for group in groups]
            if any(node is None for node in nodes):
                return None
            return make_stack(axis == 0, [node for node in nodes if node is not None])
    return None


def _parted(placed: list[Placed], axis: int) -> list[list[Placed]]:
    groups: list[list[Placed]] = []
    end = None
    for part in sorted(placed, key=lambda part: part[axis]):
        if end is None or part[axis] >= end:
            groups.append([])
        groups[-1].append(part)
        end = max(end or 0, part[axis] + part[axis + 2])
    return groups
