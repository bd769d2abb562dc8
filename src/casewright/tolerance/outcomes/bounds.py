"""The limits of a gap as numbers, and what lies beyond each of them when the gap is normal."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from statistics import NormalDist

from ...sizes.ledger import Sizes
from ..chains.limits import GapLimits
from .outcome import Outcome

STANDARD = NormalDist()


@dataclass(frozen=True, slots=True)
class Bounds:
    """The limits of a gap as numbers, in inches; None where the outcome never changes (see `GapLimits`)."""

    again_low: Fraction | None
    ease: Fraction | None
    hand: Fraction | None
    ease_high: Fraction | None
    again_high: Fraction | None
    shown_low: Fraction | None
    shown_high: Fraction | None

    @property
    def low(self) -> Fraction | None:
        """Below this there is something to do, or something shows."""
        return _greatest(self.again_low, self.ease, self.shown_low)

    @property
    def low_by_hand(self) -> Fraction | None:
        """Below this it does not go together by hand, or something shows."""
        return _greatest(self.low, self.hand)

    @property
    def high(self) -> Fraction | None:
        """Above this there is something to do, or something shows."""
        return min(
            (one for one in (self.ease_high, self.again_high, self.shown_high) if one is not None),
            default=None,
        )


def bounds_of(limits: GapLimits, sizes: Sizes) -> Bounds:
    """The limits with the ledger's values."""
    every = (getattr(limits, name) for name in Bounds.__slots__)
    return Bounds(*(None if one is None else sizes.of(one) for one in every))


@dataclass(frozen=True, slots=True)
class NormalGap:
    """A gap's mean and standard deviation, in inches."""

    mean: float
    deviation: float

    def below(self, limit: Fraction | None) -> float:
        """The chance of a gap below the limit."""
        return 0.0 if limit is None else _below(float(limit), self.mean, self.deviation)

    def above(self, limit: Fraction | None) -> float:
        """The chance of a gap above the limit."""
        return 0.0 if limit is None else _below(-float(limit), -self.mean, self.deviation)

    def tails(self, bounds: Bounds) -> Tails:
        """What lies beyond each limit, on either side."""
        low = [self.below(one) for one in (bounds.again_low, bounds.ease, bounds.hand)]
        # A limit that is None is never passed, so what lies beyond the next one counts for it.
        again, ease, clamp = low[0], max(low[:2]), max(low)
        recut = self.above(bounds.again_high)
        return Tails(clamp - ease, ease - again, again, max(0.0, self.above(bounds.ease_high) - recut), recut)

    def outcome(self, bounds: Bounds) -> Outcome:
        """What happens at the dry fit."""
        tails = self.tails(bounds)
        ease, recut = tails.ease + tails.ease_high, tails.recut + tails.recut_high
        return Outcome(
            by_hand=max(0.0, 1.0 - tails.clamp - ease - recut),
            clamp=tails.clamp,
            shown=min(1.0, self.below(bounds.shown_low) + self.above(bounds.shown_high)),
            ease=ease,
            recut=recut,
        )


@dataclass(frozen=True, slots=True)
class Tails:
    """The shares of a gap's outcomes with the side they lie on: too tight, or (`_high`) too open."""

    clamp: float
    ease: float
    recut: float
    ease_high: float
    recut_high: float


def _greatest(*limits: Fraction | None) -> Fraction | None:
    return max((one for one in limits if one is not None), default=None)


def _below(limit: float, mean: float, deviation: float) -> float:
    if deviation == 0.0:
        return 1.0 if mean < limit else 0.0
    return STANDARD.cdf((limit - mean) / deviation)
