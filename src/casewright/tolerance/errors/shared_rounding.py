"""What rounding adds to sizes that follow the same measurements, and how much of it they have in common.

A shelf and the dado in the divider at its end both follow the width of their bay. If one goes to the mark
above, so as a rule does the other, and the gap between them hardly changes.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from hashlib import blake2s
from math import sqrt

from .causes import Cause, CauseKind, Errors, add, deviation
from .rounded_size import edges_of, rounded, shared_rest

WORTH_KEEPING = 0.01
"""Two sizes whose rests correlate by less have nothing in common of their rounding (our judgement: such a
part is in no gap more than a hundredth of what rounding adds to it)."""

HAIR = 1e-12  # inches: what cancels in exact sums leaves no more than this in floats


@dataclass(frozen=True, slots=True)
class _Unrounded:
    """A size before it is set to a mark: how it errs, by how much in all, where it goes from one mark to the
    next, and how much rounding adds to it."""

    errors: Errors
    deviation: float
    edges: tuple[float, ...]
    step: Fraction
    rest: float


@dataclass(frozen=True, slots=True)
class _Rest:
    """What rounding adds to one size: the sum of `parts`, among them `own`, which no earlier size has."""

    size: _Unrounded
    own: Cause
    parts: Errors


class SharedRounding:
    """The sizes that an error model sets to marks, in the order in which they are asked for.

    What rounding adds to a new one is split into what it has in common with those before it and a cause of
    its own, so that all causes are independent. The split depends on the order; no gap's deviation does. So
    that gaps of one model can be held against those of the next, it goes on from where the last left off.
    """

    def __init__(self, before: SharedRounding | None = None) -> None:
        self._rests: dict[str, _Rest] = dict(before._rests) if before else {}

    def on_marks(self, middle: Fraction, errors: Errors, step: Fraction) -> Errors:
        """The error left of a size that is set to the nearest multiple of `step`.

        Two sizes alike in their error and in where between two marks they lie are rounded alike, and mirror
        images in opposite ways.
        """
        spread = deviation(errors)
        if spread < HAIR:
            return {}
        after = rounded(middle, spread, step)
        found = {cause: amount * after.follows for cause, amount in errors.items()}
        sign = 1 if min(errors.items(), key=lambda part: part[0].what)[1] > 0 else -1
        upright = {cause: sign * amount for cause, amount in errors.items()}
        add(found, self._rest(sign * middle % step, upright, step, after.rest), sign)
        return found

    def _rest(self, middle: Fraction, errors: Errors, step: Fraction, rest: float) -> Errors:
        place = f"{middle} past a mark of {step}"
        same = sorted(f"{amount:.6g} {cause.kind.name} {cause.what}" for cause, amount in errors.items())
        key = _short(place, *same)
        if key not in self._rests:
            spread = deviation(errors)
            size = _Unrounded(errors, spread, tuple(edges_of(middle, spread, step)), step, rest)
            shared = self._in_common(size)
            left = rest**2 - deviation(shared) ** 2
            # A short name: that of a size which follows a rounded one would have that one's in it.
            name = _short(key, *(f"{share:.6g} {cause.what}" for cause, share in shared.items()))
            # As good as nothing of its own is none: later sizes are not to be held against a float's hair.
            alone = sqrt(left) if left > (WORTH_KEEPING * rest) ** 2 else 0.0
            own = Cause(CauseKind.ROUNDING, f"{place}, {name}", alone)
            self._rests[key] = _Rest(size, own, {**shared, own: 1.0})
        return self._rests[key].parts

    def _in_common(self, size: _Unrounded) -> Errors:
        """How much of each earlier size's own cause is in a new one: a row of Cholesky's factorisation."""
        found: dict[Cause, float] = {}
        for earlier in self._rests.values():
            own = earlier.own
            if own.deviation == 0.0:
                continue
            shared = _rests_together(size, earlier.size) - _together(found, earlier.parts)
            if abs(shared) > WORTH_KEEPING * size.rest * own.deviation:
                found[own] = shared / own.deviation**2
        return found


def _rests_together(one: _Unrounded, other: _Unrounded) -> float:
    """The covariance of what rounding adds to two sizes."""
    ratio = _together(one.errors, other.errors) / (one.deviation * other.deviation)
    # What rounding adds to two sizes correlates by no more than the square of what the sizes do.
    if ratio**2 < WORTH_KEEPING:
        return 0.0
    return shared_rest(ratio, one.edges, other.edges) * float(one.step * other.step)


def _together(one: Errors, other: Errors) -> float:
    """The covariance of two errors."""
    return sum(amount * other[cause] * cause.deviation**2 for cause, amount in one.items() if cause in other)


def _short(*texts: str) -> str:
    return blake2s("\n".join(texts).encode(), digest_size=12).hexdigest()
