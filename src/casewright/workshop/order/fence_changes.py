"""The sacrificial fence, put on as seldom as can be: of orders with the same settings, one that has the
rabbets together.

The search counts settings and cutters, not this fence, so that many of its orders are equally good. Two runs
of rabbets with other work between them are brought together, the first later or the second earlier or both,
wherever that takes no setting and no cutter more.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from itertools import groupby, pairwise

from .turn_search import SearchPoint, Turns, enter, start


def with_fence_kept_on(turns: Turns, best: SearchPoint, fenced: Collection[int]) -> SearchPoint:
    """An order no dearer than `best`, in which the settings `fenced` need the fence put on less often."""
    found = best
    while True:
        orders = (_replayed(turns, each) for each in _brought_together(turns, found.entered, fenced))
        better = next((one for one in orders if one and one.cost <= found.cost), None)
        if better is None:
            return found
        found = better


def _replayed(turns: Turns, entered: tuple[int, ...]) -> SearchPoint | None:
    """Where these settings lead; None when one of them came too early for anything to be done on it."""
    spot = start(turns)
    for label in entered:
        before, spot = spot, enter(turns, spot, label)
        if spot.done == before.done:
            return None
    return None if spot.ready else spot


def _brought_together(
    turns: Turns, entered: tuple[int, ...], fenced: Collection[int]
) -> Iterator[tuple[int, ...]]:
    """The settings with a run of `fenced` ones and the next such run moved to each other."""
    saws = {turns.machine_of[label] for label in fenced}
    at_the_saw = [place for place, label in enumerate(entered) if turns.machine_of[label] in saws]
    runs = [list(run) for on, run in groupby(at_the_saw, key=lambda at: entered[at] in fenced) if on]
    for first, second in pairwise(runs):
        both = [*first, *second]
        between = tuple(entered[at] for at in range(first[0], second[-1] + 1) if at not in both)
        together = tuple(entered[at] for at in both)
        before, after = entered[: first[0]], entered[second[-1] + 1 :]
        for at in _changes_of_tool(turns, between):
            yield (*before, *between[:at], *together, *between[at:], *after)


def _changes_of_tool(turns: Turns, entered: tuple[int, ...]) -> Iterator[int]:
    """The last place, the first one, and those between them where the tool changes: nowhere else is there
    room for work with another tool at no cost."""
    yield len(entered)
    yield from (at for at in range(len(entered)) if at == 0 or _other_tool(turns, *entered[at - 1 : at + 1]))


def _other_tool(turns: Turns, before: int, now: int) -> bool:
    return turns.tool_of[before] != turns.tool_of[now]
