"""The lower bound by column generation, in steps, so that the search can go on in between.

P. C. Gilmore, R. E. Gomory: A linear programming approach to the cutting stock problem. Operations
Research 9 (1961). From any duals a bound follows (A. A. Farley: A note on bounding a class of linear
programming problems, including cutting stock problems. Operations Research 38, 1990), so nothing has to
wait for convergence.

Pricing asks for the most valuable guillotine pattern of a bin, and it is hard only because no item may be
used more often than it is asked for. So that rule comes in by stages. `RELAXED`: patterns may hold an item
any number of times; pricing is one table. `COUNTED`: the kinds that the LP's patterns hold too often are
counted, more and more of them (state-space relaxation made finer step by step: G. Righini, M. Salani: New
dynamic programming algorithms for the resource constrained elementary shortest path problem. Networks 51,
2008). `EXACT`: all are (assemble.c). A narrow search finds columns. When it finds no more, an exhaustive one
with a limit on its work tries to prove that there are none, at the master's duals or on the way to them from
the best duals so far, the centre: close to the centre a proof is much easier, and often enough for the next
whole bin (in-out separation: W. Ben-Ameur, J. Neto: Acceleration of cutting-plane and column generation
algorithms. Networks 49, 2007).
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum

import numpy as np
from numpy.typing import NDArray

from ..parameters import DEFAULT_PARAMETERS, PricingEffort, SearchParameters
from .columns import Column, Counts, ItemKinds
from .instance import Instance
from .master_problem import MasterProblem, Relaxation
from .pricing import LARGEST_WHOLE, Duals, IntegerDuals, Pricer, integer_duals
from .quick_bounds import dual_feasible_worths
from .work_count import Count, uncounted

CLOSE = 1e-7
"""Relative to a price: a reduced cost smaller than this counts as zero."""


class GenerationStage(Enum):
    RELAXED = "unbounded patterns"
    COUNTED = "patterns with some items bounded"
    EXACT = "bounded patterns"
    DONE = "done"


@dataclass(frozen=True, slots=True)
class DualPoint:
    """A dual solution: prices of the items and of the bins in limited stock."""

    items: Duals
    stock: Duals

    def towards(self, other: DualPoint, share: float) -> DualPoint:
        return DualPoint(
            (1 - share) * self.items + share * other.items, (1 - share) * self.stock + share * other.stock
        )


class ColumnGeneration:
    """Raises a proved lower bound on the cost step by step, and gathers columns for plans on the way."""

    def __init__(
        self,
        instance: Instance,
        kinds: ItemKinds,
        parameters: SearchParameters = DEFAULT_PARAMETERS,
        count: Count = uncounted,
    ) -> None:
        self._parameters = parameters
        self._count_work = count
        self._bins = instance.bins
        self._demand = kinds.demand
        self._limited = np.array([bin_.count is not None for bin_ in instance.bins])
        self._stock = np.array([bin_.count or 0 for bin_ in instance.bins], dtype=np.float64)
        self._prices = np.array([bin_.price for bin_ in instance.bins], dtype=np.float64)
        self.grain = math.gcd(*(bin_.price for bin_ in instance.bins)) or 1
        self._dearest = float(max(1.0, self._prices.max()))
        self._pricers = [
            Pricer(kinds, number, bin_, parameters, count=count) for number, bin_ in enumerate(instance.bins)
        ]
        self._unseen = np.any([pricer.unseen for pricer in self._pricers], axis=0)
        self._scale = 2.0**19 / self._dearest
        self._relaxed = MasterProblem(self._demand, instance.bins, count)
        self._critical: tuple[int, ...] = ()
        self.master = MasterProblem(self._demand, instance.bins, count)
        self._centre: DualPoint | None = None
        self._attempts = self._steps = 0
        self._value = 0.0
        self._starts = self._first_points(kinds)
        self.stage = GenerationStage.RELAXED
        self.relaxation: Relaxation | None = None

    @property
    def work(self) -> int:
        """Additions for the tables of one step, before the exact stage."""
        return self._work_counting(self._critical)

    def _work_counting(self, critical: tuple[int, ...]) -> int:
        return max(1, sum(pricer.work_counting(critical) for pricer in self._pricers))

    @property
    def cost(self) -> int:
        """The bound: no plan costs less. Costs are multiples of `grain`, so it is rounded up to one."""
        return math.ceil(self._value / self.grain - 1e-6) * self.grain

    def learn(self, columns: list[Column]) -> None:
        """Add the columns of a plan found elsewhere to both masters."""
        for column in columns:
            self._relaxed.add(column)
            self.master.add(column)

    def step(self, target: int, seconds: float | None = None) -> None:
        """Solve the master once and price once. `target` is the most that a better plan may cost, which the
        bound is to pass; `seconds` is about how long it may take (None: only iterations are counted)."""
        if self.stage is GenerationStage.EXACT:
            self._exact_step(target, seconds)
        elif self.stage is not GenerationStage.DONE:
            self._relaxed_step(target)

    def _first_points(self, kinds: ItemKinds) -> list[DualPoint]:
        """Duals that come free with the quick bounds: areas, and dual feasible functions. They save few
        steps, but a bound is there at once."""
        none = np.zeros(len(self._bins))
        areas = np.array([float(item.area) for item in kinds.item])
        points = [areas * min(bin_.price / bin_.area for bin_ in self._bins)]
        largest = max(self._bins, key=lambda b: b.area)
        if all(b.length <= largest.length and b.width <= largest.width for b in self._bins):
            points.append(dual_feasible_worths(kinds.item, largest) * float(self._prices.min()))
        return [DualPoint(np.where(self._unseen, 0.0, point), none) for point in points]

    # ---- relaxed pricing: patterns may exceed the demand, of all kinds or of some

    def _relaxed_step(self, target: int) -> None:
        if self._starts:
            start = self._starts.pop()
            self._note(start, self._tables(start, Pricer.best))
            return
        found = self._relaxed.solve()
        if found is None:
            self.stage = GenerationStage.DONE
            return
        point = self._point(found)
        # The LP's duals swing widely at first. A point between them and the best so far gives better columns
        # and a better bound; only if it gives no column are the LP's own duals priced.
        trials = [point]
        if self._centre is not None:
            trials.insert(0, self._centre.towards(point, self._parameters.relaxed_smoothing))
        gained = False
        for trial in trials:
            worths = self._tables(trial, Pricer.best_counting)
            self._note(trial, worths)
            for pricer, worth in zip(self._pricers, worths, strict=True):
                limit = (self._prices + point.stock)[pricer.number]
                if worth <= self._prices[pricer.number]:
                    continue
                for column in pricer.patterns(self._prices[pricer.number] * self._scale):
                    if float(column.counts @ point.items) <= limit * (1 + CLOSE):
                        continue
                    gained |= self._relaxed.add(column)
                    if pricer.faithful and bool((column.counts <= self._demand).all()):
                        self.master.add(column)
            if gained:
                break
        hopeless = found.cost <= target + CLOSE
        relaxed = self.stage is GenerationStage.RELAXED
        near = self._parameters.relaxed_gap if relaxed else self._parameters.counted_gap
        if not gained or (hopeless and found.cost - self._value < near * self._dearest):
            self._count_more(found)

    def _count_more(self, found: Relaxation) -> None:
        """Count more kinds: those of which the LP's columns hold too many, by the value of the surplus.

        Columns that hold too many of them are dropped. When no kind qualifies, or counting it would be too
        much work (each multiplies the table), the exact stage begins.
        """
        over = np.zeros(len(self._demand))
        for column, times in zip(self._relaxed.columns, self._relaxed.values(), strict=True):
            if times > CLOSE:
                over += times * np.maximum(column.counts - self._demand, 0) * found.duals
        critical = self._critical
        for kind in np.argsort(-over, kind="stable")[: 1 + len(critical) // 3].tolist():
            if over[kind] > CLOSE and self._work_counting((*critical, kind)) <= self._parameters.counted_work:
                critical = (*critical, kind)
        if critical == self._critical:
            self.stage = GenerationStage.EXACT
            self._count(())
            return
        self.stage = GenerationStage.COUNTED
        self._count(critical)
        places = list(critical)
        within = MasterProblem(self._demand, self._bins, self._count_work)
        for column in self._relaxed.columns:
            if bool((column.counts[places] <= self._demand[places]).all()):
                within.add(column)
        self._relaxed = within

    def _count(self, critical: tuple[int, ...]) -> None:
        self._critical = critical
        for pricer in self._pricers:
            pricer.count(critical)

    def _point(self, found: Relaxation) -> DualPoint:
        return DualPoint(np.where(self._unseen, 0.0, found.duals), found.stock)

    def _tables(self, point: DualPoint, best: Callable[[Pricer, IntegerDuals], float]) -> list[float]:
        """The most that a pattern of each bin is worth under these duals, in money.

        Duals become whole numbers for the tables, so that the bound has no rounding in it. They are scaled
        down while a bin is worth more than floats hold exactly.
        """
        while True:
            worths = integer_duals(point.items, self._scale)
            most = [best(pricer, worths) for pricer in self._pricers]
            if max(most) < LARGEST_WHOLE:
                return [worths.money(value) for value in most]
            self._scale /= 2

    def _rounded(self, point: DualPoint) -> Duals:
        """The duals as the tables saw them, rounded."""
        return integer_duals(point.items, self._scale).whole.astype(np.float64) / self._scale

    def _note(self, point: DualPoint, worths: list[float]) -> None:
        """Keep the bound that follows from duals and the most a bin is worth under them (Farley's).

        Where a bin is worth more than its price, all duals shrink until it is not: they are then feasible,
        and the value of the demand under them is a bound. Bins in limited stock may instead have a stock
        price.
        """
        free = ~self._limited & (np.array(worths) > self._prices)
        shrink = float(min(1.0, *(self._prices[free] / np.array(worths)[free]), 1.0))
        items = self._rounded(point) * shrink
        stock = np.where(self._limited, np.maximum(0.0, shrink * np.array(worths) - self._prices), 0.0)
        self._improve(DualPoint(items, stock))

    def _improve(self, feasible: DualPoint) -> None:
        value = self._worth_of_plan(feasible)
        if value > self._value or self._centre is None:
            self._value = max(self._value, value)
            self._centre = feasible

    def _worth_of_plan(self, feasible: DualPoint) -> float:
        return float(feasible.items @ self._demand - feasible.stock @ self._stock)

    # ---- exact pricing: patterns within the demand

    def _exact_step(self, target: int, seconds: float | None) -> None:
        found = self.master.solve()
        if found is None or self._centre is None:
            self.stage = GenerationStage.DONE
            return
        self.relaxation = found
        goal = self._point(found)
        needed = self._needed(found.cost, target)
        self._steps += 1
        early = needed is not None and needed <= self._parameters.early_proof_reach
        if not early or self._steps % self._parameters.early_proof_interval:
            points = (self._centre.towards(goal, share) for share in (self._parameters.exact_smoothing, 1.0))
            if any(self._quick_columns(point, self.master) for point in points):
                self._attempts = 0
                return
        efforts = self._parameters.exact_efforts
        share = 1.0 if needed is None or self._attempts % 2 else needed
        effort = efforts[self._attempts // 2].shared(len(self._pricers))
        point = self._centre.towards(goal, share)
        gained, complete = self._exact_columns(point, self._parameters.within(effort, seconds))
        self._attempts = 0 if gained else self._attempts + (2 if needed is None else 1)
        if (complete and not gained and share == 1.0) or self._attempts >= 2 * len(efforts):
            self.stage = GenerationStage.DONE

    def _needed(self, master_cost: float, target: int) -> float | None:
        """How far from the centre towards the master's duals a proof must reach to show the best plan
        optimal, as a share of the way; None if even the master's cost is too low for that."""
        goal = target + CLOSE * self._dearest
        if master_cost <= goal:
            return None
        needed = 0.01 + 1.02 * (goal - self._value) / (master_cost - self._value)
        return needed if needed < 1.0 else None

    def _exact_columns(self, point: DualPoint, effort: PricingEffort) -> tuple[bool, bool]:
        """Add columns that are worth more than their price at the point, and raise the bound as far as
        proved.

        Returns whether there were any, and whether none was missed.
        """
        self._tables(point, Pricer.best)
        gained, complete, shrink = False, True, 1.0
        worths = []
        for pricer in self._pricers:
            limit = (self._prices + point.stock)[pricer.number] * self._scale
            ask = math.ceil(limit) + 1.0  # so that columns of the master do not come again by rounding
            shrink = min(shrink, limit / ask)
            columns, exact = pricer.columns(ask, effort)
            worths.append(pricer.most / self._scale)
            complete &= exact
            for column in columns:
                gained |= self.master.add(column)
        if complete and not gained:
            self._centre = DualPoint(self._rounded(point) * shrink, point.stock)
            self._improve(self._centre)
        else:
            self._note(point, worths)
        return gained, complete

    def _quick_columns(self, point: DualPoint, master: MasterProblem) -> bool:
        """Add columns worth more than their price there that a narrow search finds; whether there were
        any."""
        self._tables(point, Pricer.best)
        gained = False
        for pricer in self._pricers:
            ask = math.ceil((self._prices + point.stock)[pricer.number] * self._scale) + 1.0
            columns, _ = pricer.columns(ask, self._parameters.narrow_effort)
            for column in columns:
                gained |= master.add(column)
        return gained

    def columns_for(self, found: Relaxation, left: Counts, master: MasterProblem) -> bool:
        """Add columns within the demand left that improve this LP, by a narrow search; whether there were
        any."""
        point = self._point(found)
        for pricer in self._pricers:
            pricer.allow(left)
        gained = self._quick_columns(point, master)
        for pricer in self._pricers:
            pricer.allow(self._demand)
        return gained

    def worthy(self) -> NDArray[np.bool_]:
        """Which kinds have a positive price in the best duals."""
        assert self._centre is not None
        return self._rounded(self._centre) > 0

    def enumerate(self, target: int, effort: PricingEffort) -> tuple[list[Column], bool]:
        """Every column that a plan of `target` at most can use, and whether none was missed.

        Reduced-cost fixing: against the centre's duals, the columns of such a plan together lose no more than
        the gap between the bound and the target, so no single column loses more.
        """
        assert self._centre is not None
        gap = target - self._worth_of_plan(self._centre)
        self._tables(self._centre, Pricer.best)
        found: list[Column] = []
        complete = True
        for pricer in self._pricers:
            limit = (self._prices + self._centre.stock)[pricer.number]
            ask = max(0.0, math.floor((limit - gap) * self._scale) - len(self._demand) - 1.0)
            columns, exact = pricer.all_columns(ask, effort)
            complete &= exact and ask > 0
            found += columns
        return found, complete
