"""How later sizes follow a measured one: the slopes of everything that is derived from it."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from fractions import Fraction

from ..measure.ledger import Definition, Formed, Given, Greatest, HowMany, Least, Share, Sizes, WholeSteps


def slopes(sizes: Sizes, name: str, held: Collection[str] = ()) -> Mapping[str, Fraction]:
    """The slope of every size that follows `name`. What follows one of `held` follows its reading.

    Exact for sums. A greatest or least follows the one that decides it; a share follows the
    whole in its ratio, its rounding to the mark left out; counts and whole steps do not follow.
    """
    ledger = sizes.ledger
    moving: dict[str, Fraction] = {name: Fraction(1)}
    found: dict[str, Fraction] = {}
    for user in ledger.downstream(frozenset((name,))):
        if user == name:
            continue
        slope = _slope(ledger[user].definition, moving, sizes)
        if slope:
            found[user] = slope
            if user not in held:
                moving[user] = slope
    return found


def _slope(definition: Definition, found: Mapping[str, Fraction], sizes: Sizes) -> Fraction:
    if isinstance(definition, Formed):
        return _along(definition.form.terms, found)
    if isinstance(definition, Greatest | Least):
        pick = max if isinstance(definition, Greatest) else min
        return _along(pick(definition.forms, key=sizes.of).terms, found)
    if isinstance(definition, Share):
        part = definition.weights[definition.index] / sum(definition.weights, Fraction(0))
        return part * _along(definition.whole.terms, found)
    assert isinstance(definition, Given | HowMany | WholeSteps)
    return Fraction(0)


def _along(terms: tuple[tuple[str, Fraction], ...], found: Mapping[str, Fraction]) -> Fraction:
    return sum((k * found[name] for name, k in terms if name in found), Fraction(0))
