"""The fewest measurements that bring every gap under the maker's limit: what, when, with which tool.

For each gap at risk, every set of up to three measurements that bear on it is tried in the error
model, and the smallest sets that suffice are kept. Choosing the fewest measurements that contain
one such set for every gap is a covering problem, solved to proof by HiGHS. The choice is then
checked as a whole; where measurements taken together make a gap worse, that combination is
forbidden and the problem solved again. Identical cases are solved once.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from itertools import combinations

from ...casework.size_names import thickness_of
from ...shop.measuring_tools import MeasuringTool
from ...solver import Solver
from ..chains.made_sizes import SizeKind
from ..errors.causes import CauseKind, tool_for
from ..errors.error_model import ErrorModel
from ..errors.way_of_working import FittedSize, Method
from ..outcomes.gap_spread import Fit, GapSpread, spread_of
from ..tolerance_wording import parts_text, sizes_text
from .method_changes import last_made

MOST_TOGETHER = 3
MOST_FOR_A_GAP = 9  # candidates tried in combination: those that help most
ROUNDS = 12


@dataclass(frozen=True, slots=True)
class Measurement:
    """One thing to measure. `what` is a size, a sheet's thickness or a setting; `when` in words."""

    what: str
    text: str
    when: str
    tool: MeasuringTool
    fits: str = ""  # the gap whose space is measured, where a size is cut to fit it
    proves: bool = False  # a test piece, rather than a part

    def added_to(self, method: Method) -> Method:
        """The way of working with this measurement added."""
        if self.fits:
            return method.with_fitted(self.what, FittedSize(self.fits, self.tool))
        if self.proves:
            return method.with_proved(frozenset((self.what,)))
        return method.with_measured(self.what, self.tool)


@dataclass(frozen=True)
class MeasuringPlan:
    """What to measure, and the fit when it is done.

    `open` are the gaps left above the limit: those that no three measurements bring under it,
    each as near as the best of them gets, and any that cannot be had together with the others.
    `fewest` tells whether fewer were proved not to be enough.
    """

    measurements: tuple[Measurement, ...]
    fit: Fit
    open: tuple[GapSpread, ...]
    fewest: bool


def plan_measurements(fit: Fit, limit: float = 0.01) -> MeasuringPlan:
    """The fewest measurements that bring every gap's chance of failing to `limit`, where they can."""
    risky = fit.at_risk(limit)
    groups = _alike(fit, risky)
    sets: dict[str, tuple[frozenset[Measurement], ...]] = {}
    weights: dict[Measurement, int] = {}
    models: dict[frozenset[Measurement], ErrorModel] = {}
    open_: list[GapSpread] = []
    for places in groups:
        here = [spread for spread in risky if spread.gap.place == places[0]]
        # A size fitted to one gap may serve another as well, so each is tried on all.
        pool = tuple(dict.fromkeys(one for spread in here for one in _candidates(fit, spread)))
        for spread in here:
            enough, nearest = _enough(fit, spread, pool, limit, models)
            if not enough:
                names = [_renamed(spread.gap.name, places[0], place) for place in places]
                open_.extend(replace(nearest, gap=fit.gaps[name]) for name in names)
            sets[spread.gap.name] = enough
            used = frozenset().union(*enough)
            # In the order of the pool: a set's own order differs from process to process, and with it would
            # the order of the answer.
            for one in (one for one in pool if one in used):
                weights[one] = len(places) if _case_of(fit, one) else 1
    needed = {name: enough for name, enough in sets.items() if enough}
    chosen, fewest = _choose(fit, needed, weights, limit)
    every = dict.fromkeys(copy for one in chosen for copy in _copies(fit, one, groups))
    after = _with(fit, every)
    missed_too = {name for name in after.spreads if after.spreads[name].chance > limit}
    listed = {spread.gap.name for spread in open_}
    open_.extend(after.spreads[name] for name in fit.gaps if name in missed_too - listed)
    return MeasuringPlan(tuple(every), after, tuple(open_), fewest)


def _with(fit: Fit, measurements: Iterable[Measurement]) -> Fit:
    method = fit.method
    for one in measurements:
        method = one.added_to(method)
    after = replace(fit, method=method)
    model = after.error_model()
    return replace(after, spreads={name: spread_of(model, gap) for name, gap in fit.gaps.items()})


def _candidates(fit: Fit, spread: GapSpread) -> tuple[Measurement, ...]:
    """Every measurement that could take a cause out of one gap."""
    found: list[Measurement] = []
    names = spread.gap.form.names
    last = last_made(fit, spread, names)
    if last:
        made = fit.made[last]
        part = parts_text(fit.project, [made.part])
        marked = made.kind in (SizeKind.PLACE, SizeKind.PIN)
        what = (
            f"where the {made.feature.replace('-', ' ')} of {part} is to go"
            if marked
            else f"the space for {part}"
        )
        when = "it is cut" if marked else f"{part} is cut to {made.kind.value}"
        tool = tool_for(made, float(fit.project.sizes.of(last)))
        found.append(Measurement(last, what, f"at the dry fit, before {when}", tool, fits=spread.gap.name))
    for cause, _ in spread.shares:
        if cause.kind is CauseKind.LOT:
            sheet = fit.project.job.sheets[cause.what].name
            found.append(
                Measurement(
                    thickness_of(cause.what).name,
                    f"the thickness of the {sheet}",
                    "before setting anything to it",
                    MeasuringTool.CALIPER,
                )
            )
        elif cause.what in fit.settings and cause.deviation > fit.project.job.shop.deviations.caliper:
            sizes = fit.settings[cause.what]
            made = fit.made[sizes[0]]
            if made.kind in (SizeKind.CHANNEL, SizeKind.DEPTH):
                found.append(
                    Measurement(
                        cause.what,
                        f"the {'depth' if made.kind is SizeKind.DEPTH else 'width'} of a test piece",
                        f"before cutting {sizes_text(fit, sizes)}",
                        MeasuringTool.CALIPER,
                        proves=True,
                    )
                )
    for name in names:
        found.extend(_followed(fit, spread, name))
    return tuple(dict.fromkeys(found))


def _followed(fit: Fit, spread: GapSpread, name: str) -> Iterable[Measurement]:
    """A finished size that others of the same gap are derived from, and so can follow."""
    made = fit.made.get(name)
    if (
        made is None
        or made.kind in (SizeKind.THICKNESS, SizeKind.LINE)
        or name not in fit.project.sizes.values
    ):
        return
    following = set(fit.project.sizes.ledger.downstream(frozenset((name,))))
    later = [
        fit.made[other].part
        for other in spread.gap.form.names
        if other != name and other in fit.made and other in following
    ]
    if later:
        tool = tool_for(made, float(fit.project.sizes.of(name)))
        what = f"{made.feature.replace('-', ' ')} {made.kind.value}".strip()
        yield Measurement(
            name,
            f"the {what} of {parts_text(fit.project, [made.part])}",
            f"when it is cut, before {parts_text(fit.project, later)}",
            tool,
        )


def _enough(
    fit: Fit,
    spread: GapSpread,
    pool: Iterable[Measurement],
    limit: float,
    models: dict[frozenset[Measurement], ErrorModel],
) -> tuple[tuple[frozenset[Measurement], ...], GapSpread]:
    """The smallest sets of measurements that bring a gap under the limit, and the best any set does."""

    def with_(several: frozenset[Measurement]) -> GapSpread:
        model = models.get(several)
        if model is None:
            method = fit.method
            for one in several:
                method = one.added_to(method)
            model = models[several] = fit.error_model(method)
        return spread_of(model, spread.gap)

    alone = {one: with_(frozenset((one,))) for one in pool}
    useful = [one for one, after in alone.items() if after.deviation != spread.deviation]
    useful.sort(key=lambda one: alone[one].deviation)
    nearest = min(alone.values(), key=lambda after: after.chance, default=spread)
    enough: list[frozenset[Measurement]] = []
    for number in range(1, MOST_TOGETHER + 1):
        for several in combinations(useful[:MOST_FOR_A_GAP], number):
            together = frozenset(several)
            if any(less <= together for less in enough) or len({one.what for one in several}) < number:
                continue
            after = with_(together)
            nearest = min(nearest, after, key=lambda spread: spread.chance)
            if after.chance <= limit:
                enough.append(together)
    return tuple(enough), nearest


def _choose(
    fit: Fit,
    needed: Mapping[str, tuple[frozenset[Measurement], ...]],
    weights: Mapping[Measurement, int],
    limit: float,
) -> tuple[tuple[Measurement, ...], bool]:
    """The cheapest measurements that hold one sufficient set for every gap, and whether proved so.

    Where not all gaps can be satisfied together, as few as possible are left out.
    """
    every = list(weights)
    barred: list[tuple[str, list[Measurement], list[Measurement]]] = []
    chosen: tuple[Measurement, ...] = ()
    missed: tuple[str, ...] = tuple(needed)
    for _ in range(ROUNDS if needed else 0):
        solver = Solver()
        take = {one: solver.addBinary() for one in every}
        miss = {name: solver.addBinary() for name in needed}
        for name, enough in needed.items():
            satisfied = [solver.addBinary() for _ in enough]
            solver.addConstr(sum(satisfied) + miss[name] >= 1)
            for one_set, hold in zip(enough, satisfied, strict=True):
                for one in (one for one in every if one in one_set):
                    solver.addConstr(hold <= take[one])
        by_what: dict[tuple[str, bool], list[Measurement]] = defaultdict(list)
        for one in every:
            by_what[one.what, one.proves].append(one)
        for same in by_what.values():
            solver.addConstr(sum(take[one] for one in same) <= 1)  # one size is fitted to one gap
        for name, inside, outside in barred:
            changed = sum(1 - take[one] for one in inside) + sum(1 * take[one] for one in outside)
            solver.addConstr(changed + miss[name] >= 1)
        dear = 1 + sum(weights.values())
        price = sum(weights[one] * take[one] for one in every)
        least = price + sum(dear * one for one in miss.values())
        values = solver.answer("choosing the fewest measurements", least=least).values
        chosen = tuple(one for one in every if values[take[one].index] > 0.5)
        missed = tuple(name for name in needed if values[miss[name].index] > 0.5)
        after = _with(fit, chosen)
        failing = [n for n in needed if n not in missed and after.spreads[n].chance > limit]
        if not failing:
            return chosen, True
        for name in failing:
            # Only measurements that touch this gap can mend what these do to it together.
            bearing = [one for one in every if _bears(fit, one, name)]
            inside = [one for one in bearing if one in chosen]
            barred.append((name, inside, [one for one in bearing if one not in chosen]))
    return chosen, not needed


def _bears(fit: Fit, one: Measurement, gap: str) -> bool:
    alone = fit.error_model(one.added_to(fit.method))
    return spread_of(alone, fit.gaps[gap]).errors != fit.spreads[gap].errors


def _alike(fit: Fit, risky: Iterable[GapSpread]) -> list[tuple[str, ...]]:
    """Places whose gaps at risk are alike in all but the case's mark."""
    by: dict[str, list[tuple[object, ...]]] = defaultdict(list)
    for spread in risky:
        gap = spread.gap
        by[gap.place].append(
            (
                _renamed(gap.name, gap.place, "#"),
                float(spread.mean),
                spread.low,
                spread.high,
                round(spread.deviation, 9),
            )
        )
    groups: dict[tuple[tuple[object, ...], ...], list[str]] = defaultdict(list)
    for place, signature in by.items():
        groups[tuple(signature)].append(place)
    return [tuple(places) for places in groups.values()]


def _renamed(text: str, old: str, new: str) -> str:
    return re.sub(rf"(?<!\w){re.escape(old)}(?=[-.:])", new, text)


def _case_of(fit: Fit, one: Measurement) -> str:
    """The case a measurement belongs to; empty for sheets and settings, which serve all."""
    made = fit.made.get(one.what)
    part = fit.project.parts.get(made.part) if made else None
    return part.case if part else ""


def _copies(fit: Fit, one: Measurement, groups: Iterable[tuple[str, ...]]) -> Iterable[Measurement]:
    """The measurement in every case like the one it was chosen for."""
    case = _case_of(fit, one)
    alike = next((places for places in groups if places[0] == case), (case,))
    for place in alike:
        yield replace(
            one,
            what=_renamed(one.what, case, place),
            text=_renamed(one.text, case, place),
            when=_renamed(one.when, case, place),
            fits=_renamed(one.fits, case, place),
        )
