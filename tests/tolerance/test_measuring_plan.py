"""The fewest measurements, against trying every smaller set, and against simulated shops."""

from __future__ import annotations

import os
import subprocess
import sys
from fractions import Fraction as F
from itertools import combinations
from math import sqrt

import pytest

from casewright.casework.job import Construction, Filler
from casewright.casework.project import draw_up
from casewright.tolerance.advice.measuring_plan import MeasuringPlan, plan_measurements
from casewright.tolerance.outcomes.gap_spread import Fit, fit, spread_of
from oracles.simulate import simulate
from samples import BASE, job, spec

LIMIT = 0.05
ROOMY = Construction(dado_play=F(1, 64))


def plan_of(cases: int, **case: object) -> Fit:
    specs = [spec(f"B{n}", construction=ROOMY, **case) for n in range(1, cases + 1)]  # type: ignore[arg-type]
    wide = F(36 * cases + 2)
    return fit(draw_up(job(*specs, construction=ROOMY, right=Filler(F(2), F(1), "ply"), opening=wide)))


@pytest.fixture(scope="module")
def plan() -> Fit:
    return plan_of(1)


@pytest.fixture(scope="module")
def found(plan: Fit) -> MeasuringPlan:
    return plan_measurements(plan, LIMIT)


def test_every_gap_that_measuring_can_mend_is_mended(plan: Fit, found: MeasuringPlan) -> None:
    assert found.fewest
    assert found.measurements
    still = {spread.gap.name for spread in found.fit.at_risk(LIMIT)}
    assert still == {spread.gap.name for spread in found.open}
    assert len(still) < len(plan.at_risk(LIMIT)) / 2


def test_no_smaller_set_of_the_same_measurements_would_do(plan: Fit, found: MeasuringPlan) -> None:
    """Every subset one smaller (and so every smaller one) leaves a gap at risk that need not be."""
    mendable = {spread.gap.name for spread in plan.at_risk(LIMIT)} - {s.gap.name for s in found.open}
    for several in combinations(found.measurements, len(found.measurements) - 1):
        method = plan.method
        for one in several:
            method = one.added_to(method)
        model = plan.error_model(method)
        assert any(spread_of(model, plan.gaps[name]).chance > LIMIT for name in mendable)


def test_simulated_shops_that_measure_so_keep_the_limit(found: MeasuringPlan) -> None:
    builds = 4000
    shops = simulate(found.fit, builds, seed=4)
    left_open = {spread.gap.name for spread in found.open}
    for name, spread in found.fit.spreads.items():
        if name not in left_open:
            assert shops.share(name) < LIMIT + 4 * sqrt(LIMIT / builds), name
        assert shops.share(name) == pytest.approx(spread.chance, abs=4 * sqrt(0.25 / builds) + 0.002)


def test_each_measurement_says_what_when_and_with_which_tool(found: MeasuringPlan) -> None:
    for one in found.measurements:
        assert one.text and "before" in one.when
        assert one.tool.value in ("rule", "caliper", "tape")


def test_cases_alike_are_measured_alike(found: MeasuringPlan) -> None:
    two = plan_measurements(plan_of(2), LIMIT)
    shared = [one for one in two.measurements if one.proves or one.what.startswith("ply")]
    of_cases = [one for one in two.measurements if one not in shared]
    first = {one.what for one in of_cases if "B1" in one.what}
    assert {what.replace("B1", "B2") for what in first} == {one.what for one in of_cases} - first
    open_ = {spread.gap.name for spread in two.open if spread.gap.place != "run"}
    assert {name.replace("B1", "B2") for name in open_ if "B1" in name} == {n for n in open_ if "B2" in n}
    assert open_ == {s.gap.name for s in two.fit.at_risk(LIMIT) if s.gap.place != "run"}


def test_where_nothing_is_at_risk_nothing_is_measured(plan: Fit) -> None:
    calm = plan_measurements(plan, 0.999)
    assert calm.measurements == () and calm.open == () and calm.fewest


def test_a_gap_that_no_measurement_mends_is_said_to_be_open() -> None:
    """Cases that fill their opening to the last mark: only a filler or narrower cases help."""
    tight = fit(draw_up(job(spec("B1", bays=BASE))))
    assert "run1.spare" in {spread.gap.name for spread in plan_measurements(tight, 0.3).open}


def test_a_run_without_fillers_is_measured_too() -> None:
    """Regression: what to measure was looked up among the sizes of fillers, which this run has none of."""
    shared = fit(draw_up(job(spec("B1", width=None), spec("B2", width=None), opening=F(72))))
    told = plan_measurements(shared, 0.05)
    assert told.open and all(one.text for one in told.measurements)


IN_ANOTHER_PROCESS = """
from casewright.app.jobs.worked_job import open_job
from casewright.tolerance.advice.measuring_plan import plan_measurements
from casewright.tolerance.outcomes.gap_spread import fit
from web_bench import JOB

print([one.what for one in plan_measurements(fit(open_job(JOB).needed())).measurements])
"""


def test_the_list_and_its_order_are_the_same_in_every_process() -> None:
    """Regression: the page listed the two measurements of a job one way or the other after each start."""
    told = [
        subprocess.run(
            [sys.executable, "-c", IN_ANOTHER_PROCESS],
            check=True,
            capture_output=True,
            text=True,
            env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path), "PYTHONHASHSEED": seed},
        ).stdout
        for seed in ("1", "3")
    ]
    assert told[0] == told[1] and told[0].count(",") == 1
