"""How the plan's numbers follow a size that was measured: by their slopes, and with its errors."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from ...sizes.ledger import Combination, Definition, Given, Greatest, HowMany, Least, Share, Sizes, WholeSteps
from .causes import Cause, Errors, add
from .shared_rounding import SharedRounding

Terms = Iterable[tuple[str, Fraction]]


def slopes(sizes: Sizes, name: str) -> Mapping[str, Fraction]:
    """The slope of every size that follows `name`.

    Exact for sums. A greatest or least follows the one that decides it; a share follows the
    whole in its ratio, its rounding to the mark left out; counts and whole steps do not follow.
    """
    found: dict[str, Fraction] = {name: Fraction(1)}
    for user in sizes.ledger.downstream(frozenset((name,))):
        if user != name:
            slope = _slope(sizes.ledger[user].definition, found, sizes)
            if slope:
                found[user] = slope
    del found[name]
    return found


def _slope(definition: Definition, found: Mapping[str, Fraction], sizes: Sizes) -> Fraction:
    terms = _terms(definition, sizes)
    slope = sum((k * found[name] for name, k in terms if name in found), Fraction(0))
    if isinstance(definition, Share):
        return slope * definition.weights[definition.index] / sum(definition.weights, Fraction(0))
    return slope


def _terms(definition: Definition, sizes: Sizes) -> Terms:
    """The sum that decides a size; nothing for what does not follow smoothly."""
    if isinstance(definition, Combination):
        return definition.form.terms
    if isinstance(definition, Greatest | Least):
        pick = max if isinstance(definition, Greatest) else min
        return pick(definition.forms, key=sizes.of).terms
    if isinstance(definition, Share):
        return definition.whole.terms
    assert isinstance(definition, Given | HowMany | WholeSteps)
    return ()


@dataclass(frozen=True, slots=True)
class FollowedError:
    """How a planned number errs: by any amount (`smooth`), and by whole steps (`stepped`).

    A number that moves by whole steps of the rule is on a mark wherever it lands, so setting it
    to the nearest one adds nothing.
    """

    smooth: Errors
    stepped: Errors

    def whole(self) -> dict[Cause, float]:
        """Both together."""
        found = dict(self.smooth)
        add(found, self.stepped, 1.0)
        return found

    def __bool__(self) -> bool:
        return bool(self.smooth or self.stepped)


UNMOVED = FollowedError({}, {})


def follow(
    sizes: Sizes,
    name: str,
    believed: Mapping[str, FollowedError],
    step: Fraction,
    rounding: SharedRounding,
) -> FollowedError:
    """How a planned size errs, from the errors in what it is derived from; `step` is the rule's."""
    definition = sizes.ledger[name].definition
    found = along(_terms(definition, sizes), believed)
    if not isinstance(definition, Share) or not found:
        return found
    if definition.mark is None:
        ratio = float(definition.weights[definition.index] / definition.all_weights)
        return FollowedError(_scaled(found.whole(), ratio), {})
    # Every share but the last is brought to its mark; the last takes what the others leave.
    last = len(definition.weights) - 1
    if definition.index != last:
        brought = _brought(sizes, definition, definition.index, found, rounding)
        stepped = (definition.mark / step).denominator == 1
        return FollowedError({}, brought) if stepped else FollowedError(brought, {})
    left = found.whole()
    for index in range(last):
        add(left, _brought(sizes, definition, index, found, rounding), -1.0)
    return FollowedError(left, {})


def _brought(
    sizes: Sizes, share: Share, index: int, whole: FollowedError, rounding: SharedRounding
) -> Errors:
    """The error of one share of an erring whole, after it is brought to its mark.

    Rounding down is rounding what is half a mark less to the nearest.
    """
    assert share.mark is not None, "an exact share is brought to no mark"
    ratio = share.weights[index] / share.all_weights
    part = _scaled(whole.whole(), float(ratio))
    middle = sizes.of(share.whole) * ratio - (share.mark / 2 if share.rounded_down else 0)
    return rounding.on_marks(middle, part, share.mark)


def _scaled(errors: Errors, ratio: float) -> Errors:
    return {cause: amount * ratio for cause, amount in errors.items()}


def along(terms: Terms, believed: Mapping[str, FollowedError]) -> FollowedError:
    """How a sum errs, from how its sizes do."""
    smooth: dict[Cause, float] = {}
    stepped: dict[Cause, float] = {}
    for name, k in terms:
        if name in believed:
            add(smooth, believed[name].smooth, float(k))
            add(stepped if k.denominator == 1 else smooth, believed[name].stepped, float(k))
    return FollowedError(smooth, stepped)
