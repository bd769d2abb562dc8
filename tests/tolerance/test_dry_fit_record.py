"""What happened at the dry fit against what was predicted, role by role."""

from __future__ import annotations

import pytest
from scipy import integrate, stats

from casewright.casework.project import draw_up
from casewright.tolerance.chains.roles import GapRole
from casewright.tolerance.learning.dry_fit_record import (
    JoinedHow,
    RoleRecord,
    dry_fit_records,
    pooled,
)
from casewright.tolerance.learning.tapped_joints import tapped_joints
from casewright.tolerance.outcomes.by_dry_fits import MODEL_WORTH
from casewright.tolerance.outcomes.gap_spread import fit
from samples import BASE, job, spec

PLAN = fit(draw_up(job(spec(bays=BASE))))
DADOES = [name for name, spread in PLAN.spreads.items() if spread.gap.role is GapRole.OWN_DADO]


def record(predicted: float, happened: int, joints: int) -> RoleRecord:
    hand = {JoinedHow.BY_HAND: joints - predicted, JoinedHow.CLAMP: predicted}
    went = {JoinedHow.BY_HAND: joints - happened, JoinedHow.CLAMP: happened}
    return RoleRecord(
        GapRole.OWN_DADO,
        joints,
        float(joints),
        {how: hand.get(how, 0.0) for how in JoinedHow},
        {how: went.get(how, 0) for how in JoinedHow},
    )


def test_the_share_is_the_beta_binomial_s_by_direct_integration() -> None:
    found = record(3.0, 2, 40).share(JoinedHow.CLAMP)
    prior = stats.beta(MODEL_WORTH * 3 / 40, MODEL_WORTH * 37 / 40)

    def weight(share: float) -> float:
        return float(prior.pdf(share) * stats.binom.pmf(2, 40, share))

    whole = integrate.quad(weight, 0, 1)[0]
    mean = integrate.quad(lambda share: share * weight(share), 0, 1)[0] / whole
    assert found == pytest.approx(mean, rel=1e-5)


def test_joints_tried_move_the_share_from_the_model_s_to_what_happens() -> None:
    shares = [record(0.1 * joints, 0, joints).share(JoinedHow.CLAMP) for joints in (1, 10, 100)]
    assert 0.1 > shares[0] > 0.09 and shares[1] == pytest.approx(0.05) and shares[2] < 0.01


def test_predictions_are_the_sums_of_the_joints_outcomes_by_role() -> None:
    tried = dict.fromkeys(DADOES, "by hand") | {DADOES[0]: "clamp"}
    (found,) = dry_fit_records(PLAN, tapped_joints(PLAN, tried))
    assert found.joints == len(DADOES) > 2
    assert found.happened[JoinedHow.CLAMP] == 1 and found.happened[JoinedHow.REMADE] == 0
    clamps = sum(PLAN.spreads[name].outcome.clamp for name in DADOES)
    assert found.predicted[JoinedHow.CLAMP] == pytest.approx(clamps)
    assert sum(found.predicted.values()) == pytest.approx(found.joints)


def test_jobs_of_one_shop_are_pooled_by_role() -> None:
    (both,) = pooled((record(3.0, 2, 40), record(1.0, 1, 10)))
    assert (both.joints, both.predicted[JoinedHow.CLAMP], both.happened[JoinedHow.CLAMP]) == (50, 4.0, 3)
