"""The later goals: better plans of the same sheets.

Single sheets are reshaped (`reshape`), and a few sheets, or all of them, are filled anew by the
engine, which is asked for simpler patterns, for cuts at the parts' own sizes alone, for one way of
lying for parts that may turn, to do with less of one sheet, or to place some parts in couples
(`couples`). What is better is decided by the goals alone (`held`).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

import numpy as np

from ..best_plan import BestPlan
from ..engine import Stop
from ..first_phase.fewest_sheets import rooms_for_hand_cuts
from ..layout.engine_bridge import Room, engine_model, sheet_layouts, whole_sheet_rooms
from ..layout.layout_tree import Leaf, SheetLayout, Stack, layout_extent, leaves, node_extent
from ..layout.orientation import GridSetting, free_orientations
from ..problem import FirstCut, Goal, PatternKind
from .incumbent import Incumbent
from .part_pairs import PairFamily, node_settings, pair_families, pair_settings, pair_up


def refine(planner: BestPlan, stop: Stop, seed: int) -> None:
    """Better plans in the later goals, until `stop` or until none has been found for long."""
    if not planner.layouts:
        return
    held = Incumbent(planner, stop)
    refilling = _Refilling(held, np.random.default_rng(seed))
    held.open_all(range(len(held.layouts)))
    held.offer()
    refilling.on_few_settings()
    held.offer()
    held.polish(range(len(held.layouts)))
    held.offer()
    rounds = 0
    while rounds < planner.parameters.give_up_after and not held.stopped():
        if refilling.round(rounds):
            held.offer()
            rounds = 0
        else:
            rounds += 1


Content = tuple[Sequence[Leaf], Sequence[Stack]]
"""Loose parts and couples."""


@dataclass(frozen=True)
class _Way:
    """How some sheets are to be filled anew; `restricted`: with every cut at some part's size."""

    pattern: PatternKind
    lying: tuple[bool | None, ...]
    restricted: bool


class _Refilling:
    """The ways to fill sheets anew. Each says whether the plan got better, None if nothing was found."""

    def __init__(self, held: Incumbent, draw: np.random.Generator) -> None:
        self.held = held
        self.planner = held.planner
        self.parameters = held.planner.parameters
        self.grid = held.grid
        self.draw = draw
        reach = self.planner.problem.table_saw.reach
        self.reach = None if reach is None else int(reach // self.grid.step)
        goals = self.planner.problem.goals
        self.coupled_share, self.kept_share = 0.0, 1.0
        if Goal.FENCE_SETTINGS in goals:
            late = Goal.LEFTOVER_WORTH in goals[: goals.index(Goal.FENCE_SETTINGS)]
            self.coupled_share = self.parameters.pair_share_late if late else self.parameters.pair_share
            self.kept_share = self.parameters.keep_pairs_late if late else 1.0

    def on_few_settings(self) -> None:
        """The whole job on no more settings than its parts need, in two stages if that can be, else on
        as few as are found. Half of what could be saved comes first: it is found sooner."""
        if not self._whole_on_few():
            return
        fewest = self._fewest()
        for times in (1, self.parameters.long_try):
            self._half_way(fewest, times)
            if self._in_two_stages(times) is not None or self._on_settings(fewest, times) is not None:
                return
        self._half_way(fewest, self.parameters.long_try)

    def _whole_on_few(self) -> bool:
        return sum(self.planner.wanted) <= self.parameters.few_settings_parts

    def _half_way(self, fewest: int, times: int) -> None:
        most = (fewest + len(self.held.whole.settings)) // 2
        if fewest < most:
            self._on_settings(most, times)

    def _in_two_stages(self, times: int) -> bool | None:
        """The whole job in two stages: every cut is then at some part's size, and there are few turns."""
        asked = self.planner.problem.pattern.stages
        return None if asked == 1 else self._whole(2, self.held.lying, times, self._content())

    def _content(self) -> Content:
        return self.held.content(range(len(self.held.layouts)))

    def _parted(self, places: Iterable[int]) -> Content:
        """The parts on these sheets, none coupled."""
        return [leaf for place in places for leaf in leaves(self.held.layouts[place].root)], []

    def _fewest(self) -> int:
        """The settings needed when all parts lie alike, each cut on its own sizes or as it is coupled."""
        return min(len(self.held.wanted), len(self._needed(self._content())))

    def _needed(self, content: Content) -> set[GridSetting]:
        loose, couples = content
        nodes: list[Leaf | Stack] = [*map(self.held.lies, loose), *couples]
        return set().union(*(node_settings(node, self.grid) for node in nodes))

    def _on_settings(self, most: int, times: int) -> bool | None:
        """The whole job on so many settings: every cut at some part's size, and as many parts as that
        allows, drawn, free to lie either way. Couples are parted if they need too many."""
        content = self._content()
        needed = self._needed(content)
        if len(needed) > most:
            content = self._parted(range(len(self.held.layouts)))
            needed = self._needed(content)
        stages = self.planner.problem.pattern.stages
        return self._whole(stages, self._loosened(needed, most), times, content, restricted=True)

    def _loosened(self, needed: Collection[GridSetting], most: int) -> tuple[bool | None, ...]:
        order = [self.held.turning[int(place)] for place in self.draw.permutation(len(self.held.turning))]
        return free_orientations(
            self.grid, self.held.lying, needed, most, order, lambda: self.draw.random() < 0.5
        )

    def _whole(
        self,
        stages: int | None,
        lying: tuple[bool | None, ...],
        times: int,
        content: Content,
        restricted: bool = False,
    ) -> bool | None:
        """The whole job anew in patterns of so many stages."""
        if self.held.stopped():
            return None
        first = self.planner.problem.pattern.first_cut
        if self.planner.carries and first is FirstCut.ANY:
            first = FirstCut.ACROSS
        way = _Way(PatternKind(stages, first), lying, restricted)
        places = list(range(len(self.held.layouts)))
        rooms = self._rooms(places, way, shrink=False)
        return self._anew(places, rooms, way, self.planner.money, content, times)

    def round(self, fruitless: int) -> bool | None:
        """Fill some sheets anew in one way, after so many rounds without a better plan."""
        if self.draw.random() < self.coupled_share:
            family = self._family()
            if family is not None:
                return self._coupled(family)
        if self._whole_on_few() and self.draw.random() < self.parameters.few_settings_share:
            fewest, now = self._fewest(), len(self.held.whole.settings)
            if fewest < now:
                longer = self.parameters.longest_try - self.parameters.long_try
                times = self.parameters.long_try + longer * fruitless**2 // self.parameters.give_up_after**2
                return self._on_settings(int(self.draw.integers(fewest, now)), times)
        places = self._places()
        way = self._way()
        cost = self.held.cost(places)
        may_save = len(places) > 1 and not self.planner.settled
        if may_save and self.draw.random() < self.parameters.cheaper_share:
            cost -= min(self.held.cost([place]) for place in places)
            rooms = self._rooms(places, way, shrink=False)
        else:
            rooms = self._rooms(places, way, shrink=self.draw.random() < 0.6)
        content: Content = self.held.content(places)
        if self.draw.random() >= self.kept_share:
            content = self._parted(places)
        return self._anew(places, rooms, way, cost, content)

    def _anew(
        self,
        places: list[int],
        rooms: list[Room],
        way: _Way,
        cost: Fraction,
        content: Content,
        times: int = 1,
    ) -> bool | None:
        """Fill the sheets in these places anew with what they hold: loose parts and couples. Whether
        the plan got better by it, None if they could not be filled so."""
        loose, couples = content
        wanted = [0] * len(self.grid.items)
        for leaf in loose:
            wanted[leaf.item] += 1
        model = engine_model(self.grid, wanted, rooms, way.pattern, way.lying, couples, way.restricted)
        for_parts = self.parameters.try_iterations_per_part * (len(loose) + len(couples))
        iterations = times * (self.parameters.try_iterations + for_parts)
        seed, stretch_work = int(self.draw.integers(2**32)), self.parameters.stretch_work
        found, done = model.attempt(cost, iterations, seed, self.held.stopped, stretch_work)
        self.held.work += done
        if found is None or len(found) > len(places):
            return None
        others = [self.planner.ready(layout) for layout in sheet_layouts(rooms, found)]
        if not all(self.planner.keeps_pattern(layout) for layout in others):
            return None
        return self.held.take(places, others)

    def _family(self) -> PairFamily | None:
        """Pairs of a family that would save a setting; rather few and rare sizes than many, for
        every copy of them must be coupled."""
        held, draw = self.held, self.draw
        loose, couples = held.content(range(len(held.layouts)))
        loose = [held.lies(leaf) for leaf in loose]
        needed = {setting for node in couples for setting in pair_settings(node, self.grid)[:2]}
        copies = Counter((axis, node_extent(leaf, self.grid)[axis]) for leaf in loose for axis in (0, 1))
        best: tuple[float, PairFamily] | None = None
        for family in pair_families(self.grid, loose, self.reach):
            axis = 0 if family.along_x else 1
            known = (family.along_x, family.whole) in held.whole.settings
            pairs = [
                (copies[axis, pair[1]] * draw.random(), pair)
                for pair in family.pairs
                if family.saves(pair, held.whole.settings, needed)
            ]
            fewest = 1 if known else 2
            if len(pairs) >= fewest:
                count = min(len(pairs), fewest - 1 + int(draw.geometric(0.6)))
                chosen = sorted(pairs)[:count]
                cost = sum(weight for weight, _ in chosen) / (count + known - 1)
                if best is None or cost < best[0]:
                    best = cost, replace(family, pairs=tuple(pair for _, pair in chosen))
        return None if best is None else best[1]

    def _coupled(self, family: PairFamily) -> bool | None:
        """Fill anew the sheets with this family's parts, and these coupled."""
        held = self.held
        axis = 0 if family.along_x else 1

        def hold(place: int, wanted: set[int]) -> bool:
            loose, _ = held.content([place])
            return any(node_extent(held.lies(leaf), self.grid)[axis] in wanted for leaf in loose)

        left, cut = ({pair[side] for pair in family.pairs} for side in (1, 0))
        everywhere = [int(place) for place in self.draw.permutation(len(held.layouts))]
        places = [place for place in everywhere if hold(place, left)]
        others = [place for place in everywhere if place not in places and hold(place, cut)]
        while True:
            loose, couples = held.content(places)
            made = pair_up(self.grid, family, [held.lies(leaf) for leaf in loose])
            if made is not None:
                break
            if not others:
                return None
            places.append(others.pop())
        parts = sum(1 for place in places for _ in leaves(held.layouts[place].root))
        if parts > self.parameters.whole_job_parts:
            return None
        emptiest = max(everywhere, key=lambda place: held.scorer(held.layouts[place]).worth)
        if emptiest not in places and self.draw.random() < 0.5:
            places.append(emptiest)
            loose, couples = held.content(places)
        gone = Counter(leaf.item for node in made for leaf in leaves(node))
        remaining = []
        for leaf in loose:
            gone[leaf.item] -= 1
            if gone[leaf.item] < 0:
                remaining.append(leaf)
        way = replace(self._way(), lying=held.lying)
        rooms = self._rooms(places, way, shrink=False)
        return self._anew(places, rooms, way, held.cost(places), (remaining, [*couples, *made]))

    def _places(self) -> list[int]:
        """Which sheets: all of a small job now and then, else two or three, among them often the
        emptiest, which is where a leftover can grow."""
        layouts, draw = self.held.layouts, self.draw
        count = len(layouts)
        if sum(self.planner.wanted) <= self.parameters.whole_job_parts and draw.random() < 0.3:
            return list(range(count))
        places = [int(place) for place in draw.permutation(count)[: int(draw.integers(1, 4))]]
        if draw.random() < 0.5:
            emptiest = max(range(count), key=lambda place: self.held.scorer(layouts[place]).worth)
            places = [emptiest, *(place for place in places if place != emptiest)][: max(2, len(places))]
        return places

    def _way(self) -> _Way:
        asked = self.planner.problem.pattern
        stages = asked.stages
        if stages is None:
            stages = (None, 2, 3)[int(self.draw.integers(3))]
        first = asked.first_cut
        if self.planner.carries or (stages is not None and first is FirstCut.ANY):
            first = (FirstCut.ACROSS, FirstCut.ALONG)[int(self.draw.integers(2))]
        all_there_are = 2 * len(self.grid.items)
        lying = self._loosened((), all_there_are) if self.draw.random() < 0.3 else self.held.lying
        return _Way(PatternKind(stages, first), lying, restricted=stages is None)

    def _rooms(self, places: Sequence[int], way: _Way, shrink: bool) -> list[Room]:
        """The sheets in these places; with `shrink` one of them only so far as now, less a little."""
        now: list[SheetLayout] = [self.held.layouts[place] for place in places]
        rooms = (
            rooms_for_hand_cuts(self.grid, way.pattern.first_cut)
            if self.planner.carries
            else whole_sheet_rooms(self.grid)
        )
        taken = [replace(rooms[layout.bin], count=1) for layout in now]
        if shrink:
            least = max(range(len(now)), key=lambda place: self.held.scorer(now[place]).worth)
            room = taken[least]
            x, y = layout_extent(now[least], self.grid)
            less = float(self.draw.choice([0.0, 0.01, 0.05, 0.15]))
            if self.draw.random() < 0.5:
                room = replace(room, length=max(1, min(room.length, int(x * (1 - less)))))
            else:
                room = replace(room, width=max(1, min(room.width, int(y * (1 - less)))))
            taken[least] = room
        return taken
