"""The first phase: the least money for sheets, allowing for the hand cuts it takes to carry them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from ..best_plan import BestPlan, pattern_for_bounds
from ..engine import EndsEarly, FirstOf, MaxIterations, Progress, Stop
from ..layout.engine_bridge import Room, whole_sheet_rooms
from ..layout.integer_grid import IntegerGrid
from ..layout.layout_tree import SheetLayout, leaves
from ..problem import FirstCut, PatternKind
from .hand_cuts import fewest_hand_cuts, shorten_room
from .strip_fill import fill_strips


@dataclass(frozen=True)
class StopEarly(EndsEarly):
    """A stop rule that ends earlier than another by `seconds`."""

    seconds: float

    def __call__(self, progress: Progress) -> bool:
        left = self.stop.seconds_left()
        return self.stop(progress) or (left is not None and left <= self.seconds)

    def seconds_left(self) -> float | None:
        left = self.stop.seconds_left()
        return None if left is None else max(0.0, left - self.seconds)


def first_plan(best: BestPlan) -> None:
    """A plan at once, in strips: something to show before the search has begun."""
    first = best.problem.pattern.first_cut
    ways = [True, False] if first is FirstCut.ANY else [first is FirstCut.ACROSS]
    for across in ways:
        best.offer(*fill_strips(best.grid, best.demand, across))


def fewest_sheets(best: BestPlan, stop: Stop, seed: int, cores: int) -> None:
    """Look for the cheapest sheets until `stop`, and raise the bound on what any plan must spend."""
    rooms = whole_sheet_rooms(best.grid)
    pattern = best.problem.pattern
    endless = [room for room in rooms if room.count is None]
    if len(rooms) > 1 and len(endless) <= best.parameters.sheet_kinds_alone:
        # Given several kinds of sheet, the search mixes them and can miss a cheaper plan of one kind.
        left = stop.seconds_left()
        for place, room in enumerate(endless, 1):
            taken = best.parameters.alone_time_share * place / len(endless)
            kept = 0.0 if left is None else left * (1 - taken)
            short = StopEarly(FirstOf((stop, MaxIterations(best.parameters.alone_iterations))), kept)
            best.offer(*best.fill(best.demand, [room], pattern, short, seed, cores))
    if best.carries:
        _parted_by_hand(best, stop, seed, cores)
    if not best.settled:
        best.offer(
            *best.fill(
                best.demand,
                rooms,
                pattern_for_bounds(best.problem),
                stop,
                seed,
                cores,
                best.offer,
                proves=True,
            )
        )


def _parted_by_hand(best: BestPlan, stop: Stop, seed: int, cores: int) -> None:
    """Plans whose first cuts leave room for the hand saw: each way for a while, and more room
    for the sheets that still have pieces over the limits."""
    left = stop.seconds_left()
    ways = list(_ways(best))
    for place, (rooms, pattern) in enumerate(ways):
        share = 0.0 if left is None else left * (1 - (place + 1) / (len(ways) + 1))
        short = StopEarly(FirstOf((stop, MaxIterations(best.parameters.hand_cut_iterations))), share)
        layouts, missing = best.fill(best.demand, rooms, pattern, short, seed, cores)
        left_over = remaining_rooms(whole_sheet_rooms(best.grid), layouts)
        if any(missing) and left_over:  # parts too long for a shortened sheet get whole ones
            more, missing = best.fill(missing, left_over, pattern, short, seed, cores)
            layouts += more
        best.offer(layouts, missing)
        _mend(best, short, seed)


def _ways(best: BestPlan) -> Iterator[tuple[list[Room], PatternKind]]:
    """Rooms shortened by what hand cuts across take, then narrowed by what hand cuts along take."""
    stages = best.problem.pattern.stages
    for first in (FirstCut.ACROSS, FirstCut.ALONG):
        yield rooms_for_hand_cuts(best.grid, first), PatternKind(stages, first)


def rooms_for_hand_cuts(grid: IntegerGrid, first: FirstCut) -> list[Room]:
    """The sheets, less what is lost to the hand cuts that part them across, or along."""
    along_x = first is FirstCut.ACROSS
    return [
        shorten_room(grid, room, along_x, fewest_hand_cuts(grid, grid.bins[room.bin], along_x))
        for room in whole_sheet_rooms(grid)
    ]


def remaining_rooms(rooms: Sequence[Room], layouts: Sequence[SheetLayout]) -> list[Room]:
    """The rooms left over once these layouts have taken theirs."""
    used = Counter(layout.bin for layout in layouts)
    less = [
        room if room.count is None else replace(room, count=max(0, room.count - used[room.bin]))
        for room in rooms
    ]
    return [room for room in less if room.count != 0]


def _mend(best: BestPlan, stop: Stop, seed: int) -> None:
    """Refill the sheets that have pieces over the carrying limits, with room for one or two more hand cuts.

    The rooms were shortened by the fewest cuts that could do. Where parts lie so that those do not suffice,
    one cut more usually does.
    """
    for extra in (1, 2):
        over = [layout for layout in best.layouts if best.scorer(layout).over_limit]
        if not over:
            return
        fine = [layout for layout in best.layouts if not best.scorer(layout).over_limit]
        for rooms, pattern in list(_ways(best)):
            along_x = pattern.first_cut is FirstCut.ACROSS
            shorter = [shorten_room(best.grid, room, along_x, extra) for room in rooms]
            shorter = remaining_rooms(shorter, fine)
            if not shorter:
                continue
            wanted = _content(best, over)
            again, missing = best.fill(wanted, shorter, pattern, stop, seed)
            if not any(missing):
                best.offer_ready([*fine, *(best.ready(layout) for layout in again)], best.missing)


def _content(best: BestPlan, layouts: list[SheetLayout]) -> list[int]:
    counts = [0] * len(best.demand)
    for layout in layouts:
        for leaf in leaves(layout.root):
            counts[leaf.item] += 1
    return counts
