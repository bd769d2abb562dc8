"""The later goals: better plans for the same money.

A large-neighbourhood search. Each round empties a few sheets, or all of them, and has the engine refill them
under some restriction that tends to serve a later goal: fewer stages, every cut at some part's own size, one
orientation for all parts that may be rotated, one sheet made smaller, some parts in pairs (`part_pairs`).
Single sheets are also recut in place (`reshape`). The restrictions only suggest; `incumbent` keeps what the
goals call better and nothing else.
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
from ..parameters import WorkKind
from ..problem import FirstCut, Goal, PatternKind
from .incumbent import Incumbent
from .part_pairs import PairFamily, node_settings, pair_families, pair_settings, pair_up


def refine(best: BestPlan, stop: Stop, seed: int) -> None:
    """Improve `best` in the later goals until `stop`, or until many rounds have found nothing better."""
    if not best.layouts:
        return
    incumbent = Incumbent(best, stop)
    refiller = _Refiller(incumbent, np.random.default_rng(seed))
    # The cheap and certain steps come first, so that a stop soon after the first phase still gets them.
    incumbent.open_all(range(len(incumbent.layouts)))
    incumbent.offer()
    refiller.whole_job_on_few_settings()
    incumbent.offer()
    incumbent.polish(range(len(incumbent.layouts)))
    incumbent.offer()
    rounds = 0
    while rounds < best.parameters.give_up_after and not incumbent.stopped():
        if refiller.try_once(rounds):
            incumbent.offer()
            rounds = 0
        else:
            rounds += 1


Content = tuple[Sequence[Leaf], Sequence[Stack]]
"""Single parts, and pairs of parts that are cut from one piece."""


@dataclass(frozen=True)
class _FillRule:
    """How to refill some sheets.

    `orientations` says of each item whether it is turned, None where the engine may choose. With `restricted`
    every piece that is cut off has the size of some part.
    """

    pattern: PatternKind
    orientations: tuple[bool | None, ...]
    restricted: bool


class _Refiller:
    """The moves. Each returns whether the plan got better, or None if the engine found no plan at all."""

    def __init__(self, incumbent: Incumbent, draw: np.random.Generator) -> None:
        self.incumbent = incumbent
        self.best = incumbent.best
        self.parameters = incumbent.best.parameters
        self.grid = incumbent.grid
        self.draw = draw
        reach = self.best.problem.table_saw.reach
        self.reach = None if reach is None else int(reach // self.grid.step)
        goals = self.best.problem.goals
        self.pair_share, self.keep_pairs_share = 0.0, 1.0
        if Goal.FENCE_SETTINGS in goals:
            late = Goal.LEFTOVER_WORTH in goals[: goals.index(Goal.FENCE_SETTINGS)]
            self.pair_share = self.parameters.pair_share_late if late else self.parameters.pair_share
            self.keep_pairs_share = self.parameters.keep_pairs_late if late else 1.0

    def whole_job_on_few_settings(self) -> None:
        """Refill the whole job on as few settings as its parts need: in two stages if possible, else on the
        fewest the search finds.

        Half of the possible saving is tried before all of it: it is easier to find, and once it is found a
        stop by the clock loses less.
        """
        if not self._whole_on_few():
            return
        fewest = self._fewest()
        for times in (1, self.parameters.long_try):
            self._half_way(fewest, times)
            if self._in_two_stages(times) is not None or self._on_settings(fewest, times) is not None:
                return
        self._half_way(fewest, self.parameters.long_try)

    def _whole_on_few(self) -> bool:
        return sum(self.best.demand) <= self.parameters.few_settings_parts

    def _half_way(self, fewest: int, times: int) -> None:
        most = (fewest + len(self.incumbent.whole.settings)) // 2
        if fewest < most:
            self._on_settings(most, times)

    def _in_two_stages(self, times: int) -> bool | None:
        """Refill the whole job in two stages: every cut is then at some part's size, and turns are few."""
        asked = self.best.problem.pattern.stages
        return None if asked == 1 else self._whole(2, self.incumbent.orientations, times, self._content())

    def _content(self) -> Content:
        return self.incumbent.content(range(len(self.incumbent.layouts)))

    def _all_loose(self, places: Iterable[int]) -> Content:
        """The parts on these sheets, with every pair broken up."""
        return [leaf for place in places for leaf in leaves(self.incumbent.layouts[place].root)], []

    def _fewest(self) -> int:
        """How many settings are needed when equal parts lie the same way, each cut on its own sizes or as
        half of its present pair."""
        return min(len(self.incumbent.own_settings), len(self._needed(self._content())))

    def _needed(self, content: Content) -> set[GridSetting]:
        loose, part_pairs = content
        nodes: list[Leaf | Stack] = [*map(self.incumbent.oriented, loose), *part_pairs]
        return set().union(*(node_settings(node, self.grid) for node in nodes))

    def _on_settings(self, most: int, times: int) -> bool | None:
        """Refill the whole job on at most so many settings.

        Every cut is at some part's size. Parts drawn at random may lie either way, as many as that number
        allows, for each adds settings of its own. Pairs are broken up if they need too many settings.
        """
        content = self._content()
        needed = self._needed(content)
        if len(needed) > most:
            content = self._all_loose(range(len(self.incumbent.layouts)))
            needed = self._needed(content)
        stages = self.best.problem.pattern.stages
        return self._whole(stages, self._free_orientations(needed, most), times, content, restricted=True)

    def _free_orientations(self, needed: Collection[GridSetting], most: int) -> tuple[bool | None, ...]:
        groups, usual = self.incumbent.turn_groups, self.incumbent.orientations
        order = [groups[int(place)] for place in self.draw.permutation(len(groups))]
        return free_orientations(self.grid, usual, needed, most, order, lambda: self.draw.random() < 0.5)

    def _whole(
        self,
        stages: int | None,
        orientations: tuple[bool | None, ...],
        times: int,
        content: Content,
        restricted: bool = False,
    ) -> bool | None:
        """Refill the whole job in patterns of so many stages."""
        if self.incumbent.stopped():
            return None
        first = self.best.problem.pattern.first_cut
        if self.best.carries and first is FirstCut.ANY:
            first = FirstCut.ACROSS
        rule = _FillRule(PatternKind(stages, first), orientations, restricted)
        places = list(range(len(self.incumbent.layouts)))
        rooms = self._rooms(places, rule, shrink=False)
        return self._refill(places, rooms, rule, self.best.money, content, times)

    def try_once(self, fruitless: int) -> bool | None:
        """One round; `fruitless` counts the rounds before it that found nothing better."""
        self.incumbent.count(WorkKind.ROUND, sum(self.best.demand) + 20)
        if self.draw.random() < self.pair_share:
            family = self._family()
            if family is not None:
                return self._pair_family(family)
        if self._whole_on_few() and self.draw.random() < self.parameters.few_settings_share:
            fewest, now = self._fewest(), len(self.incumbent.whole.settings)
            if fewest < now:
                # Plans on so few settings are rare and worth much: the longer nothing else helps, the harder
                # they are looked for, most of all just before the search gives up.
                longer = self.parameters.longest_try - self.parameters.long_try
                times = self.parameters.long_try + longer * fruitless**2 // self.parameters.give_up_after**2
                return self._on_settings(int(self.draw.integers(fewest, now)), times)
        places = self._draw_sheets()
        rule = self._draw_rule()
        cost = self.incumbent.cost(places)
        # Not proved that no sheet can be saved: now and then ask for one less among those emptied.
        may_save = len(places) > 1 and not self.best.settled
        if may_save and self.draw.random() < self.parameters.cheaper_share:
            cost -= min(self.incumbent.cost([place]) for place in places)
            rooms = self._rooms(places, rule, shrink=False)
        else:
            rooms = self._rooms(places, rule, shrink=self.draw.random() < 0.6)
        content: Content = self.incumbent.content(places)
        if self.draw.random() >= self.keep_pairs_share:
            content = self._all_loose(places)
        return self._refill(places, rooms, rule, cost, content)

    def _refill(
        self,
        places: list[int],
        rooms: list[Room],
        rule: _FillRule,
        cost: Fraction,
        content: Content,
        times: int = 1,
    ) -> bool | None:
        """Refill the sheets in these places with their content, for `cost` at most."""
        loose, part_pairs = content
        wanted = [0] * len(self.grid.items)
        for leaf in loose:
            wanted[leaf.item] += 1
        model = engine_model(
            self.grid, wanted, rooms, rule.pattern, rule.orientations, part_pairs, rule.restricted
        )
        for_parts = self.parameters.try_iterations_per_part * (len(loose) + len(part_pairs))
        iterations = times * (self.parameters.try_iterations + for_parts)
        seed, stretch_work = int(self.draw.integers(2**32)), self.parameters.stretch_work
        found, done = model.attempt(
            cost, iterations, seed, self.incumbent.stopped, self.incumbent.count, stretch_work
        )
        self.incumbent.work += done
        if found is None or len(found) > len(places):
            return None
        others = [self.best.ready(layout) for layout in sheet_layouts(rooms, found)]
        if not all(self.best.keeps_pattern(layout) for layout in others):
            return None
        return self.incumbent.take(places, others)

    def _family(self) -> PairFamily | None:
        """A family with pairs drawn that would save a setting, or None.

        Few pairs and rare sizes are preferred: every copy of a size must be paired before its setting is
        saved, and each pair is one more large piece to find room for.
        """
        incumbent, draw = self.incumbent, self.draw
        loose, part_pairs = incumbent.content(range(len(incumbent.layouts)))
        loose = [incumbent.oriented(leaf) for leaf in loose]
        needed = {setting for node in part_pairs for setting in pair_settings(node, self.grid)[:2]}
        copies = Counter((axis, node_extent(leaf, self.grid)[axis]) for leaf in loose for axis in (0, 1))
        best: tuple[float, PairFamily] | None = None
        for family in pair_families(self.grid, loose, self.reach):
            axis = 0 if family.along_x else 1
            known = (family.along_x, family.whole) in incumbent.whole.settings
            pairs = [
                (copies[axis, pair[1]] * draw.random(), pair)
                for pair in family.pairs
                if family.saves(pair, incumbent.whole.settings, needed)
            ]
            # The whole piece needs a setting too. Unless it is there already, the first pair only pays for
            # it.
            fewest = 1 if known else 2
            if len(pairs) >= fewest:
                count = min(len(pairs), fewest - 1 + int(draw.geometric(0.6)))
                chosen = sorted(pairs)[:count]
                cost = sum(weight for weight, _ in chosen) / (count + known - 1)
                if best is None or cost < best[0]:
                    best = cost, replace(family, pairs=tuple(pair for _, pair in chosen))
        return None if best is None else best[1]

    def _pair_family(self, family: PairFamily) -> bool | None:
        """Refill the sheets that hold this family's parts, with those parts in pairs."""
        incumbent = self.incumbent
        axis = 0 if family.along_x else 1

        def hold(place: int, wanted: set[int]) -> bool:
            loose, _ = incumbent.content([place])
            return any(node_extent(incumbent.oriented(leaf), self.grid)[axis] in wanted for leaf in loose)

        left, cut = ({pair[side] for pair in family.pairs} for side in (1, 0))
        everywhere = [int(place) for place in self.draw.permutation(len(incumbent.layouts))]
        places = [place for place in everywhere if hold(place, left)]
        others = [place for place in everywhere if place not in places and hold(place, cut)]
        while True:
            loose, part_pairs = incumbent.content(places)
            new_pairs = pair_up(self.grid, family, [incumbent.oriented(leaf) for leaf in loose])
            if new_pairs is not None:
                break
            if not others:
                return None
            places.append(others.pop())
        parts = sum(1 for place in places for _ in leaves(incumbent.layouts[place].root))
        if parts > self.parameters.whole_job_parts:
            return None
        # Pairs need more room than single parts: lend them the emptiest sheet half of the time.
        emptiest = max(everywhere, key=lambda place: incumbent.scorer(incumbent.layouts[place]).worth)
        if emptiest not in places and self.draw.random() < 0.5:
            places.append(emptiest)
            loose, part_pairs = incumbent.content(places)
        gone = Counter(leaf.item for node in new_pairs for leaf in leaves(node))
        remaining = []
        for leaf in loose:
            gone[leaf.item] -= 1
            if gone[leaf.item] < 0:
                remaining.append(leaf)
        rule = replace(self._draw_rule(), orientations=incumbent.orientations)
        rooms = self._rooms(places, rule, shrink=False)
        content = remaining, [*part_pairs, *new_pairs]
        return self._refill(places, rooms, rule, incumbent.cost(places), content)

    def _draw_sheets(self) -> list[int]:
        """Up to three sheets, half of the time with the emptiest among them: that is where a leftover can
        grow. Now and then all sheets of a small job."""
        layouts, draw = self.incumbent.layouts, self.draw
        count = len(layouts)
        if sum(self.best.demand) <= self.parameters.whole_job_parts and draw.random() < 0.3:
            return list(range(count))
        places = [int(place) for place in draw.permutation(count)[: int(draw.integers(1, 4))]]
        if draw.random() < 0.5:
            emptiest = max(range(count), key=lambda place: self.incumbent.scorer(layouts[place]).worth)
            places = [emptiest, *(place for place in places if place != emptiest)][: max(2, len(places))]
        return places

    def _draw_rule(self) -> _FillRule:
        """Where the maker leaves a choice, draw it: patterns of two and three stages have fewer turns and
        settings, unlimited ones fill better."""
        asked = self.best.problem.pattern
        stages = asked.stages
        if stages is None:
            stages = (None, 2, 3)[int(self.draw.integers(3))]
        first = asked.first_cut
        if self.best.carries or (stages is not None and first is FirstCut.ANY):
            first = (FirstCut.ACROSS, FirstCut.ALONG)[int(self.draw.integers(2))]
        all_there_are = 2 * len(self.grid.items)
        orientations = self.incumbent.orientations
        if self.draw.random() < 0.3:
            orientations = self._free_orientations((), all_there_are)
        return _FillRule(PatternKind(stages, first), orientations, restricted=stages is None)

    def _rooms(self, places: Sequence[int], rule: _FillRule, shrink: bool) -> list[Room]:
        """The room the engine gets: the sheets in these places.

        With `shrink` the emptiest of them is cut down to what its parts take now, less up to 15 %: if all
        parts still fit, the leftover has grown.
        """
        now: list[SheetLayout] = [self.incumbent.layouts[place] for place in places]
        rooms = (
            rooms_for_hand_cuts(self.grid, rule.pattern.first_cut)
            if self.best.carries
            else whole_sheet_rooms(self.grid)
        )
        taken = [replace(rooms[layout.bin], count=1) for layout in now]
        if shrink:
            least = max(range(len(now)), key=lambda place: self.incumbent.scorer(now[place]).worth)
            room = taken[least]
            x, y = layout_extent(now[least], self.grid)
            less = float(self.draw.choice([0.0, 0.01, 0.05, 0.15]))
            if self.draw.random() < 0.5:
                room = replace(room, length=max(1, min(room.length, int(x * (1 - less)))))
            else:
                room = replace(room, width=max(1, min(room.width, int(y * (1 - less)))))
            taken[least] = room
        return taken
