"""A dado stack packed to a width from the chippers and shims on the shelf, by exact search."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import product

from ...shop.machines import DadoStack

MOST_SHIMS = 4  # more than these do not lie flat between the chippers: common practice, no source


@dataclass(frozen=True, slots=True)
class Packing:
    """Two outside cutters with these chippers and shims between them; `width` is what it cuts."""

    outside: Fraction
    chippers: tuple[Fraction, ...]
    shims: tuple[Fraction, ...]

    @property
    def width(self) -> Fraction:
        return 2 * self.outside + sum(self.chippers) + sum(self.shims)

    @property
    def pieces(self) -> int:
        return len(self.chippers) + len(self.shims)


@dataclass(frozen=True, slots=True)
class NearestPackings:
    """The packings closest to a `target` width: `under` it (or at it), and `over` it.

    None where the shop's chippers and shims give none, or it is too wide for the arbor.
    """

    target: Fraction
    under: Packing | None
    over: Packing | None

    @property
    def exact(self) -> bool:
        return self.under is not None and self.under.width == self.target

    def fit(self, thickness: Fraction) -> Packing | None:
        """The closest packing that still lets a panel of `thickness` in; None where none does."""
        fitting = [p for p in (self.under, self.over) if p is not None and p.width >= thickness]
        return min(fitting, key=lambda p: (abs(p.width - self.target), p.width), default=None)


def pack(stack: DadoStack, target: Fraction) -> NearestPackings:
    """The packings of `stack` nearest to `target` from below and from above.

    Every choice of chippers is combined with every choice of at most four shims; among equal
    widths the fewest shims, then the fewest pieces.
    """
    shims = _sums(stack.shims, MOST_SHIMS)
    shim_sums = sorted(shims)
    under: Packing | None = None
    over: Packing | None = None
    for chipper_sum, chippers in _sums(stack.chippers, len(stack.chippers)).items():
        bare = 2 * stack.outside + chipper_sum
        below = bisect_right(shim_sums, min(target, stack.greatest) - bare) - 1
        if below >= 0:
            under = _better(Packing(stack.outside, chippers, shims[shim_sums[below]]), under, target)
        above = bisect_left(shim_sums, target - bare)
        if above < len(shim_sums) and bare + shim_sums[above] <= stack.greatest:
            over = _better(Packing(stack.outside, chippers, shims[shim_sums[above]]), over, target)
    return NearestPackings(target, under, over)


def _better(one: Packing, other: Packing | None, target: Fraction) -> Packing:
    if other is None:
        return one
    return min(one, other, key=lambda p: (abs(p.width - target), len(p.shims), p.pieces, p.shims))


def _sums(values: Sequence[Fraction], most: int) -> dict[Fraction, tuple[Fraction, ...]]:
    """Every sum of at most `most` of `values`, with the fewest pieces that make it."""
    kinds = sorted(Counter(values).items(), reverse=True)
    best: dict[Fraction, tuple[Fraction, ...]] = {Fraction(0): ()}
    for value, count in kinds:
        taken = dict(best)
        for (total, pieces), times in product(best.items(), range(1, min(count, most) + 1)):
            if len(pieces) + times <= most:
                _keep(taken, total + times * value, pieces + (value,) * times)
        best = taken
    return best


def _keep(sums: dict[Fraction, tuple[Fraction, ...]], total: Fraction, pieces: tuple[Fraction, ...]) -> None:
    known = sums.get(total)
    if known is None or (len(pieces), pieces) < (len(known), known):
        sums[total] = pieces
