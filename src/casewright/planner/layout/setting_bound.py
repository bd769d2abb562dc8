"""A lower bound on fence settings: no plan of the job has fewer, whatever sheets it uses.

Along one axis a part gets its size in one of two ways: from a cut on just that setting, or as what is left of
a piece after others were cut off it. With one kerf added to every size, what is left is a - b - b' ... for
settings a, b, b' ... of the job, since the piece itself was cut on a setting or is left of one that was. So
two settings a > b yield, beside themselves, only a - b, a - 2b and so on, and three sizes need a third
setting unless they are related like that. A piece that is cut off holds a part, so b is at least the smallest
side of any part. And the far edge of a sheet must have a trim to come off, or the sheet's own size would be
one more to start from.

With more sizes the bound is that of the three that need most, so it is weak for large jobs.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from itertools import combinations
from math import gcd

from .integer_grid import IntegerGrid
from .orientation import GridSetting, fits_some_sheet, settings_for

MOST_WAYS = 4096
"""Combinations of orientations looked at; when there are more, only the parts that may not be rotated
count."""


def fewest_settings(grid: IntegerGrid) -> int:
    """No plan in which every piece cut off holds a part has fewer settings; 0 if nothing is known."""
    if any(min(bin_.zones.right, bin_.zones.far) <= 0 for bin_ in grid.bins):
        return 0
    if grid.hand_kerf and grid.clean_up <= 0:
        return 0
    smallest = min(min(item.length, item.width) for item in grid.items) + grid.kerf
    least: int | None = None
    for settings in _ways(grid):
        count = 0
        for crosscut in (True, False):
            sizes = {size + grid.kerf for across, size in settings if across == crosscut}
            count += fewest_for(sizes, smallest)
        least = count if least is None else min(least, count)
    return least or 0


def fewest_for(sizes: Collection[int], smallest: int) -> int:
    """Settings that parts of these sizes need along one axis, all sizes with a kerf added; no
    piece smaller than `smallest` is cut off."""
    if len(sizes) < 3:
        return len(sizes)
    return 2 if all(_by_two(triple, smallest) for triple in combinations(sorted(sizes), 3)) else 3


def _by_two(sizes: tuple[int, ...], smallest: int) -> bool:
    """Whether two settings can give these three sizes."""
    low, middle, high = sizes
    if gcd(middle - low, high - middle) >= smallest:
        return True  # all three left of one piece, by cuts of a setting that is no size of theirs
    return (high - middle) % low == 0 or (high - low) % middle == 0


def _ways(grid: IntegerGrid) -> Iterator[frozenset[GridSetting]]:
    """The sizes there are to cut, for each way the parts that may turn can lie."""
    found: set[frozenset[GridSetting]] = {frozenset()}
    lying: set[frozenset[frozenset[GridSetting]]] = set()
    for item in grid.items:
        if item.parts:  # its parts may come off beside others, and it never be cut to its own size
            continue
        sizes = {item.size(turned) for turned in ((False, True) if item.may_turn else (False,))}
        fitting = [size for size in sizes if fits_some_sheet(grid, size)]
        if fitting:
            lying.add(frozenset(settings_for(size) for size in fitting))
    for ways in sorted(lying, key=len):
        more = {cut | way for cut in found for way in ways}
        if len(more) > MOST_WAYS:
            break
        found = more
    yield from found
