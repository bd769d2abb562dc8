"""Whether a plan with as many settings as another could save one, by parts cut from one piece."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import combinations

from casewright.planner import engine
from casewright.planner.layout.engine_bridge import engine_model, whole_sheet_rooms
from casewright.planner.layout.integer_grid import IntegerGrid, grid_of
from casewright.planner.layout.layout_tree import Leaf, Stack, leaves
from casewright.planner.layout.orientation import common_orientations, own_settings
from casewright.planner.problem import PatternKind, Problem
from casewright.planner.second_phase.part_pairs import PairFamily, pair_families, pair_up

ITERATIONS = 20_000


def no_pair_fits(problem: Problem, sheets: int) -> bool:
    """Whether the engine's bound shows, for every way to save a setting by pairs, that more than so
    many sheets would be needed. Partners are as like as can be, and parts lie as they share settings."""
    grid = grid_of(problem)
    return all(_bound(grid, pairs) > sheets for pairs in _ways(grid))


def _ways(grid: IntegerGrid) -> Iterator[list[Stack]]:
    orientations = common_orientations(grid)
    loose = [
        Leaf(index, turned is True)
        for index, (item, turned) in enumerate(zip(grid.items, orientations, strict=True))
        for _ in range(item.count)
    ]
    own = own_settings(grid, orientations)
    for family in pair_families(grid, loose):
        for pairs in combinations(family.pairs, 1 if (family.along_x, family.whole) in own else 2):
            made = pair_up(grid, PairFamily(family.along_x, family.whole, pairs), loose)
            if made is not None:
                yield made


def _bound(grid: IntegerGrid, pairs: list[Stack]) -> int:
    wanted = [item.count for item in grid.items]
    for item, count in Counter(leaf.item for pair in pairs for leaf in leaves(pair)).items():
        wanted[item] -= count
    model = engine_model(grid, wanted, whole_sheet_rooms(grid), PatternKind(), blocks=pairs)
    return engine.solve_instance(model.instance, engine.MaxIterations(ITERATIONS)).bound.bins
