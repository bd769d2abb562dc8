"""The first search: the least money for sheets, with whatever hand cuts carrying them takes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from ..best_plan import BestPlan, pattern_for_bounds
from ..engine import FirstOf, MaxIterations, Progress, Stop
from ..layout.engine_bridge import Room, whole_sheet_rooms
from ..layout.integer_grid import IntegerGrid
from ..layout.layout_tree import SheetLayout, leaves
from ..problem import FirstCut, PatternKind
from .hand_cuts import fewest_hand_cuts, shorten_room
from .strip_fill import fill_strips


@dataclass(frozen=True)
class StopEarly:
    """Stops another stop's search early, so that `seconds` are left."""

    stop: Stop
    seconds: float

    def __call__(self, progress: Progress) -> bool:
        left = self.stop.seconds_left()
        return self.stop(progress) or (left is not None and left <= self.seconds)

    def seconds_left(self) -> float | None:
        left = self.stop.seconds_left()
        return None if left is None else max(0.0, left - self.seconds)


def first_plan(planner: BestPlan) -> None:
    """A first plan, in strips."""
    first = planner.problem.pattern.first_cut
    ways = [True, False] if first is FirstCut.ANY else [first is FirstCut.ACROSS]
    for across in ways:
        planner.offer(*fill_strips(planner.grid, planner.wanted, across))


def fewest_sheets(planner: BestPlan, stop: Stop, seed: int, cores: int) -> None:
    """The cheapest sheets found until `stop`, and the proof of how few there can be."""
    rooms = whole_sheet_rooms(planner.grid)
    pattern = planner.problem.pattern
    endless = [room for room in rooms if room.count is None]
    if len(rooms) > 1 and len(endless) <= planner.parameters.sheet_kinds_alone:
        # A mix can lead the search past a plan of one kind of sheet that is cheaper.
        left = stop.seconds_left()
        for place, room in enumerate(endless, 1):
            taken = planner.parameters.alone_time_share * place / len(endless)
            kept = 0.0 if left is None else left * (1 - taken)
            short = StopEarly(FirstOf((stop, MaxIterations(planner.parameters.alone_iterations))), kept)
            planner.offer(*planner.fill(planner.wanted, [room], pattern, short, seed, cores))
    if planner.carries:
        _parted_by_hand(planner, stop, seed, cores)
    if not planner.settled:
        planner.offer(
            *planner.fill(
                planner.wanted,
                rooms,
                pattern_for_bounds(planner.problem),
                stop,
                seed,
                cores,
                planner.offer,
                proves=True,
            )
        )


def _parted_by_hand(planner: BestPlan, stop: Stop, seed: int, cores: int) -> None:
    """Plans whose first cuts leave room for the hand saw: each way for a while, and more room
    for the sheets that still have pieces over the limits."""
    left = stop.seconds_left()
    ways = list(_ways(planner))
    for place, (rooms, pattern) in enumerate(ways):
        share = 0.0 if left is None else left * (1 - (place + 1) / (len(ways) + 1))
        short = StopEarly(FirstOf((stop, MaxIterations(planner.parameters.hand_cut_iterations))), share)
        layouts, missing = planner.fill(planner.wanted, rooms, pattern, short, seed, cores)
        left_over = remaining_rooms(whole_sheet_rooms(planner.grid), layouts)
        if any(missing) and left_over:  # parts too long for a shortened sheet get whole ones
            more, missing = planner.fill(missing, left_over, pattern, short, seed, cores)
            layouts += more
        planner.offer(layouts, missing)
        _mend(planner, short, seed)


def _ways(planner: BestPlan) -> Iterator[tuple[list[Room], PatternKind]]:
    """Rooms less what hand cuts across, or along, take."""
    stages = planner.problem.pattern.stages
    for first in (FirstCut.ACROSS, FirstCut.ALONG):
        yield rooms_for_hand_cuts(planner.grid, first), PatternKind(stages, first)


def rooms_for_hand_cuts(grid: IntegerGrid, first: FirstCut) -> list[Room]:
    """The sheets, less what the hand cuts take that must part them across, or along."""
    along_x = first is FirstCut.ACROSS
    return [
        shorten_room(grid, room, along_x, fewest_hand_cuts(grid, grid.bins[room.bin], along_x))
        for room in whole_sheet_rooms(grid)
    ]


def remaining_rooms(rooms: Sequence[Room], layouts: Sequence[SheetLayout]) -> list[Room]:
    """The rooms with what the layouts use taken from their number; those used up are left out."""
    used = Counter(layout.bin for layout in layouts)
    less = [
        room if room.count is None else replace(room, count=max(0, room.count - used[room.bin]))
        for room in rooms
    ]
    return [room for room in less if room.count != 0]


def _mend(planner: BestPlan, stop: Stop, seed: int) -> None:
    """Cut the sheets that hold pieces over the limits anew, with room for one more hand cut."""
    for extra in (1, 2):
        bent = [layout for layout in planner.layouts if planner.scorer(layout).bent]
        if not bent:
            return
        fine = [layout for layout in planner.layouts if not planner.scorer(layout).bent]
        for rooms, pattern in list(_ways(planner)):
            along_x = pattern.first_cut is FirstCut.ACROSS
            shorter = [shorten_room(planner.grid, room, along_x, extra) for room in rooms]
            shorter = remaining_rooms(shorter, fine)
            if not shorter:
                continue
            wanted = _content(planner, bent)
            again, missing = planner.fill(wanted, shorter, pattern, stop, seed)
            if not any(missing):
                planner.offer_ready([*fine, *(planner.ready(layout) for layout in again)], planner.missing)


def _content(planner: BestPlan, layouts: list[SheetLayout]) -> list[int]:
    counts = [0] * len(planner.wanted)
    for layout in layouts:
        for leaf in leaves(layout.root):
            counts[leaf.item] += 1
    return counts
