"""Tiny instances solved by trying everything, with nothing of the solver."""

from __future__ import annotations

from functools import cache

from casewright.planner.engine import Instance

Shape = tuple[int, int]


class Exhaustive:
    """All ways to build rectangles of subsets of the copies, edge to edge; then the cheapest bins."""

    def __init__(self, instance: Instance) -> None:
        self._instance = instance
        self._copies = [item for item in instance.items for _ in range(item.count)]
        self.shapes = cache(self._shapes)

    def _shapes(self, subset: int) -> frozenset[Shape]:
        """Every bounding size in which the subset (a bit for each copy) can be built."""
        first = subset & -subset
        if subset == first:
            item = self._copies[first.bit_length() - 1]
            upright = {(item.length, item.width)}
            return frozenset(upright | ({(item.width, item.length)} if item.may_turn else set()))
        found: set[Shape] = set()
        part = subset & (subset - 1)
        while part:
            if not part & first:
                for a in self.shapes(subset ^ part):
                    for b in self.shapes(part):
                        found.add((a[0] + b[0], max(a[1], b[1])))
                        found.add((max(a[0], b[0]), a[1] + b[1]))
            part = (part - 1) & subset
        return frozenset(found)

    def fits(self, subset: int) -> bool:
        (box,) = self._instance.bins
        return any(length <= box.length and width <= box.width for length, width in self.shapes(subset))

    def bins(self) -> int:
        """Least number of bins; the instance has one kind."""
        everything = (1 << len(self._copies)) - 1

        @cache
        def least(left: int) -> int:
            if not left:
                return 0
            first = left & -left
            best = len(self._copies)
            part = left
            while part:
                if part & first and self.fits(part):
                    best = min(best, 1 + least(left ^ part))
                part = (part - 1) & left
            return best

        return least(everything)

    def most_worth(self, worth: list[float]) -> float:
        """The most that the copies in one bin are worth; `worth` is by item."""
        by_copy = [w for item, w in zip(self._instance.items, worth, strict=True) for _ in range(item.count)]
        return max(
            sum(w for place, w in enumerate(by_copy) if subset >> place & 1)
            for subset in range(1 << len(by_copy))
            if subset == 0 or self.fits(subset)
        )
