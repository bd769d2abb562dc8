"""The incumbent of the second phase: the best plan so far, and the judge of every change to it."""

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
from ..parameters import WorkKind
from .part_pairs import pair_settings, parts_and_pairs
from .reshape import neighbour_layouts, with_open_stacks

LOOK = 16
"""Neighbours of a sheet tried between two looks at the stop rule: reading a clock takes time too."""


class Incumbent:
    """The sheets as they stand. A change that the goals call better is kept, any other is undone.

    `orientations` says of each item whether it should be turned so that parts share settings (None: it may
    not be turned); `turn_groups` lists the items that may be rotated together; `own_settings` are the
    settings that bring every part to size in these orientations.
    """

    def __init__(self, best: BestPlan, stop: Stop) -> None:
        self.best = best
        self.grid = best.grid
        self.scorer = best.scorer
        self.layouts = list(best.layouts)
        self.whole = job_totals(self.scorer, self.layouts)
        self.orientations = common_orientations(self.grid)
        self.turn_groups = turn_groups(best.problem)
        self.own_settings = own_settings(self.grid, self.orientations)
        self.work = 0
        self._stop = stop
        self.count = stop.count

    def stopped(self) -> bool:
        return self._stop(Progress(self.work, None, 0))

    def offer(self) -> None:
        """Report the plan as it stands, if it is better than the last one reported."""
        self.best.offer_ready(list(self.layouts), self.best.missing)

    def cost(self, places: Iterable[int]) -> Fraction:
        return sum((self.grid.bins[self.layouts[place].bin].cost for place in places), Fraction(0))

    def oriented(self, leaf: Leaf) -> Leaf:
        """The part in the orientation in which parts share settings."""
        return Leaf(leaf.item, self.orientations[leaf.item] is True)

    def content(self, places: Iterable[int]) -> tuple[list[Leaf], list[Stack]]:
        """The single parts on these sheets, and the pairs that save a setting; other pairs count as single
        parts."""
        loose: list[Leaf] = []
        part_pairs: list[Stack] = []
        for place in places:
            for node in parts_and_pairs(self.layouts[place].root, self.grid):
                if isinstance(node, Leaf):
                    loose.append(node)
                elif pair_settings(node, self.grid)[2] in self.whole.settings:
                    loose.extend(leaves(node))
                else:
                    part_pairs.append(node)
        return loose, part_pairs

    def polish(self, places: Iterable[int]) -> None:
        """Recut single sheets while that makes the plan better (hill climbing, first improvement)."""
        for place in places:
            self._better([place], [self._opened(self.layouts[place])])
            while self._reshape(place):
                pass

    def open_all(self, places: Iterable[int]) -> None:
        """On each of these sheets, let the last piece of every series keep what is left, where that is
        better."""
        for place in places:
            self._better([place], [self._opened(self.layouts[place])])

    def take(self, places: list[int], others: list[SheetLayout]) -> bool:
        """Put other sheets in these places if the plan gets better, as they are or once recut.

        A refilled sheet is raw: it may need more settings than the one it replaces only because no series
        of cuts has been opened yet. So it is recut before it is judged, the cheap way first.
        """
        before, kept = self.whole.rank(), list(self.layouts)
        self.whole.change(
            [self._scored(self.layouts[place]) for place in places], [self._scored(new) for new in others]
        )
        self._put(places, others)
        self.count(WorkKind.TAKEN, len(self.layouts) + 5)
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
        return replace(layout, root=with_open_stacks(layout.root, self.grid, self.own_settings))

    def _reshape(self, place: int) -> bool:
        now = self.layouts[place]
        parts = sum(1 for _ in leaves(now.root))
        free = self.best.problem.pattern.stages is None
        for tried, other in enumerate(
            neighbour_layouts(now, self.grid, free, self.own_settings, self.best.parameters.reshape_depth)
        ):
            self.count(WorkKind.NEIGHBOUR, parts + 10)
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
