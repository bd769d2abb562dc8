"""Orientations of parts that may be rotated, chosen so that parts share settings."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import dataclass

from ..problem import Problem
from .integer_grid import IntegerGrid

GridSetting = tuple[bool, int]
"""Whether by a crosscut, and the distance. Every such cut is the table saw's."""


def settings_for(size: tuple[int, int]) -> frozenset[GridSetting]:
    """The crosscut and the rip that bring a part to this size along x and y."""
    return frozenset(zip((True, False), size, strict=True))


def common_orientations(grid: IntegerGrid) -> tuple[bool | None, ...]:
    """An orientation for each item that may be rotated (True: turned; None: it may not be), so that all items
    together need few settings: greedily, the longest first."""
    settings: set[GridSetting] = set()
    items = grid.items
    result: list[bool | None] = [None] * len(items)
    order = sorted(range(len(items)), key=lambda i: (items[i].may_turn, -items[i].length))
    for index in order:
        item = items[index]
        ways = (False, True) if item.may_turn else (False,)
        fitting = [turned for turned in ways if fits_some_sheet(grid, item.size(turned))]
        if not fitting:
            continue
        cost = {turned: len(settings_for(item.size(turned)) - settings) for turned in fitting}
        best = min(fitting, key=lambda turned: (cost[turned], turned))
        settings |= settings_for(item.size(best))
        result[index] = best if item.may_turn else None
    return tuple(result)


def fits_some_sheet(grid: IntegerGrid, size: tuple[int, int]) -> bool:
    """Whether a part of this size along x and y fits one of the sheets."""
    return any(size[0] <= bin_.usable[0] and size[1] <= bin_.usable[1] for bin_ in grid.bins)


def own_settings(grid: IntegerGrid, orientations: Sequence[bool | None]) -> frozenset[GridSetting]:
    """The settings that bring every part, in these orientations, to its own size."""
    return frozenset().union(
        *(
            settings_for(item.size(turned is True))
            for item, turned in zip(grid.items, orientations, strict=True)
        )
    )


@dataclass(frozen=True)
class TurnGroup:
    """Items that may be rotated together: those of one match group, which would be split if they lay
    differently, or one item by itself. `free` says that each copy may lie either way."""

    items: tuple[int, ...]
    free: bool


def turn_groups(problem: Problem) -> tuple[TurnGroup, ...]:
    """Every item that may be rotated, each in one group."""
    groups: dict[str | int, list[int]] = defaultdict(list)
    for index, item in enumerate(problem.items):
        groups[index if item.match is None else item.match].append(index)
    copies = {key: sum(problem.items[index].count for index in group) for key, group in groups.items()}
    turning = {
        key: tuple(index for index in group if problem.items[index].may_turn) for key, group in groups.items()
    }
    return tuple(
        TurnGroup(items, isinstance(key, int) or copies[key] == 1) for key, items in turning.items() if items
    )


def free_orientations(
    grid: IntegerGrid,
    orientations: Sequence[bool | None],
    settings: Collection[GridSetting],
    most: int,
    order: Iterable[TurnGroup],
    turn: Callable[[], bool],
) -> tuple[bool | None, ...]:
    """These orientations with as many groups set free as `most` settings allow.

    Groups are tried in this order; one that may lie either way needs the settings of both ways, and is
    skipped if that makes too many. A group that must stay together is rotated as a whole when `turn` says so.
    """
    result = list(orientations)
    used = set(settings)
    for group in order:
        other = {index: not turned for index in group.items if (turned := orientations[index]) is not None}
        sizes = {index: grid.items[index].size(turned) for index, turned in other.items()}
        more = used.union(*(settings_for(size) for size in sizes.values()))
        if len(more) > most or not (group.free or turn()):
            continue
        if not all(fits_some_sheet(grid, size) for size in sizes.values()):
            continue
        used = more
        for index, turned in other.items():
            result[index] = None if group.free else turned
    return tuple(result)
