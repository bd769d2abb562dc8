"""The chance of a whole case, against its exact bounds and against simulated shops."""

from __future__ import annotations

from math import sqrt

import pytest
from hypothesis import assume, given, settings

from casewright.casework.job import CaseSpec, Construction
from casewright.casework.project import draw_up
from casewright.errors import JobError
from casewright.tolerance.outcomes.case_chance import case_chance
from casewright.tolerance.outcomes.gap_spread import fit
from oracles.simulate import simulate
from samples import BASE, job, spec
from strategies import case_specs


@pytest.mark.parametrize("bays", [BASE, BASE[:1]])
def test_predicted_boxes_that_do_not_close_are_those_of_simulated_shops(bays: tuple) -> None:  # type: ignore[type-arg]
    builds = 4000
    made = Construction(dado_play=spec().construction.groove_play)
    plan = fit(draw_up(job(spec("B1", construction=made, bays=bays), construction=made)))
    predicted = case_chance(plan, "B1")
    simulated = simulate(plan, builds, seed=41).share_of_cases("B1")
    sampling = sqrt(simulated * (1 - simulated) / builds + predicted.error**2)
    assert abs(predicted.off - simulated) < 4 * sampling
    assert 0.05 < simulated < 0.99


@settings(deadline=None, max_examples=25)
@given(case_specs())
def test_any_case_has_a_chance_within_its_bounds(drawn: CaseSpec) -> None:
    try:
        plan = fit(draw_up(job(drawn)))
    except JobError:
        assume(False)
    found = case_chance(plan, "B1", draws=2000)
    assert found.least - 5 * found.error <= found.off <= found.most + 5 * found.error
    assert found.stuck <= found.off
    for spread in plan.spreads.values():
        assert spread.worst[0] <= float(spread.mean) <= spread.worst[1]
        assert 0.0 <= spread.chance <= 1.0


def test_a_place_without_gaps_cannot_fail() -> None:
    plan = fit(draw_up(job()))
    assert case_chance(plan, "nowhere").off == 0.0
