"""Simulated shops: draw every error, cut, measure and fit as a maker would, and look at the gaps.

Nothing here knows how errors propagate. Each build walks the ledger in working order: a size
is derived from what the maker believes by then, set on the rule's mark, cut with its errors,
and, where the method says so, measured, which changes what he believes from there on. Builds
are columns of one array, so thousands cost about as much as a few.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from casewright.casework.parts.features.channel import Channel
from casewright.casework.project import Project
from casewright.sizes.affine import Affine, size
from casewright.sizes.ledger import Combination, Definition, Given
from casewright.tolerance.chains.gaps import Gap
from casewright.tolerance.chains.made_sizes import BY_RULE, HowMade, MadeSize, SizeKind, far_edge_name
from casewright.tolerance.errors.causes import Cause, causes_of, lot_cause
from casewright.tolerance.errors.way_of_working import FittedSize
from casewright.tolerance.outcomes.gap_spread import Fit

Builds = NDArray[np.float64]  # one value a build, in inches


@dataclass(frozen=True)
class Simulated:
    """The sizes as made and the gaps they leave, a value for each build."""

    fit: Fit
    sizes: Mapping[str, Builds]
    gaps: Mapping[str, Builds]

    def fails(self, gap: str) -> NDArray[np.bool_]:
        """In which builds a gap is not as it should be."""
        spread = self.fit.spreads[gap]
        drawn = self.gaps[gap]
        low = -np.inf if spread.low is None else float(spread.low)
        high = np.inf if spread.high is None else float(spread.high)
        return np.asarray((drawn < low) | (drawn > high))

    def share(self, gap: str) -> float:
        """The share of builds in which a gap is not as it should be."""
        return float(self.fails(gap).mean())

    def as_made(self, build: int) -> Project:
        """The job with every part as one build made it, for the solids to be made from.

        How far laid-out lines are off is not in it: no part has them.
        """
        ledger = self.fit.project.sizes.ledger
        made = {name: Fraction(self.sizes[name][build]) for name in self.fit.made if name in ledger}
        return self.fit.project.given(made)


def simulate(fit: Fit, builds: int, seed: int) -> Simulated:
    """Make the job `builds` times by the fit's method. The same seed gives the same builds."""
    shop = _Shop(fit, builds, np.random.default_rng(seed))
    shop.work()
    gaps = {name: shop.over_actual(gap.form) for name, gap in fit.gaps.items()}
    return Simulated(fit, shop.actual, gaps)


class _Shop:
    def __init__(self, fit: Fit, builds: int, rng: np.random.Generator) -> None:
        self.fit = fit
        self.builds = builds
        self.deviations = fit.project.job.shop.deviations
        self.rng = rng
        self.believed: dict[str, Builds] = {}
        self.actual: dict[str, Builds] = {}
        self.drawn: dict[tuple[str, str], Builds] = {}

    @cached_property
    def mark(self) -> float:
        return float(self.fit.project.job.mark.step)

    def work(self) -> None:
        method, made = self.fit.method, self.fit.made
        for name, entry in self.fit.project.sizes.ledger.items():
            one = made.get(name)
            planned = self.work_out(entry.definition)
            if one is not None and one.part not in method.follow:  # cut to the plan, whatever was measured
                planned = np.full(self.builds, float(self.fit.project.sizes.of(name)))
            self.believed[name] = planned
            if one is None:
                self.actual[name] = planned + self.input_error(name)
            elif one.how is HowMade.SHEET:
                bought = float(self.fit.project.job.sheets[one.material].thickness)
                self.actual[name] = bought + self.own(one)
            else:
                self.actual[name] = self.set(one, planned, self.fit.project.sizes.of(name)) + self.own(one)
            if name in method.measured:
                reading = self.deviations.reading(method.measured[name])
                self.believed[name] = self.actual[name] + self.draw("reading", name, reading)
        for name, line in made.items():
            if line.kind is SizeKind.LINE:
                self.actual[name] = self.own(line)
        for place in method.moved:
            self.lay_off_from_far_edge(made[place])
        for name, fitted in method.fitted.items():
            self.fit_by_measuring(name, fitted)

    def work_out(self, definition: Definition) -> Builds:
        if isinstance(definition, Given):
            return np.full(self.builds, float(definition.value))
        if isinstance(definition, Combination):
            return self.over(definition.form, self.believed)
        # The steps that are not affine are worked out build by build, as the ledger does it.
        needed = {name: self.believed[name] for name in definition.needs()}
        if all(np.ptp(values) == 0.0 for values in needed.values()):
            exact = {name: self.fit.project.sizes.of(name) for name in needed}
            return np.full(self.builds, float(definition.work_out(exact)))
        return np.array(
            [
                float(definition.work_out({name: Fraction(values[build]) for name, values in needed.items()}))
                for build in range(self.builds)
            ]
        )

    def over(self, form: Affine, values: Mapping[str, Builds]) -> Builds:
        found = np.full(self.builds, float(form.constant))
        for name, k in form.terms:
            found = found + float(k) * values[name]
        return found

    def over_actual(self, form: Affine) -> Builds:
        return self.over(form, self.actual)

    def set(self, made: MadeSize, planned: Builds, exact: Fraction) -> Builds:
        project = self.fit.project
        tried = self.fit.method.tried.get(made.name)
        if tried is not None:  # as wide as the piece it is tried in asks, whatever was planned
            thick = float(project.job.sheets[made.gauge].thickness)
            return np.full(self.builds, thick + float(tried))
        if made.how not in BY_RULE:
            return planned
        if np.ptp(planned) == 0.0:  # as it is printed: nothing measured moves it
            return np.full(self.builds, float(project.rule.number(exact)))
        # A hair is added so that a size midway goes up, as the rule's reader does.
        return np.asarray(np.floor(planned / self.mark + 0.5 + 1e-9) * self.mark)

    def own(self, made: MadeSize) -> Builds:
        found = np.zeros(self.builds)
        for cause in causes_of(made, self.fit.project, self.fit.method):
            found = found + self.draw(cause.kind.value, cause.what, cause.deviation)
        return found + self.out_of_square(made)

    def out_of_square(self, made: MadeSize) -> Builds:
        """At the front edge, half a part's width from its middle: both ends of what the sled cut are out."""
        method = self.fit.method
        if made.how is not HowMade.FENCE or method.settings.get(made.name, made.setting) not in method.stops:
            return np.zeros(self.builds)
        part = self.fit.project.parts[made.part]
        across = part.length if made.kind is SizeKind.WIDTH else part.width
        half = float(self.fit.project.sizes.of(across)) / 2
        return 2 * half * self.draw("sled", "angle", self.deviations.sled / 24)

    def input_error(self, name: str) -> Builds:
        """A sheet's thickness is what was bought, whatever the plan was told."""
        sheet = self.fit.project.sheet_called(name)
        if sheet is None:
            return np.zeros(self.builds)
        cause: Cause = lot_cause(sheet, self.deviations)
        return self.draw(cause.kind.value, cause.what, cause.deviation)

    def draw(self, kind: str, what: str, deviation: float) -> Builds:
        known = self.drawn.get((kind, what))
        if known is None:
            known = self.drawn[kind, what] = self.rng.standard_normal(self.builds)
        return known * deviation

    def lay_off_from_far_edge(self, made: MadeSize) -> None:
        part = self.fit.project.parts[made.part]
        channel = part.feature(made.feature)
        assert isinstance(channel, Channel)
        span = part.size(channel.edge.axis) - channel.width
        far = MadeSize(
            far_edge_name(made.name),
            made.kind,
            HowMade.FENCE,
            made.part,
            made.material,
            made.feature,
            self.fit.method.settings.get(far_edge_name(made.name), f"{made.setting} from the far edge"),
        )
        planned = self.over(span, self.believed) - self.believed[made.name]
        exact = self.fit.project.sizes.of(span - size(made.name))
        laid = self.set(far, planned, exact) + self.own(far)
        self.actual[made.name] = self.over_actual(span) - laid

    def fit_by_measuring(self, name: str, fitted: FittedSize) -> None:
        """Cut `name` to the room measured in the dry-fitted case, less the gap wanted there."""
        gap: Gap = self.fit.gaps[fitted.gap]
        slope = float(gap.form.coefficient(name))
        room = self.over_actual(gap.form) - slope * self.actual[name]
        aim = self.over(gap.aim, self.believed)
        # Cut a hair short: by one deviation, so that it goes in.
        fits = self.deviations.fitted
        self.actual[name] = (aim + fits - room) / slope + self.draw("fitted", name, fits)
