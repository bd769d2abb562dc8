"""The later goals: better plans of the same sheets.

Two ways alternate: single sheets are reshaped (`reshape`), and a few sheets, or all of them, are
filled anew by the engine, which is asked for simpler patterns, for one way of lying for parts
that may turn, or to do with less of one sheet. What is better is decided by the goals alone.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

import numpy as np

from .bridge import Room, as_sheets, bridge, whole_sheets
from .draft import fits
from .engine import Progress, Stop
from .layout import SheetLayout, extent_of, leaves
from .planner import Planner
from .problem import FirstCut, PatternKind
from .reshape import reshaped
from .score import Score, standing
from .sheets import reserved

GIVE_UP = 150
"""Rounds without a better plan after which nothing more is expected."""

WHOLE_JOB = 150
"""Jobs of up to so many parts are also filled anew as a whole."""

SIMPLY = 600
"""Jobs of up to so many parts are first tried as a whole in simpler patterns."""

CHEAPER_SHARE = 0.3
"""How often a try is for one sheet less, while it is not proved that none can be saved."""

ITERATIONS = 400
ITERATIONS_A_PART = 25
"""The engine's iterations for one try."""


def refine(planner: Planner, stop: Stop, seed: int) -> None:
    """Better plans in the later goals, until `stop` or until none has been found for long."""
    draw = np.random.default_rng(seed)
    refinement = _Refinement(planner)
    refinement.simply(draw, stop)
    planner.offer_ready(list(refinement.layouts), planner.missing)
    refinement.polish(range(len(refinement.layouts)), stop)
    planner.offer_ready(list(refinement.layouts), planner.missing)
    done = since_better = rounds = 0
    while planner.layouts and rounds < GIVE_UP and not stop(Progress(done, since_better, None, 0)):
        used, better = refinement.round(draw, stop)
        done += used
        since_better, rounds = (0, 0) if better else (since_better + used, rounds + 1)
        if better:
            planner.offer_ready(list(refinement.layouts), planner.missing)


@dataclass(frozen=True)
class _Way:
    """How some sheets are to be filled anew."""

    pattern: PatternKind
    lying: tuple[bool | None, ...]


class _Refinement:
    def __init__(self, planner: Planner) -> None:
        self.planner = planner
        self.grid = planner.grid
        self.scorer = planner.scorer
        self.layouts = list(planner.layouts)
        self.whole = standing(self.scorer, self.layouts)
        self.free_stages = planner.problem.pattern.stages is None
        self.lying = _lying(planner)
        self.wanted = frozenset(
            (crosscut, size)
            for item, turned in zip(self.grid.items, self.lying, strict=True)
            for crosscut, size in zip((True, False), item.size(turned is True), strict=True)
        )

    def polish(self, places: range | list[int], stop: Stop) -> None:
        """Reshape single sheets while that makes the plan better."""
        for place in places:
            while self._reshape(place, stop):
                pass

    def _reshape(self, place: int, stop: Stop) -> bool:
        now = self.layouts[place]
        for other in reshaped(now, self.grid, self.free_stages, self.wanted):
            if stop(Progress(0, 0, None, 0)):
                return False
            if fits(self.grid, other) and self._better([place], [other]):
                return True
        return False

    def _better(self, places: list[int], others: list[SheetLayout]) -> bool:
        """Put other sheets in these places if the plan as a whole gets better."""
        before = self.whole.rank()
        out = [self._scored(self.layouts[place]) for place in places]
        come = [self._scored(layout) for layout in others]
        self.whole.change(out, come)
        if self.whole.rank() < before:
            self._put(places, others)
            return True
        self.whole.change(come, out)
        return False

    def _put(self, places: list[int], others: list[SheetLayout]) -> None:
        for place, layout in zip(places, others, strict=False):
            self.layouts[place] = layout
        for place in sorted(places[len(others) :], reverse=True):
            del self.layouts[place]

    def _scored(self, layout: SheetLayout) -> tuple[Score, Fraction]:
        return self.scorer(layout), self.grid.bins[layout.bin].cost

    def simply(self, draw: np.random.Generator, stop: Stop) -> None:
        """The whole job in simpler patterns and one way of lying, the simplest first."""
        asked = self.planner.problem.pattern
        if not self.layouts or sum(self.planner.wanted) > SIMPLY:
            return
        for stages in (2, 3, None):
            if stop(Progress(0, 0, None, 0)):
                return
            if asked.stages is None or (stages is not None and stages <= asked.stages):
                first = asked.first_cut
                if self.planner.carries:
                    first = FirstCut.ACROSS
                way = _Way(PatternKind(stages, first), self.lying)
                places = list(range(len(self.layouts)))
                rooms = self._rooms(draw, list(self.layouts), way, shrink=False)
                if self._anew(places, rooms, way, self.planner.money, draw, stop)[1]:
                    return

    def round(self, draw: np.random.Generator, stop: Stop) -> tuple[int, bool]:
        """Fill some sheets anew in one way; the engine's iterations, and whether the plan got better."""
        places = self._places(draw)
        now = [self.layouts[place] for place in places]
        way = self._way(draw)
        cost = sum((self.grid.bins[layout.bin].cost for layout in now), Fraction(0))
        if len(now) > 1 and not self.planner.settled and draw.random() < CHEAPER_SHARE:
            cost -= min(self.grid.bins[layout.bin].cost for layout in now)
            rooms = self._rooms(draw, now, way, shrink=False)
        else:
            rooms = self._rooms(draw, now, way, shrink=draw.random() < 0.6)
        return self._anew(places, rooms, way, cost, draw, stop)

    def _anew(
        self,
        places: list[int],
        rooms: list[Room],
        way: _Way,
        cost: Fraction,
        draw: np.random.Generator,
        stop: Stop,
    ) -> tuple[int, bool]:
        """Fill the sheets in these places anew; the engine's iterations, and whether it is better."""
        wanted = [0] * len(self.grid.items)
        for layout in [self.layouts[place] for place in places]:
            for leaf in leaves(layout.root):
                wanted[leaf.item] += 1
        model = bridge(self.grid, wanted, rooms, way.pattern, way.lying)
        iterations = ITERATIONS + ITERATIONS_A_PART * sum(wanted)
        found = model.attempt(cost, iterations, int(draw.integers(2**32)))
        if found is None or len(found) > len(places):
            return iterations, False
        others = [self.planner.ready(layout) for layout in as_sheets(rooms, found)]
        if not all(self.planner.keeps_pattern(layout) for layout in others):
            return iterations, False
        return iterations, self._take(places, others, stop)

    def _take(self, places: list[int], others: list[SheetLayout], stop: Stop) -> bool:
        """Polish the new sheets beside the others before they are judged."""
        before, kept = self.whole.rank(), list(self.layouts)
        self.whole.change(
            [self._scored(self.layouts[place]) for place in places], [self._scored(new) for new in others]
        )
        self._put(places, others)
        if self.whole.rank() < before:
            return True
        if len(others) == len(places):
            self.polish(places, stop)
        if self.whole.rank() < before:
            return True
        self.layouts = kept
        self.whole = standing(self.scorer, kept)
        return False

    def _places(self, draw: np.random.Generator) -> list[int]:
        """Which sheets: all of a small job now and then, else two or three, among them often the
        emptiest, which is where a leftover can grow."""
        count = len(self.layouts)
        if sum(self.planner.wanted) <= WHOLE_JOB and draw.random() < 0.3:
            return list(range(count))
        places = [int(place) for place in draw.permutation(count)[: int(draw.integers(1, 4))]]
        if draw.random() < 0.5:
            emptiest = max(range(count), key=lambda place: self.scorer(self.layouts[place]).worth)
            places = [emptiest, *(place for place in places if place != emptiest)][: max(2, len(places))]
        return places

    def _way(self, draw: np.random.Generator) -> _Way:
        asked = self.planner.problem.pattern
        stages = asked.stages
        if stages is None:
            stages = (None, 2, 3)[int(draw.integers(3))]
        first = asked.first_cut
        if first is FirstCut.ANY or self.planner.carries:
            first = (FirstCut.ACROSS, FirstCut.ALONG)[int(draw.integers(2))]
        free = draw.random() < 0.3
        lying = tuple(None for _ in self.lying) if free else self.lying
        return _Way(PatternKind(stages, first), lying)

    def _rooms(
        self, draw: np.random.Generator, now: list[SheetLayout], way: _Way, shrink: bool
    ) -> list[Room]:
        """The sheets these layouts use; with `shrink` one of them only so far as now, less a little."""
        rooms = (
            reserved(self.grid, way.pattern.first_cut) if self.planner.carries else whole_sheets(self.grid)
        )
        taken = [replace(rooms[layout.bin], count=1) for layout in now]
        if shrink:
            least = max(range(len(now)), key=lambda place: self.scorer(now[place]).worth)
            room = taken[least]
            x, y = extent_of(now[least], self.grid)
            less = float(draw.choice([0.0, 0.01, 0.05, 0.15]))
            if draw.random() < 0.5:
                room = replace(room, length=max(1, min(room.length, int(x * (1 - less)))))
            else:
                room = replace(room, width=max(1, min(room.width, int(y * (1 - less)))))
            taken[least] = room
        return taken


def _lying(planner: Planner) -> tuple[bool | None, ...]:
    """One way of lying for each part that may turn, so that as few settings as can be are needed
    for all parts together; greedily, the largest first."""
    settings: set[tuple[bool, int]] = set()
    items = planner.grid.items
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
                for room in [bin_.usable for bin_ in planner.grid.bins]
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
