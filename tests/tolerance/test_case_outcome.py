"""What happens to a whole case: against simulated shops, against its joints alone, and by counting."""

from __future__ import annotations

from dataclasses import astuple, replace
from fractions import Fraction as F
from math import sqrt

import pytest
from hypothesis import assume, given, settings

from casewright.casework.job import CaseSpec, Construction, Grade
from casewright.casework.project import draw_up
from casewright.errors import JobError
from casewright.jobfile.catalogue import packaged_catalogue
from casewright.shop.deviations import Workmanship
from casewright.tolerance.outcomes.bounds import Bounds
from casewright.tolerance.outcomes.case_outcome import DRAWS, case_outcome, job_outcome
from casewright.tolerance.outcomes.gap_spread import fit
from casewright.tolerance.outcomes.outcome import Outcome, mean_outcome
from oracles.simulate import simulate
from oracles.worst_joint import worst_of_joints
from samples import BASE, SHOP, job, spec
from strategies import case_specs

PLAYS = [Construction(), replace(Construction(), dado_play=Construction().groove_play)]


@pytest.mark.parametrize("bays", [BASE, BASE[:1]])
@pytest.mark.parametrize("made", PLAYS, ids=["no play", "a play of 1/64"])
def test_the_outcome_of_a_case_is_that_of_simulated_shops(made: Construction, bays: tuple) -> None:  # type: ignore[type-arg]
    builds = 4000
    plan = fit(draw_up(job(spec("B1", construction=made, bays=bays), construction=made)))
    predicted = case_outcome(plan, "B1")
    simulated = worst_of_joints(simulate(plan, builds, seed=41), plan, "B1")
    for ours, theirs in zip(astuple(predicted), astuple(simulated), strict=True):
        sampling = sqrt(max(theirs * (1 - theirs), 1 / builds) * (1 / builds + 1 / DRAWS))
        assert abs(ours - theirs) < 4 * sampling, (predicted, simulated)
    assert 0.01 < simulated.by_hand < 0.99


@settings(deadline=None, max_examples=25)
@given(case_specs())
def test_any_case_is_no_better_than_its_worst_joint_and_no_worse_than_all_of_them(drawn: CaseSpec) -> None:
    try:
        plan = fit(draw_up(job(drawn)))
    except JobError:
        assume(False)
    found, joints = case_outcome(plan, "B1"), [spread.outcome for spread in plan.in_place("B1")]
    near = 5 * sqrt(1 / DRAWS) / 2
    assert found.by_hand + found.clamp + found.ease + found.recut == pytest.approx(1.0)
    assert all(0.0 <= share <= 1.0 for share in astuple(found))
    assert found.by_hand <= min(joint.by_hand for joint in joints) + near
    assert 1 - found.by_hand <= sum(1 - joint.by_hand for joint in joints) + near
    assert max(joint.shown for joint in joints) - near <= found.shown
    assert found.shown <= sum(joint.shown for joint in joints) + near
    assert found.recut >= max(joint.recut for joint in joints) - near
    for spread in plan.spreads.values():
        assert spread.worst[0] <= float(spread.mean) <= spread.worst[1]
        parts = spread.outcome
        assert parts.by_hand + parts.clamp + parts.ease + parts.recut == pytest.approx(1.0)


def test_a_place_without_gaps_goes_together_by_hand() -> None:
    plan = fit(draw_up(job()))
    assert case_outcome(plan, "nowhere") == Outcome(1.0, 0.0, 0.0, 0.0, 0.0)


def test_a_job_is_the_mean_of_its_cases() -> None:
    plan = fit(draw_up(job(spec("B1", bays=BASE), spec("B2"))))
    cases = [case_outcome(plan, mark) for mark in ("B1", "B2")]
    assert job_outcome(plan) == mean_outcome(cases)
    assert job_outcome(plan).by_hand == pytest.approx((cases[0].by_hand + cases[1].by_hand) / 2)


def test_a_better_shop_and_a_lower_grade_come_out_better() -> None:
    known = packaged_catalogue().deviations
    made = PLAYS[1]
    plain = job(spec("B1", construction=made, bays=BASE), construction=made)
    by_hand, shown = [], []
    for workmanship in Workmanship:
        shop = replace(SHOP, workmanship=workmanship, deviations=known[workmanship])
        found = case_outcome(fit(draw_up(replace(plain, shop=shop))), "B1")
        by_hand.append(found.by_hand)
        shown.append(found.shown)
    assert by_hand == sorted(by_hand) and shown == sorted(shown, reverse=True)
    graded = [case_outcome(fit(draw_up(replace(plain, grade=grade))), "B1").shown for grade in Grade]
    assert graded == sorted(graded) and graded[0] < graded[2]


def test_bounds_tell_the_range_in_which_nothing_is_to_be_done() -> None:
    none = Bounds(None, None, None, None, None, None, None)
    assert (none.low, none.high) == (None, None)
    b = Bounds(*map(F, (-4, -3, -1, 2, 5, -2, 3)))
    assert [b.low, b.high] == [-2, 2]
