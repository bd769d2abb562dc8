"""How parts that may turn should lie so that they share settings."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence

from .grid import Grid


def alike(grid: Grid) -> tuple[bool | None, ...]:
    """One way of lying for each part that may turn, so that as few settings as can be are needed
    for all parts together; greedily, the largest first."""
    settings: set[tuple[bool, int]] = set()
    items = grid.items
    result: list[bool | None] = [None] * len(items)
    order = sorted(range(len(items)), key=lambda i: (items[i].may_turn, -items[i].length))
    for index in order:
        item = items[index]
        ways = (False, True) if item.may_turn else (False,)
        fitting = [
            turned
            for turned in ways
            if any(
                x <= room[0] and y <= room[1]
                for x, y in [item.size(turned)]
                for room in [bin_.usable for bin_ in grid.bins]
            )
        ]
        if not fitting:
            continue
        cost = {
            turned: len({(True, item.size(turned)[0]), (False, item.size(turned)[1])} - settings)
            for turned in fitting
        }
        best = min(fitting, key=lambda turned: (cost[turned], turned))
        x, y = item.size(best)
        settings |= {(True, x), (False, y)}
        result[index] = best if item.may_turn else None
    return tuple(result)


def own_settings(grid: Grid, lying: Sequence[bool | None]) -> frozenset[tuple[bool, int]]:
    """The settings, as (by a crosscut, size), that bring parts which lie so to their sizes."""
    return frozenset(
        (crosscut, size)
        for item, turned in zip(grid.items, lying, strict=True)
        for crosscut, size in zip((True, False), item.size(turned is True), strict=True)
    )


def loosened(
    grid: Grid,
    lying: Sequence[bool | None],
    settings: Collection[tuple[bool, int]],
    most: int,
    order: Iterable[int],
) -> tuple[bool | None, ...]:
    """These ways of lying, but parts left free to lie either way, tried in this order, as long as their
    sizes and `settings` are no more than `most` in all."""
    result = list(lying)
    used = set(settings)
    for index in order:
        turned = result[index]
        if turned is None:
            continue
        x, y = grid.items[index].size(not turned)
        more = used | {(True, x), (False, y)}
        if len(more) <= most:
            used = more
            result[index] = None
    return tuple(result)
