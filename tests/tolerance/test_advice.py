"""Advice is what the sums say, and simulated shops that follow it get what it promised."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from math import sqrt

import pytest

from casewright.casework.project import draw_up
from casewright.shop.materials import Spread
from casewright.tolerance.advice.method_changes import ChangeKind
from casewright.tolerance.advice.rank_advice import Advice, advise, with_change
from casewright.tolerance.chains.made_sizes import far_edge_name
from casewright.tolerance.outcomes.gap_spread import Fit, fit
from oracles.simulate import simulate
from samples import BASE, SHEETS, job, spec

BUILDS = 4000


@pytest.fixture(scope="module")
def plan() -> Fit:
    """A sheet with a thickness between the rule's marks, where no choice of marks suits all gaps."""
    ply = replace(SHEETS["ply"], usual=Spread(F(5910, 8000), 0.005))
    return fit(draw_up(replace(job(spec("B1", bays=BASE)), sheets={**SHEETS, "ply": ply})))


@pytest.fixture(scope="module")
def advice(plan: Fit) -> tuple[Advice, ...]:
    return advise(plan)


def test_every_kind_of_change_is_weighed_and_the_best_comes_first(advice: tuple[Advice, ...]) -> None:
    assert {one.change.kind for one in advice} == set(ChangeKind)
    assert [one.gain for one in advice] == sorted((one.gain for one in advice), reverse=True)
    assert all(one.gain > 0 and one.best.gain > 0 and one.text.endswith(".") for one in advice)


def test_following_each_piece_of_advice_gives_simulated_shops_what_it_promised(
    plan: Fit, advice: tuple[Advice, ...]
) -> None:
    """The best of each kind: for every gap it alters, within four errors of sampling."""
    for move in ChangeKind:
        best = next(one for one in advice if one.change.kind is move)
        shops = simulate(with_change(plan, best.change), BUILDS, seed=7)
        for better in best.gaps:
            name = better.after.gap.name
            sampling = sqrt(max(better.after.chance * (1 - better.after.chance), 1 / BUILDS) / BUILDS)
            assert abs(shops.share(name) - better.after.chance) < 4 * sampling + 0.002, (move, name)


def test_the_expected_number_of_bad_gaps_falls_as_promised(plan: Fit, advice: tuple[Advice, ...]) -> None:
    before = simulate(plan, BUILDS, seed=11)
    for move in (ChangeKind.OTHER_EDGE, ChangeKind.TEST_PIECE, ChangeKind.PLAY):
        best = next(one for one in advice if one.change.kind is move)
        after = simulate(with_change(plan, best.change), BUILDS, seed=12)
        fallen = sum(before.share(name) - after.share(name) for name in plan.gaps)
        # The error of a sum of shares, were they all to fail together.
        sampling = sum(sqrt(2 * s.chance * (1 - s.chance) / BUILDS) for s in plan.spreads.values())
        assert fallen == pytest.approx(best.gain, abs=sampling)
        assert fallen > best.gain / 2


def test_a_change_alters_only_the_gaps_that_use_its_sizes(plan: Fit, advice: tuple[Advice, ...]) -> None:
    for one in advice:
        after = with_change(plan, one.change)
        whole = {name: spread for name, spread in after.spreads.items() if name not in plan.gaps}
        assert not whole
        fresh = fit(after.project, after.method)
        for name, spread in after.spreads.items():
            assert spread.deviation == pytest.approx(fresh.spreads[name].deviation), (one.text, name)
            assert spread.chance == pytest.approx(fresh.spreads[name].chance, abs=1e-12), (one.text, name)


def test_a_size_between_two_marks_is_set_to_the_one_that_closes_better(
    plan: Fit, advice: tuple[Advice, ...]
) -> None:
    best = next(one for one in advice if one.change.kind is ChangeKind.OTHER_MARK)
    for name, nudge in best.change.method.nudged.items():
        planned = plan.project.sizes.of(name)
        now = plan.error_model().mean(name)
        after = with_change(plan, best.change).error_model().mean(name)
        assert after - now == nudge and min(now, after) < planned < max(now, after)
    assert best.best.after.chance < best.best.before.chance


def test_channels_laid_off_from_the_other_edge_at_one_number_share_a_setting(
    plan: Fit, advice: tuple[Advice, ...]
) -> None:
    change = next(one.change for one in advice if one.change.kind is ChangeKind.OTHER_EDGE)
    changed = with_change(plan, change)
    model = changed.error_model()
    assert change.sizes and change.method.moved >= set(change.sizes)
    by_number: dict[F, set[str]] = {}
    for name in change.sizes:
        far = far_edge_name(name)
        assert change.method.settings[far].endswith(" from the far edge")
        by_number.setdefault(model.mean(far), set()).add(change.method.settings[far])
    assert all(len(settings) == 1 for settings in by_number.values())


def test_the_same_change_in_every_case_is_one_piece_of_advice() -> None:
    two = fit(draw_up(job(spec("B1", bays=BASE), spec("B2", bays=BASE))))
    edge = next(one for one in advise(two) if one.change.kind is ChangeKind.OTHER_EDGE)
    assert {two.made[name].part.partition("-")[0] for name in edge.change.sizes} == {"B1", "B2"}
    assert "4 sides (B1-L, B1-R, B2-L, B2-R)" in edge.text


def test_nothing_is_advised_where_nothing_is_at_risk(plan: Fit) -> None:
    assert advise(plan, limit=0.9999) == ()


def test_a_shop_without_errors_needs_no_advice() -> None:
    plain = job(spec("B1"))
    saw = replace(plain.shop.table_saw, setting=0.0, cut=0.0)
    still = replace(plain.shop, table_saw=saw)
    before, after = (fit(draw_up(replace(plain, shop=shop))) for shop in (plain.shop, still))
    assert sum(one.gain for one in advise(after)) < sum(one.gain for one in advise(before)) / 2
