"""A plan at once: strips filled first-fit by decreasing width, in near-linear time.

The classic two-stage constructive (first fit, decreasing height; Coffman, Garey, Johnson and
Tarjan 1980). It is the answer shown before the search has begun, and never the best one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from .grid import Grid, GridItem
from .layout import Leaf, Node, SheetLayout, stacked

OPEN_STRIPS = 64  # how many strips are looked at for a part; keeps the work near linear


@dataclass
class _Strip:
    high: int
    free: int
    sheet: _Sheet
    parts: list[Node] = field(default_factory=list)


@dataclass
class _Sheet:
    bin: int
    free: int
    long: int
    strips: list[_Strip] = field(default_factory=list)


def strips(
    grid: Grid, wanted: Sequence[int], across: bool, stock: list[int | None] | None = None
) -> tuple[list[SheetLayout], list[int]]:
    """Layouts for `wanted[i]` copies of each item, and how many of each found no place.

    Strips run along the sheets' length, or across it when `across`; the first cuts part them.
    `stock` overrides the bins' counts.
    """
    stock = [bin_.count for bin_ in grid.bins] if stock is None else stock
    missing = [0] * len(wanted)
    open_strips: list[_Strip] = []
    sheets: list[_Sheet] = []
    order = sorted(
        (index for index, count in enumerate(wanted) if count),
        key=lambda index: _lying(grid, grid.items[index], across)[1:],
        reverse=True,
    )
    for index in order:
        turned, high, long = _lying(grid, grid.items[index], across)
        for _ in range(wanted[index]):
            strip = _room(open_strips, sheets, high, long, grid.kerf)
            if strip is None:
                strip = _new_sheet(grid, stock, across, sheets, high, long)
            if strip is None:
                missing[index] += 1
                continue
            if strip not in open_strips:
                open_strips.append(strip)
                del open_strips[:-OPEN_STRIPS]
            strip.parts.append(Leaf(index, turned))
            strip.free -= long + grid.kerf
    layouts = [
        SheetLayout(sheet.bin, stacked(across, [stacked(not across, strip.parts) for strip in sheet.strips]))
        for sheet in sheets
    ]
    return layouts, missing


def _lying(grid: Grid, item: GridItem, across: bool) -> tuple[bool, int, int]:
    """Whether the item is turned, how wide a strip it needs and how much of the strip's run."""
    choices = []
    for turned in (False, True) if item.may_turn else (False,):
        x, y = item.size(turned)
        long, high = (y, x) if across else (x, y)
        fits = any(x <= bin_.usable[0] and y <= bin_.usable[1] for bin_ in grid.bins)
        choices.append((not fits, high, long, turned))
    _, high, long, turned = min(choices)
    return turned, high, long


def _room(open_strips: list[_Strip], sheets: list[_Sheet], high: int, long: int, kerf: int) -> _Strip | None:
    """The first open strip that takes the part, else a new strip on an open sheet."""
    for strip in open_strips:
        if strip.high >= high and strip.free >= long:
            return strip
    for sheet in sheets[-OPEN_STRIPS:]:
        if sheet.free >= high and sheet.long >= long:
            return _new_strip(sheet, high, kerf)
    return None


def _new_strip(sheet: _Sheet, high: int, kerf: int) -> _Strip:
    strip = _Strip(high, sheet.long, sheet)
    sheet.strips.append(strip)
    sheet.free -= high + kerf
    return strip


def _new_sheet(
    grid: Grid, stock: list[int | None], across: bool, sheets: list[_Sheet], high: int, long: int
) -> _Strip | None:
    """A strip on a new sheet: of those that take the part, the cheapest for its area."""
    best = None
    for index, bin_ in enumerate(grid.bins):
        x, y = bin_.usable
        runs, rises = (y, x) if across else (x, y)
        if stock[index] != 0 and runs >= long and rises >= high:
            price = (bin_.cost / (bin_.length * bin_.width), index)
            best = min(best, (price, index)) if best else (price, index)
    if best is None:
        return None
    index = best[1]
    left = stock[index]
    if left is not None:
        stock[index] = left - 1
    x, y = grid.bins[index].usable
    sheet = _Sheet(index, x if across else y, y if across else x)
    sheets.append(sheet)
    return _new_strip(sheet, high, grid.kerf)
