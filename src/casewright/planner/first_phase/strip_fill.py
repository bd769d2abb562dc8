"""A plan at once: parts by decreasing width, each into the strip it fills best, in near-linear time.

The classic two-stage heuristic of level packing (E. G. Coffman, M. R. Garey, D. S. Johnson, R. E. Tarjan:
Performance bounds for level-oriented two-dimensional packing algorithms. SIAM Journal on Computing 9, 1980).
It is what a maker sees before the search has begun, and seldom the best.
"""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Sequence
from dataclasses import dataclass, field

from ..layout.integer_grid import GridItem, IntegerGrid
from ..layout.layout_tree import Leaf, Node, SheetLayout, make_stack
from ..layout.orientation import fits_some_sheet


@dataclass
class _Strip:
    free: int
    parts: list[Node] = field(default_factory=list)


@dataclass
class _Sheet:
    bin: int
    free: int
    strips: list[_Strip] = field(default_factory=list)


def fill_strips(
    grid: IntegerGrid, wanted: Sequence[int], across: bool
) -> tuple[list[SheetLayout], list[int]]:
    """Layouts for `wanted[i]` copies of each item, and how many of each found no place.

    Strips run along the sheets' length, or across it when `across`; the first cuts part them.
    """
    missing = [0] * len(wanted)
    packing = _Packing(grid, across)
    order = sorted(
        (index for index, count in enumerate(wanted) if count),
        key=lambda index: _lying(grid, grid.items[index], across)[1:],
        reverse=True,
    )
    for index in order:
        turned, high, long = _lying(grid, grid.items[index], across)
        for _ in range(wanted[index]):
            if not packing.place(Leaf(index, turned), high, long):
                missing[index] += 1
    layouts = [
        SheetLayout(
            sheet.bin, make_stack(across, [make_stack(not across, strip.parts) for strip in sheet.strips])
        )
        for sheet in packing.sheets
    ]
    return layouts, missing


class _Packing:
    """Open strips ordered by the run they have left, and open sheets of each kind by the height.

    Parts come by decreasing height, so a part is never too high for an open strip.
    """

    def __init__(self, grid: IntegerGrid, across: bool) -> None:
        self.grid = grid
        self.sheets: list[_Sheet] = []
        self.stock = [bin_.count for bin_ in grid.bins]
        self.runs_and_rises = [bin_.usable[::-1] if across else bin_.usable for bin_ in grid.bins]
        self.prices = [bin_.cost / (bin_.length * bin_.width) for bin_ in grid.bins]
        self.strips: list[tuple[int, int, _Strip]] = []
        self.open: list[list[tuple[int, int]]] = [[] for _ in grid.bins]
        self.made = 0

    def place(self, leaf: Leaf, high: int, long: int) -> bool:
        at = bisect_left(self.strips, long, key=lambda entry: entry[0])
        if at < len(self.strips):
            strip = self.strips.pop(at)[2]
        else:
            found = self._new_strip(high, long)
            if found is None:
                return False
            strip = found
        strip.parts.append(leaf)
        strip.free -= long + self.grid.kerf
        if strip.free > 0:
            self.made += 1  # a number of its own, so that strips themselves are never compared
            insort(self.strips, (strip.free, self.made, strip))
        return True

    def _new_strip(self, high: int, long: int) -> _Strip | None:
        """A strip on the open sheet it fills best, else on a new one: the cheapest for its area."""
        fitting = [
            (*sheets[at], index)
            for index, sheets in enumerate(self.open)
            if self.runs_and_rises[index][0] >= long
            and (at := bisect_left(sheets, high, key=lambda entry: entry[0])) < len(sheets)
        ]
        if fitting:
            free, number, index = min(fitting)
            self.open[index].remove((free, number))
        else:
            opened = self._new_sheet(high, long)
            if opened is None:
                return None
            index, number = opened
        sheet = self.sheets[number]
        strip = _Strip(self.runs_and_rises[index][0])
        sheet.strips.append(strip)
        sheet.free -= high + self.grid.kerf
        if sheet.free > 0:
            insort(self.open[index], (sheet.free, number))
        return strip

    def _new_sheet(self, high: int, long: int) -> tuple[int, int] | None:
        best = min(
            (
                (self.prices[index], index)
                for index, (run, rise) in enumerate(self.runs_and_rises)
                if self.stock[index] != 0 and run >= long and rise >= high
            ),
            default=None,
        )
        if best is None:
            return None
        index = best[1]
        left = self.stock[index]
        if left is not None:
            self.stock[index] = left - 1
        self.sheets.append(_Sheet(index, self.runs_and_rises[index][1]))
        return index, len(self.sheets) - 1


def _lying(grid: IntegerGrid, item: GridItem, across: bool) -> tuple[bool, int, int]:
    """Whether the item is turned, how wide a strip it needs and how much of the strip's run."""
    choices = []
    for turned in (False, True) if item.may_turn else (False,):
        x, y = item.size(turned)
        long, high = (y, x) if across else (x, y)
        fits = fits_some_sheet(grid, (x, y))
        choices.append((not fits, high, long, turned))
    _, high, long, turned = min(choices)
    return turned, high, long
