"""From a draft in grid units to the plan's exact tree, its cuts numbered in the order of work."""

from __future__ import annotations

from collections import deque

from ..plan import Cut, Piece, SheetPlan
from ..problem import Problem
from .cut_draft import Draft, draft_of
from .integer_grid import IntegerGrid
from .layout_tree import SheetLayout


def sheet_plan(problem: Problem, grid: IntegerGrid, layout: SheetLayout, number: int) -> SheetPlan:
    """The sheet cut as `layout` says, for the plan.

    Cuts are numbered series by series, all of one depth before the next, with the carrying cuts first. That
    is how a maker works: rip all strips, then crosscut them.
    """
    root = draft_of(problem, grid, layout)
    numbers: dict[int, int] = {}
    counter = 0
    queue: deque[Draft] = deque([root])
    by_hand: list[Draft] = []
    at_table: list[Draft] = []
    while queue:
        draft = queue.popleft()
        (by_hand if draft.parted_by_hand else at_table).append(draft)
        queue.extend(draft.children)
    for draft in by_hand + at_table:
        numbers[id(draft)] = counter
        counter += len(draft.cuts)

    def freeze(draft: Draft) -> Piece:
        first = numbers[id(draft)] + 1
        cuts = tuple(
            Cut(
                first + place,
                cut.tool.name,
                cut.direction,
                grid.length(cut.at),
                cut.tool.kerf,
                grid.length(cut.setting),
                cut.reference,
                cut.purpose,
            )
            for place, cut in enumerate(draft.cuts)
        )
        return Piece(
            grid.length(draft.x),
            grid.length(draft.y),
            grid.length(draft.length),
            grid.length(draft.width),
            draft.role,
            None if draft.leaf is None else problem.items[draft.leaf.item].name,
            draft.leaf is not None and draft.leaf.turned,
            cuts,
            tuple(freeze(child) for child in draft.children),
        )

    return SheetPlan(number, problem.bins[layout.bin].name, freeze(root))
