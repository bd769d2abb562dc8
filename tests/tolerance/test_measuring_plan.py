"""The few readings worth taking: in the order of the work, each with its blank, and each pays."""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import replace
from fractions import Fraction as F
from functools import cache
from math import sqrt

import pytest

from casewright.casework.job import CaseKind, Construction, Job
from casewright.casework.project import draw_up
from casewright.shop.materials import Spread
from casewright.shop.measuring_tools import MeasuringTool
from casewright.tolerance.advice.change import READINGS, ChangeKind
from casewright.tolerance.advice.measuring_plan import MeasuringPlan, plan_measurements
from casewright.tolerance.outcomes.gap_spread import Fit, fit
from oracles.dry_fit_minutes import job_minutes
from oracles.simulate import simulate
from samples import BASE, SHEETS, SHOP, job, spec

BUILDS = 4000
ROOMY = Construction(dado_play=F(1, 64))
UNEVEN = {"fence": 0.05, "height": 0.02}


def bases(number: int, first: int = 1) -> Job:
    cases = [spec(f"B{n}", bays=BASE, construction=ROOMY) for n in range(first, first + number)]
    return job(*cases, construction=ROOMY)


def in_shop(of: Job, deviations: dict[str, float], spread: float) -> Fit:
    ply = replace(SHEETS["ply"], usual=Spread(F(23, 32), spread))
    shop = replace(SHOP, deviations=replace(SHOP.deviations, **deviations))
    return fit(draw_up(replace(of, shop=shop, sheets={**SHEETS, "ply": ply})))


@cache
def rough() -> MeasuringPlan:
    """A shop in which sheets, test pieces and the dry case are worth measuring."""
    return plan_measurements(in_shop(bases(6), UNEVEN, 0.012))


@cache
def by_hand() -> MeasuringPlan:
    """Bottoms longer than the fence reaches are cut with the hand-held saw, their stretchers at the fence."""
    wide = SHOP.table_saw.rip_capacity + 1
    cases = [spec(f"B{n}", width=wide, bays=BASE, construction=ROOMY) for n in range(1, 5)]
    return plan_measurements(in_shop(job(*cases, construction=ROOMY), {"hand_saw": 0.08}, 0.005))


def kinds(plan: MeasuringPlan) -> list[ChangeKind]:
    return [one.advice.change.kind for one in plan.measurements]


def test_readings_come_in_the_order_of_the_work() -> None:
    """Sheets before the stack is packed, test pieces, finished parts, and last the case put together dry."""
    order = [ChangeKind.MEASURE_SHEETS, ChangeKind.DEPTH_PIECE, ChangeKind.MATCH, ChangeKind.FIT]
    found = [order.index(kind) for kind in kinds(rough())]
    assert found == sorted(found) and len(set(found)) >= 3
    assert 1 < len(found) <= 6


def test_each_says_what_when_by_what_and_where_to_write_it() -> None:
    for one in rough().measurements:
        assert one.what and one.when.startswith(("before ", "once cut, before ", "at the dry fit, before "))
        assert isinstance(one.tool, MeasuringTool)
        assert one.write_on.startswith(("beside ", "on the ", "each on its own blank"))
    sheets = rough().measurements[0]
    assert sheets.what.startswith("two sheets of birch ply") and "readings of ply" in sheets.write_on


def test_a_reading_for_a_mate_is_written_on_the_mate_s_blank() -> None:
    """Not on the part that is measured: that one is finished."""
    plan = by_hand()
    match = next(one for one in plan.measurements if one.advice.change.kind is ChangeKind.MATCH)
    parts = plan.weighed.after.project.parts
    for mark in match.advice.change.mates:
        assert mark.partition("-")[2] in match.write_on and parts[mark].role.value.split()[-1] in match.when
    measured = {plan.weighed.after.made[name].part for name in match.advice.change.sizes}
    assert measured and not measured & set(match.advice.change.mates)
    assert not any(mark in match.write_on for mark in measured)
    assert match.write_on.startswith("each on its own blank, by its label: ")


def test_only_readings_are_listed_and_each_pays_its_minutes() -> None:
    for one in rough().measurements:
        assert one.advice.change.kind in READINGS
        assert one.advice.saves >= one.advice.spends + 1


def test_a_reading_counts_by_minutes_not_by_a_limit() -> None:
    """A joint that goes wrong one time in ten, once in the job, is cheaper to ease than to prevent."""
    plan = in_shop(bases(1), {}, 0.005)
    assert max(spread.chance for spread in plan.spreads.values()) > 0.03
    found = plan_measurements(plan)
    assert found.measurements == ()
    assert "no further reading would save enough of that to be worth its own time" in found.whole


def test_simulated_shops_that_take_them_save_the_minutes_promised() -> None:
    """Test pieces, mates cut to match, parts cut to fit, all together; test_advice judges the sheets."""
    plan = in_shop(bases(4), UNEVEN, 0.005)
    found = plan_measurements(plan)
    assert len(set(kinds(found)) - {ChangeKind.MEASURE_SHEETS}) >= 2
    assert ChangeKind.MEASURE_SHEETS not in kinds(found)
    now = job_minutes(simulate(plan, BUILDS, seed=4))
    then = job_minutes(simulate(found.weighed.after, BUILDS, seed=5))
    promised = found.weighed.before - found.weighed.left
    error = sqrt((now.var() + then.var()) / BUILDS)
    assert float(now.mean() - then.mean()) == pytest.approx(promised, abs=4 * error + 0.05 * now.mean())
    assert now.mean() - then.mean() > promised / 2 > 5


def test_a_part_cut_to_fit_is_cut_a_hair_short_and_follows_its_space() -> None:
    """The size fitted takes up what its gap would have been off, and aims to leave a hair."""
    found = next(one for one in rough().measurements if one.advice.change.kind is ChangeKind.FIT)
    for name, fitted in found.advice.change.method.fitted.items():
        after = rough().weighed.after.spreads[fitted.gap]
        hair = SHOP.deviations.fitted
        assert after.deviation == pytest.approx(hair), name
        assert float(after.mean - rough().weighed.after.project.sizes.of(after.gap.aim)) == pytest.approx(
            hair
        )


def test_cases_alike_are_one_line() -> None:
    """The marks of all their blanks stand in it."""
    one, many = (plan_measurements(in_shop(bases(n), UNEVEN, 0.012)) for n in (3, 6))
    assert abs(len(many.measurements) - len(one.measurements)) <= 1
    for reading in many.measurements:
        if reading.advice.change.kind in (ChangeKind.FIT, ChangeKind.MATCH):
            assert all(f"B{n}" in reading.write_on for n in range(1, 7)), reading.write_on


def test_a_run_without_fillers_and_a_tall_case_are_measured_too() -> None:
    """Regression: what to measure was looked up among the sizes of fillers, which a run may have none of."""
    shared = fit(draw_up(job(spec("B1", width=None), spec("B2", width=None), opening=F(72))))
    assert plan_measurements(shared).whole
    tall = job(spec("T1", kind=CaseKind.TALL, height=F(84), construction=ROOMY), construction=ROOMY)
    assert all(one.what for one in plan_measurements(in_shop(tall, {"hand_saw": 0.08}, 0.012)).measurements)


IN_ANOTHER_PROCESS = """
from tolerance.test_measuring_plan import rough

print([one.what for one in rough().measurements])
"""


def test_the_list_and_its_order_are_the_same_in_every_process() -> None:
    """Regression: the page listed the two measurements of a job one way or the other after each start."""
    answers = [
        subprocess.run(
            [sys.executable, "-c", IN_ANOTHER_PROCESS],
            check=True,
            capture_output=True,
            text=True,
            env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path), "PYTHONHASHSEED": seed},
        ).stdout
        for seed in ("1", "3")
    ]
    assert answers[0] == answers[1] and "two sheets" in answers[0]
