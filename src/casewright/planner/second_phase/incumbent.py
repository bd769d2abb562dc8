"""The plan that is held while the later goals are searched, and the judge of every change to it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

from ..best_plan import BestPlan
from ..engine import Progress, Stop
from ..layout.cut_draft import layout_fits
from ..layout.layout_tree import Leaf, SheetLayout, Stack, leaves
from ..layout.orientation import common_orientations, own_settings, turn_groups
from ..layout.score import Score, job_totals
from .part_pairs import pair_settings, parts_and_pairs
from .reshape import neighbour_layouts, with_open_stacks

LOOK = 16
"""Shapes of a sheet that are tried between two looks at the stop: reading a clock takes time too."""


class Incumbent:
    """The sheets as they stand. What the goals call better is taken, all else is put back.

    `lying` is the way each part should lie so that they share settings, None for those that may
    not turn; `turning` those that may, with the others that must turn with them; `wanted` are the
    settings that brings all parts to size, as (by a crosscut, size).
    """

    def __init__(self, planner: BestPlan, stop: Stop) -> None:
        self.planner = planner
        self.grid = planner.grid
        self.scorer = planner.scorer
        self.layouts = list(planner.layouts)
        self.whole = job_totals(self.scorer, self.layouts)
        self.lying = common_orientations(self.grid)
        self.turning = turn_groups(planner.problem)
        self.wanted = own_settings(self.grid, self.lying)
        self.work = 0
        self._stop = stop

    def stopped(self) -> bool:
        return self._stop(Progress(self.work, None, 0))

    def offer(self) -> None:
        """Let the planner have the plan as it stands."""
        self.planner.offer_ready(list(self.layouts), self.planner.missing)

    def cost(self, places: Iterable[int]) -> Fraction:
        return sum((self.grid.bins[self.layouts[place].bin].cost for place in places), Fraction(0))

    def lies(self, leaf: Leaf) -> Leaf:
        """The part as it should lie."""
        return Leaf(leaf.item, self.lying[leaf.item] is True)

    def content(self, places: Iterable[int]) -> tuple[list[Leaf], list[Stack]]:
        """The parts on these sheets; those coupled as couples, so far as that saves a setting."""
        loose: list[Leaf] = []
        couples: list[Stack] = []
        for place in places:
            for node in parts_and_pairs(self.layouts[place].root, self.grid):
                if isinstance(node, Leaf):
                    loose.append(node)
                elif pair_settings(node, self.grid)[2] in self.whole.settings:
                    loose.extend(leaves(node))
                else:
                    couples.append(node)
        return loose, couples

    def polish(self, places: Iterable[int]) -> None:
        """Reshape single sheets while that makes the plan better."""
        for place in places:
            self._better([place], [self._opened(self.layouts[place])])
            while self._reshape(place):
                pass

    def open_all(self, places: Iterable[int]) -> None:
        """Leave the rest to the last piece of every series, on the sheets where that is better."""
        for place in places:
            self._better([place], [self._opened(self.layouts[place])])

    def take(self, places: list[int], others: list[SheetLayout]) -> bool:
        """Put other sheets in these places if the plan gets better, reshaped where need be."""
        before, kept = self.whole.rank(), list(self.layouts)
        self.whole.change(
            [self._scored(self.layouts[place]) for place in places], [self._scored(new) for new in others]
        )
        self._put(places, others)
        if self.whole.rank() < before:
            return True
        if len(others) == len(places):
            self.open_all(places)
            if self.whole.rank() >= before:
                self.polish(places)
        if self.whole.rank() < before:
            return True
        self.layouts = kept
        self.whole = job_totals(self.scorer, kept)
        return False

    def _opened(self, layout: SheetLayout) -> SheetLayout:
        return replace(layout, root=with_open_stacks(layout.root, self.grid, self.wanted))

    def _reshape(self, place: int) -> bool:
        now = self.layouts[place]
        free = self.planner.problem.pattern.stages is None
        for tried, other in enumerate(
            neighbour_layouts(now, self.grid, free, self.wanted, self.planner.parameters.reshape_depth)
        ):
            if tried % LOOK == 0 and self.stopped():
                return False
            if layout_fits(self.grid, other) and self._better([place], [other]):
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
