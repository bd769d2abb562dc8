"""What each gap comes out as: mean, worst case, usual range, causes, and what happens at the dry fit.

Errors add linearly and exactly: every gap is affine in its sizes, every size a sum of
independent causes. With deviations s and slopes a, the worst case at k deviations of every
cause is k * sum |a| s, and the gap's own deviation the root of the sum of (a s)^2: the two
stacks of F. Scholz, "Tolerance Stack Analysis Methods", Boeing 1995.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import cached_property
from math import sqrt

from ...casework.project import Project
from ...shop.dry_fits import DryFitTally
from ..chains.gaps import Gap, gaps_of
from ..chains.made_sizes import MadeSize, made_sizes
from ..errors.causes import Cause, CauseKind, Errors
from ..errors.error_model import ErrorModel
from ..errors.shared_rounding import SharedRounding
from ..errors.way_of_working import TO_PLAN, Method
from .bounds import STANDARD, Bounds, NormalGap, bounds_of
from .by_dry_fits import bounds_by_dry_fits, tally_of
from .outcome import Outcome

ONE_IN_A_HUNDRED = STANDARD.inv_cdf(0.995)
WORST = 3.0  # deviations of every cause at once

WORTH_A_WORD = 0.1
"""A gap more likely to fail than this is reported without being asked for (our judgement, no source)."""


@dataclass(frozen=True)
class GapSpread:
    """How one gap comes out. Lengths in inches.

    `nominal` is the gap of the exact plan, `mean` that of the numbers the saws are set to,
    `errors` how much of each cause is in it. `bounds` say where its outcome changes by what is known of such
    joints; `tally` is how the shop's own dry fits of its kind went, where they are enough to tell.
    """

    gap: Gap
    nominal: Fraction
    mean: Fraction
    bounds: Bounds
    errors: Errors
    tally: DryFitTally | None = None

    @property
    def low(self) -> Fraction | None:
        return self.bounds.low

    @property
    def high(self) -> Fraction | None:
        return self.bounds.high

    @property
    def wanted(self) -> tuple[Fraction | None, Fraction | None]:
        """The range in which it goes together by hand and shows nothing; None where it has no end."""
        return self.own_bounds.low_by_hand, self.own_bounds.high

    @cached_property
    def deviation(self) -> float:
        """Standard deviation."""
        return sqrt(sum((share * cause.deviation) ** 2 for cause, share in self.errors.items()))

    @property
    def usual(self) -> tuple[float, float]:
        """The range that holds 99 in 100, if its causes are normal."""
        reach = ONE_IN_A_HUNDRED * self.deviation
        return float(self.mean) - reach, float(self.mean) + reach

    @property
    def worst(self) -> tuple[float, float]:
        """The range when every cause is three deviations off, all in the worst direction."""
        reach = WORST * sum(abs(share) * cause.deviation for cause, share in self.errors.items())
        return float(self.mean) - reach, float(self.mean) + reach

    @cached_property
    def own_bounds(self) -> Bounds:
        """Where its outcome changes in this shop: by its dry fits, as far as there are enough."""
        return bounds_by_dry_fits(self.bounds, self._normal, self.tally)

    @cached_property
    def outcome(self) -> Outcome:
        """What happens at the dry fit."""
        return self._normal.outcome(self.own_bounds)

    @property
    def modelled(self) -> Outcome:
        """What would be said of it without any dry fit: what dry fits are held against."""
        return self._normal.outcome(self.bounds)

    @property
    def chance(self) -> float:
        """The chance that there is something to do about it, or that it shows."""
        return self._normal.below(self.own_bounds.low) + self._normal.above(self.own_bounds.high)

    def holds(self) -> bool:
        """Whether the mean asks for nothing."""
        return (self.low is None or self.mean >= self.low) and (self.high is None or self.mean <= self.high)

    @property
    def _normal(self) -> NormalGap:
        return NormalGap(float(self.mean), self.deviation)

    @cached_property
    def shares(self) -> tuple[tuple[Cause, float], ...]:
        """Each cause's share of the variance, the greatest first; together they make one."""
        whole = self.deviation**2
        parts = [
            (cause, (share * cause.deviation) ** 2 / whole)
            for cause, share in self.errors.items()
            if share * cause.deviation
        ]
        return tuple(sorted(parts, key=lambda part: (-part[1], part[0].kind.value, part[0].what)))

    def share_of_kinds(self) -> tuple[tuple[CauseKind, float], ...]:
        """The shares added up by kind of cause, the greatest first."""
        kinds: dict[CauseKind, float] = {}
        for cause, share in self.shares:
            kinds[cause.kind] = kinds.get(cause.kind, 0.0) + share
        return tuple(sorted(kinds.items(), key=lambda kind: -kind[1]))


def spread_of(model: ErrorModel, gap: Gap) -> GapSpread:
    """How one gap comes out by an error model."""
    sizes = model.project.sizes
    form = model.form(gap)
    return GapSpread(
        gap,
        model.nominal_of(gap.form),
        model.mean_of(form),
        bounds_of(gap.limits, sizes),
        # What cancels in exact sums leaves a hair in floats.
        {cause: share for cause, share in model.error_of(form.terms).items() if abs(share) > 1e-12},
        tally_of(model.project.job.shop.dry_fits, gap.role),
    )


@dataclass(frozen=True)
class Fit:
    """Every gap of a job in one way of working. `worked` counts the gaps worked out for it; `rounding` is
    what the sizes in them have in common of their rounding."""

    project: Project
    method: Method
    made: Mapping[str, MadeSize]
    gaps: Mapping[str, Gap]
    spreads: Mapping[str, GapSpread]
    facts: Mapping[str, float]
    worked: int
    rounding: SharedRounding = field(default_factory=SharedRounding, repr=False, compare=False)

    @cached_property
    def touches(self) -> Mapping[str, tuple[str, ...]]:
        """The gaps that need a size, by the size's name."""
        found: dict[str, list[str]] = {}
        for gap in self.gaps.values():
            forms = (gap.form, gap.aim, *gap.limits.forms)
            for name in dict.fromkeys(name for form in forms for name in form.names):
                found.setdefault(name, []).append(gap.name)
        return {name: tuple(gaps) for name, gaps in found.items()}

    @cached_property
    def dry_fits(self) -> int:
        """How many of the shop's own dry fits its outcomes are set right by."""
        used = {one.gap.role: one.tally.joints for one in self.spreads.values() if one.tally}
        return sum(used.values())

    @cached_property
    def settings(self) -> Mapping[str, tuple[str, ...]]:
        """The sizes made at each setting, in this way of working."""
        found: dict[str, list[str]] = {}
        for name in self.made:
            found.setdefault(self.setting(name), []).append(name)
        return {setting: tuple(names) for setting, names in found.items()}

    def setting(self, name: str) -> str:
        """The setting a made size comes from."""
        return self.method.settings.get(name, self.made[name].setting)

    def only(self, place: str) -> Fit:
        """The same fit with the gaps of one case alone, or of one run."""
        gaps = {name: gap for name, gap in self.gaps.items() if gap.place == place}
        return replace(self, gaps=gaps, spreads={name: self.spreads[name] for name in gaps})

    def in_place(self, place: str) -> tuple[GapSpread, ...]:
        """The gaps of one case, or of one run."""
        return tuple(spread for spread in self.spreads.values() if spread.gap.place == place)

    def at_risk(self, limit: float) -> tuple[GapSpread, ...]:
        """The gaps more likely than `limit` to want work or to show, the worst first."""
        risky = [spread for spread in self.spreads.values() if spread.chance > limit]
        return tuple(sorted(risky, key=lambda spread: -spread.chance))

    def error_model(self, method: Method | None = None) -> ErrorModel:
        """The error model of this fit, or of another way of working at the same facts."""
        return ErrorModel(
            self.project, self.made, self.gaps, method or self.method, self.facts, self.rounding
        )

    def worked_out(self, model: ErrorModel, spreads: Mapping[str, GapSpread], worked: int) -> Fit:
        """The fit with these spreads, of which `model` worked out so many."""
        return replace(self, spreads=spreads, worked=worked, rounding=model.rounding)

    def given(self, readings: Mapping[str, tuple[Fraction, float | None]]) -> Fit:
        """The fit after sizes are known, by ledger name: each value, with its reading's deviation.

        A size without a deviation is one cut to that number and not measured: it keeps the
        errors of its cutting. Only the gaps that use a size which has changed are worked out
        again. Raises LedgerError for a name that is not in the ledger.
        """
        project = self.project.given({name: value for name, (value, _) in readings.items()})
        new, old = project.sizes.values, self.project.sizes.values
        touched = [
            name
            for name in project.sizes.ledger.downstream(frozenset(readings))
            if new[name] != old[name] or readings.get(name, (0, None))[1] is not None
        ]
        read = {name: deviation for name, (_, deviation) in readings.items() if deviation}
        fit = replace(self, project=project, facts={**self.facts, **read})
        again = dict.fromkeys(gap for name in touched for gap in self.touches.get(name, ()))
        model = fit.error_model()
        reworked = {name: spread_of(model, self.gaps[name]) for name in again}
        fit = fit.worked_out(model, {**self.spreads, **reworked}, len(reworked))
        # Which gap needs which size does not change with their values.
        fit.__dict__["touches"] = self.touches
        return fit


def fit(project: Project, method: Method = TO_PLAN) -> Fit:
    """Work out every gap of `project` when it is made by `method`."""
    made = made_sizes(project)
    gaps = {gap.name: gap for gap in gaps_of(project, made)}
    empty = Fit(project, method, made, gaps, {}, {}, 0)
    model = empty.error_model()
    worked = empty.worked_out(model, {name: spread_of(model, gap) for name, gap in gaps.items()}, len(gaps))
    # Warm the dependency caches, so that the first measurement is as quick as the rest.
    _ = worked.touches
    project.sizes.ledger.users_of(next(iter(project.sizes.ledger)))
    return worked
