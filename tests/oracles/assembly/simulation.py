"""A job built many times over: in a shop, of a material, with a play."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

import numpy as np
from numpy.typing import NDArray

from casewright.casework.job import Job
from casewright.casework.parts.part import Role
from casewright.casework.project import draw_up

from .geometry import shapes_of
from .made_parts import READ_UNTOLD, MadeParts, Method, Rounding, Stock, as_planned
from .shop_errors import MDF, DadoWidth, SheetErrors, ShopErrors
from .verdicts import CUSTOM_GRADE, CaseOutcome, Limits, Verdict, judge


@dataclass(frozen=True)
class JobOutcome:
    """Every case of a job over all builds."""

    builds: int
    cases: Mapping[str, CaseOutcome]

    def shares(self, mark: str) -> dict[str, float]:
        """The shares of builds by the worst joint of a case: by hand, clamp, ease, recut; these sum to 1.

        `shown`, beside them, is the share of all builds in which something over its limit shows.
        """
        case = self.cases[mark]
        found = {verdict.name.lower(): float(np.mean(case.verdict == verdict)) for verdict in Verdict}
        return {**found, "shown": float(np.mean(case.shown)), "shown_drawn": float(np.mean(case.shown_drawn))}

    @property
    def job_shares(self) -> dict[str, float]:
        """The same over all cases: the mean of theirs, which is the share of the cases built."""
        each = [self.shares(mark) for mark in self.cases]
        return {name: float(np.mean([one[name] for one in each])) for name in each[0]}

    @property
    def by_hand_each_build(self) -> NDArray[np.float64]:
        """The share of the job's cases that go by hand, build by build."""
        return np.asarray(np.mean([case.verdict == Verdict.BY_HAND for case in self.cases.values()], axis=0))

    @property
    def joints_eased(self) -> float:
        """Joints to ease as a share of all joints."""
        eased = sum(float(np.mean(case.eased)) for case in self.cases.values())
        return eased / sum(case.joints for case in self.cases.values())


def with_play(job: Job, play: Fraction) -> Job:
    """The job with every dado that much wider than its panel."""
    runs = tuple(
        replace(
            run,
            cases=tuple(
                replace(case, construction=replace(case.construction, dado_play=play)) for case in run.cases
            ),
        )
        for run in job.runs
    )
    return replace(job, construction=replace(job.construction, dado_play=play), runs=runs)


def simulate_job(
    job: Job,
    shop: ShopErrors,
    sheets: SheetErrors,
    builds: int,
    seed: int,
    *,
    dado: DadoWidth = DadoWidth.BY_NUMBERS,
    rounding: Rounding = as_planned,
    limits: Limits = CUSTOM_GRADE,
    fitted: Collection[Role] = (),
) -> JobOutcome:
    """Build a job: sheets with a grain as `sheets`, boards without as MDF. The same seed, the same builds.

    Parts in the roles `fitted` are cut to the standing case, and so never too long.
    """
    project = draw_up(job)
    method = Method(shop, dado, float(job.shop.table_saw.rip_capacity), rounding)
    shapes = shapes_of(project, fitted)
    stocks = {
        key: Stock(
            sheets if sheet.grain else MDF,
            float(sheet.sheet_length * sheet.sheet_width),
            len(sheet.readings) or READ_UNTOLD,
        )
        for key, sheet in job.sheets.items()
    }
    made = MadeParts(shapes, stocks, method, builds, seed)
    return JobOutcome(builds, {shape.mark: judge(shape, made, limits) for shape in shapes})
