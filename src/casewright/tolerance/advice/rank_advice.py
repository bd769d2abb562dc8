"""Advice: what to do otherwise, ranked by the minutes it saves for each minute it takes.

A change costs minutes now and saves expected minutes at the dry fit: a clamp, an end to ease, a part to cut
again, a gap to fill, over all the gaps that it alters. The best is taken, the others are weighed again as if
it were followed, and so on: no minute is saved twice.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable
from dataclasses import dataclass, replace
from functools import cached_property

from ..outcomes.gap_spread import Fit, GapSpread
from .bench_minutes import bench_minutes
from .change import Change, ChangeKind, touched_by, with_change
from .find_changes import changes_for, made_one

FEW = 6  # pieces of advice that a maker reads; the others are counted

COSTLY = 0.02
"""A gap that is expected to cost less than this many minutes gives no cause for a change (our judgement)."""

MARGIN = 1.5
"""A change must save so many times the minutes it takes: both are estimates (our judgement)."""

AS_GOOD = 0.9
"""Of more and less of the same change, the least that saves this share of the most is advised (our
judgement)."""


@dataclass(frozen=True)
class GapChange:
    """One gap before and after a change."""

    before: GapSpread
    after: GapSpread

    @cached_property
    def saves(self) -> float:
        """By how many minutes its expected cost at the dry fit falls."""
        minutes = bench_minutes()
        return minutes.of(self.before.outcome) - minutes.of(self.after.outcome)


@dataclass(frozen=True)
class Advice:
    """One change with all the gaps it alters, the most improved first. `before` is the fit it is made to."""

    before: Fit
    change: Change
    gaps: tuple[GapChange, ...]

    @property
    def spends(self) -> float:
        """Minutes that the change takes."""
        return self.change.spends

    @cached_property
    def saves(self) -> float:
        """Minutes that it is expected to save at the dry fit."""
        return sum(gap.saves for gap in self.gaps)

    @property
    def pays(self) -> bool:
        """Whether it saves enough beyond what it takes to be worth a sentence."""
        return self.saves >= max(MARGIN * self.spends, self.spends + bench_minutes().least)

    @property
    def rank(self) -> float:
        """Minutes saved for each minute spent; to read and remember it takes one in any case."""
        return self.saves / max(self.spends, bench_minutes().least)

    @property
    def best(self) -> GapChange:
        return self.gaps[0]

    def fewer(self, share: str) -> float:
        """By how many the expected number of joints with an outcome falls: `clamp`, `ease`, `recut` or
        `shown`."""
        fewer: list[float] = [
            getattr(gap.before.outcome, share) - getattr(gap.after.outcome, share) for gap in self.gaps
        ]
        return sum(fewer)


@dataclass(frozen=True)
class AdviceList:
    """The advice worth following, the best first, each as if those before it were followed.

    `others` counts what pays too but is not listed. `after` is the fit with all that is listed, `before`
    and `left` the minutes that the whole job is expected to cost at the dry fit, now and then. `worked`
    counts the gaps that were worked out for it.
    """

    listed: tuple[Advice, ...]
    others: int
    after: Fit
    before: float
    left: float
    worked: int


def advise(fit: Fit, kinds: Iterable[ChangeKind] = tuple(ChangeKind), most: int = FEW) -> AdviceList:
    """What to do otherwise in the whole job, the best first: of `kinds`, and no more than `most`."""
    minutes = bench_minutes()
    before = minutes.of_all(fit.spreads.values())
    weighing = _Weighing(fit, frozenset(kinds))
    listed: list[Advice] = []
    while len(listed) < most and (best := weighing.best()):
        listed.append(best)
        weighing.follow(best)
    now = weighing.fit
    others = weighing.how_many() if len(listed) == most else 0
    left = minutes.of_all(now.spreads.values())
    return AdviceList(tuple(listed), others, now, before, left, weighing.worked)


class _Weighing:
    """What could still be changed, each change weighed against the fit as it then is."""

    def __init__(self, fit: Fit, kinds: frozenset[ChangeKind]) -> None:
        self.fit = fit
        self.worked = 0
        self._kinds = kinds
        minutes = bench_minutes()
        self._cost = {name: minutes.of(spread.outcome) for name, spread in fit.spreads.items()}
        self._open = self._find()
        self._weighed: dict[Hashable, Advice] = {}
        self._followed: list[Change] = []

    def best(self) -> Advice | None:
        """The change that saves the most for each minute; none where nothing pays."""
        paying = self._paying()
        best = max(paying, key=lambda one: one.rank, default=None)
        if best is None:
            return None
        # More play than needed is no better advice: the least that does it is.
        alike = [one for one in paying if _same_thing(one.change, best.change)]
        return min((one for one in alike if one.saves >= AS_GOOD * best.saves), key=_amount)

    def how_many(self) -> int:
        """How many changes pay."""
        return len({(one.change.kind, one.change.sizes) for one in self._paying()})

    def follow(self, advice: Advice) -> None:
        """Go on from the fit in which the advice is followed."""
        change = advice.change
        before, self.fit = self.fit, self._with(change)
        altered = {gap.before.gap.name for gap in advice.gaps}
        for gap in advice.gaps:
            self._cost[gap.after.gap.name] = bench_minutes().of(gap.after.outcome)
        self._followed.append(change)
        # With another play, channels have other widths, and some another way of cutting them.
        still = self._find() if change.inputs else self._open
        self._open = {
            key: one
            for key, one in still.items()
            if not any(_same_thing(one, done) for done in self._followed)
        }
        self._weighed = {
            key: one
            for key, one in self._weighed.items()
            if self._open.get(key) == one.change and altered.isdisjoint(touched_by(before, one.change))
        }

    def _find(self) -> dict[Hashable, Change]:
        """What could be changed in the fit as it is: of each change, the parts that are worth it."""
        costly = [spread for name, spread in self.fit.spreads.items() if self._cost[name] > COSTLY]
        found: dict[Hashable, Change] = {}
        for key, parts in changes_for(self.fit, costly, self._kinds).items():
            worth = [part for part in parts if self._may_pay(part)]
            if len(parts) > 1:
                worth = [part for part in worth if (one := self._weigh(part)).saves > one.spends]
            if worth:
                found[key] = made_one(self.fit, worth)
        return found

    def _paying(self) -> list[Advice]:
        for key, change in self._open.items():
            if key not in self._weighed and self._may_pay(change):
                self._weighed[key] = self._weigh(change)
        return [one for one in self._weighed.values() if one.pays]

    def _may_pay(self, change: Change) -> bool:
        """Whether the change could pay if it did all that it can: a bound that needs no error model."""
        most = 0.0
        for name in touched_by(self.fit, change):
            most += self._cost[name]
            if change.lessens and self._cost[name]:
                spread = self.fit.spreads[name]
                kept = {
                    cause: share
                    for cause, share in spread.errors.items()
                    if (cause.kind, cause.what) not in change.lessens
                }
                most -= min(self._cost[name], bench_minutes().of(replace(spread, errors=kept).outcome))
        return most > change.spends

    def _weigh(self, change: Change) -> Advice:
        after = self._with(change)
        gaps = [
            GapChange(spread, after.spreads[name])
            for name, spread in self.fit.spreads.items()
            if after.spreads[name] is not spread
        ]
        gaps.sort(key=lambda gap: -gap.saves)
        return Advice(self.fit, change, tuple(gaps))

    def _with(self, change: Change) -> Fit:
        after = with_change(self.fit, change)
        self.worked += after.worked
        return after


def _same_thing(one: Change, other: Change) -> bool:
    """Whether two changes do the same, if not by the same amount."""
    return (one.kind, one.sizes) == (other.kind, other.sizes)


def _amount(advice: Advice) -> float:
    """How much an input is changed by; the least comes first."""
    sizes = advice.before.project.sizes
    return sum(abs(float(value - sizes.of(name))) for name, value in advice.change.inputs.items())
