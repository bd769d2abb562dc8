"""Predictions set right by the shop's own dry fits: conjugate sums, single joints, and simulated shops."""

from __future__ import annotations

from dataclasses import fields, replace
from fractions import Fraction as F

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy import stats

from casewright.casework.job import Job
from casewright.casework.project import draw_up
from casewright.shop.dry_fits import DryFits, DryFitTally
from casewright.tolerance.chains.roles import GapRole
from casewright.tolerance.learning.dry_fit_record import JoinedHow, dry_fit_records, independent, pooled
from casewright.tolerance.learning.tapped_joints import tapped_joints
from casewright.tolerance.outcomes.by_dry_fits import ENOUGH, MODEL_WORTH, expected_shares, set_right
from casewright.tolerance.outcomes.case_outcome import case_outcome
from casewright.tolerance.outcomes.gap_spread import Fit, GapSpread, fit
from casewright.tolerance.outcomes.outcome import Outcome
from oracles.simulate import simulate
from samples import BASE, SHOP, job, spec

TALLY = DryFitTally((30.0, 8.0, 1.9, 0.1), (20, 17, 3, 0), 40.0)
PLAIN = job(*(spec(f"B{number}", bays=BASE) for number in range(1, 5)))
PLAN = fit(draw_up(PLAIN))
SHOPS, JOBS, BUILDS = 16, 6, 400


def four(outcome: Outcome) -> NDArray[np.float64]:
    return np.array([outcome.by_hand, outcome.clamp, outcome.ease, outcome.recut])


def knowing(tally: DryFitTally) -> Job:
    return replace(PLAIN, shop=replace(SHOP, dry_fits=DryFits(dado=tally)))


def dadoes(of: Fit) -> list[GapSpread]:
    return [spread for spread in of.spreads.values() if spread.gap.role is GapRole.OWN_DADO]


@pytest.mark.parametrize("worth", [40.0, 6.5])
def test_expected_shares_are_the_mean_of_the_dirichlet_belief_after_the_taps(worth: float) -> None:
    prior = MODEL_WORTH * np.array(TALLY.predicted) / 40
    after = stats.dirichlet(prior + worth / 40 * np.array(TALLY.happened))
    assert expected_shares(replace(TALLY, worth=worth)) == pytest.approx(after.mean())


def test_a_joint_like_its_kind_comes_out_as_its_kind_and_others_keep_their_distance() -> None:
    a, b, c, d = (share / 40 for share in TALLY.predicted)
    assert set_right((a, b, c, d), TALLY) == pytest.approx(expected_shares(TALLY))
    sound = set_right((0.999, 0.001, 0.0, 0.0), TALLY)
    assert sum(sound) == pytest.approx(1.0) and min(sound) >= 0.0
    assert 0.001 < sound[1] < 0.05, "one that was sound stays so, whatever the tight ones do"
    none = DryFitTally((40.0, 0.0, 0.0, 0.0), (30, 10, 0, 0), 40.0)
    assert set_right((1.0, 0.0, 0.0, 0.0), none) == pytest.approx(expected_shares(none))


def test_nothing_changes_below_so_many_joints_and_little_changes_where_all_were_cut_alike() -> None:
    few = replace(TALLY, happened=(0, ENOUGH - 1, 0, 0), predicted=(ENOUGH - 1.0, 0.0, 0.0, 0.0))
    assert fit(draw_up(knowing(few))).spreads == PLAN.spreads
    before = dadoes(PLAN)[0].outcome
    moves = [
        float(
            np.abs(
                four(dadoes(fit(draw_up(knowing(replace(TALLY, worth=worth)))))[0].outcome) - four(before)
            ).sum()
        )
        for worth in (0.5, 5.0, 40.0)
    ]
    assert 0.0 < moves[0] < 0.1 * moves[2] and moves[0] < moves[1] < moves[2]


def test_limits_moved_by_dry_fits_give_the_shares_and_the_case_goes_by_them() -> None:
    known = fit(draw_up(knowing(TALLY)))
    for old, new in zip(dadoes(PLAN), dadoes(known), strict=True):
        a, b, c, d = four(old.outcome)
        assert tuple(four(new.outcome)) == pytest.approx(set_right((a, b, c, d), TALLY), abs=1e-6)
        assert new.modelled == old.outcome and new.bounds == old.bounds and new.holds() == old.holds()
    ends = [name for name, spread in PLAN.spreads.items() if spread.gap.role is GapRole.END]
    assert all(known.spreads[name].outcome == PLAN.spreads[name].outcome for name in ends)
    assert case_outcome(known, "B1").by_hand < case_outcome(PLAN, "B1").by_hand - 0.05
    assert (PLAN.dry_fits, known.dry_fits) == (0, 40)


def test_what_is_written_down_already_does_not_count_twice() -> None:
    taps = dict.fromkeys((spread.gap.key for spread in dadoes(PLAN)), "clamp")
    known = fit(draw_up(knowing(TALLY)))
    assert dry_fit_records(known, tapped_joints(known, taps)) == dry_fit_records(
        PLAN, tapped_joints(PLAN, taps)
    )


def test_joints_cut_on_one_setting_are_worth_few() -> None:
    every = dadoes(PLAN)
    alike = [spread for spread in every if spread.mean == every[0].mean]
    one = independent(alike[:1])
    several = independent(alike)
    assert one == pytest.approx(1.0) and 1.0 < several < 3.0 < len(alike)
    # The same by the correlations themselves, from simulated shops.
    made = simulate(PLAN, 4000, 5)
    correlation = np.corrcoef([made.gaps[spread.gap.name] for spread in alike])
    assert several == pytest.approx(len(alike) ** 2 / correlation.sum(), rel=0.05)


def true_shop(seed: int) -> Fit:
    """A shop that strays more or less than the job believes, and whose hands press more or less."""
    rng = np.random.default_rng(seed)
    factor = float(np.exp(rng.normal(0.0, 0.4)))
    own = {one.name: getattr(SHOP.deviations, one.name) * factor for one in fields(SHOP.deviations)}
    true = fit(draw_up(replace(PLAIN, shop=replace(SHOP, deviations=replace(SHOP.deviations, **own)))))
    pressed = F(float(rng.normal(0.0, 0.004)))
    return replace(true, spreads={name: harder(spread, pressed) for name, spread in true.spreads.items()})


def harder(spread: GapSpread, by: F) -> GapSpread:
    names = ("again_low", "ease", "hand")
    moved = {name: limit + by for name in names if (limit := getattr(spread.bounds, name)) is not None}
    return replace(spread, bounds=replace(spread.bounds, **moved))


def went(true: Fit, seed: int) -> dict[str, NDArray[np.int_]]:
    """How each joint went in each build: 0 by hand to 3 remade."""
    made = simulate(true, BUILDS, seed)
    found = {}
    for name, spread in true.spreads.items():
        gap, bounds = made.gaps[name], spread.bounds
        how = np.zeros(BUILDS, int)
        for limit, worse in ((bounds.hand, 1), (bounds.ease, 2), (bounds.again_low, 3)):
            if limit is not None:
                how[gap < float(limit)] = worse
        for limit, worse in ((bounds.ease_high, 2), (bounds.again_high, 3)):
            if limit is not None:
                how[gap > float(limit)] = worse
        found[name] = how
    return found


def test_predictions_set_right_are_nearer_the_truth_in_most_simulated_shops() -> None:
    words = [how.value for how in JoinedHow]
    nearer = before = after = 0.0
    for seed in range(SHOPS):
        builds = went(true_shop(seed), seed)
        records = pooled(
            tuple(
                record
                for build in range(JOBS)
                for record in dry_fit_records(
                    PLAN, tapped_joints(PLAN, {name: words[how[build]] for name, how in builds.items()})
                )
            )
        )
        (record,) = [one for one in records if one.role is GapRole.OWN_DADO]
        assert record.joints >= ENOUGH and record.worth < record.joints / 5
        off = [0.0, 0.0]
        for spread in dadoes(PLAN):
            truth = np.bincount(builds[spread.gap.name], minlength=4) / BUILDS
            for at, told in enumerate((spread, replace(spread, tally=record.tally))):
                off[at] += float(np.abs(four(told.outcome) - truth).sum()) / 2 / len(dadoes(PLAN))
        nearer += off[1] < off[0]
        before, after = before + off[0] / SHOPS, after + off[1] / SHOPS
    assert nearer >= 0.7 * SHOPS, f"nearer in {nearer} of {SHOPS} shops"
    assert after < 0.7 * before, f"off by {before:.3f} before and {after:.3f} after"
