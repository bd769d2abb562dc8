"""Every gap's mean and spread, against an outside library and against simulated shops."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from math import sqrt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from uncertainties import UFloat, correlation_matrix, ufloat

from casewright.casework.job import BackKind, BottomJoint, Construction, Filler, ShelfJoint, ToeKind, TopKind
from casewright.casework.project import draw_up
from casewright.shop.measuring_tools import MeasuringTool
from casewright.tolerance.errors.causes import Cause, CauseKind, deviation
from casewright.tolerance.errors.way_of_working import FittedSize, Method
from casewright.tolerance.outcomes.gap_spread import Fit, fit, spread_of
from oracles.simulate import simulate
from samples import BASE, SHEETS, job, spec

BACK_PLAY = "B1: B1-K in the groove of B1-R"
STRETCHER = "B1: B1-SF against B1-R"


def one_case(method: Method | None = None, **changes: object) -> Fit:
    made = replace(Construction(), **changes)  # type: ignore[arg-type]
    project = draw_up(job(spec("B1", construction=made, bays=BASE), construction=made))
    return fit(project, method or Method())


def by_uncertainties(fitted: Fit) -> dict[str, UFloat]:
    """Each gap as a sum of the library's numbers, a number of its own for every cause."""
    model = fitted.error_model()
    drawn: dict[Cause, UFloat] = {}
    sizes: dict[str, UFloat] = {}
    for gap in fitted.gaps.values():
        for name in model.form(gap).names:
            if name not in sizes:
                sizes[name] = float(model.mean(name)) + sum(
                    share * drawn.setdefault(cause, ufloat(0, cause.deviation))
                    for cause, share in model.error(name).items()
                )
    return {
        gap.name: float(model.form(gap).constant)
        + sum(float(k) * sizes[name] for name, k in model.form(gap).terms)
        for gap in fitted.gaps.values()
    }


@settings(deadline=None, max_examples=15)
@given(
    st.builds(
        Construction,
        bottom=st.sampled_from(BottomJoint),
        top=st.sampled_from(TopKind),
        back=st.sampled_from(BackKind),
        shelf=st.sampled_from(ShelfJoint),
        toe=st.sampled_from(ToeKind),
    )
)
def test_means_deviations_and_shares_are_those_of_the_uncertainties_library(made: Construction) -> None:
    fitted = fit(draw_up(job(spec("B1", construction=made, bays=BASE), construction=made)))
    theirs = by_uncertainties(fitted)
    assert len(theirs) > 5
    for name, spread in fitted.spreads.items():
        assert float(spread.mean) == pytest.approx(theirs[name].nominal_value, abs=1e-12)
        assert spread.deviation == pytest.approx(theirs[name].std_dev, rel=1e-9)
        parts = sorted((part**2 for part in theirs[name].error_components().values() if part), reverse=True)
        ours = [share * spread.deviation**2 for _, share in spread.shares]
        assert ours == pytest.approx(parts, rel=1e-9)
        assert sum(share for _, share in spread.shares) == pytest.approx(1.0)


def test_gaps_that_share_a_setting_err_together_as_the_library_says() -> None:
    fitted = one_case()
    names = list(fitted.spreads)
    theirs = np.array(correlation_matrix(list(by_uncertainties(fitted).values())))
    ours = np.eye(len(names))
    for i, first in enumerate(fitted.spreads.values()):
        for j, second in enumerate(fitted.spreads.values()):
            shared = sum(
                share * second.errors.get(cause, 0.0) * cause.deviation**2
                for cause, share in first.errors.items()
            )
            ours[i, j] = shared / (first.deviation * second.deviation)
    assert ours == pytest.approx(theirs, abs=1e-9)
    assert ours[names.index(STRETCHER), names.index("B1: B1-SB against B1-R")] > 0.9


WORKED = Method(
    measured={
        "ply.thickness": MeasuringTool.CALIPER,
        "B1-L.dado-bottom.depth": MeasuringTool.CALIPER,
        "B1-R.dado-bottom.depth": MeasuringTool.CALIPER,
        "B1-B.length": MeasuringTool.RULE,
    },
    follow=frozenset(
        f"B1-{part}" for part in ("L", "R", "B", "SF", "SB", "K", "TK", "D1", "F11", "A1", "A2", "A3", "M1")
    ),
    fitted={"B1-K.width": FittedSize(BACK_PLAY, MeasuringTool.RULE)},
    moved=frozenset({"B1-L.groove-back.at", "B1-R.groove-back.at", "B1-B.groove-back.at"}),
    settings={
        f"B1-{part}.groove-back.at (far)": "back groove from the front edge" for part in ("L", "R", "B")
    },
)


@pytest.mark.parametrize("method", [Method(), WORKED], ids=["to plan", "measured, fitted, moved"])
def test_simulated_shops_agree_with_the_sums(method: Method) -> None:
    """Thousands of builds that know nothing of propagation, within four errors of sampling."""
    builds = 4000
    fitted = one_case(method)
    shops = simulate(fitted, builds, seed=20)
    for name, spread in fitted.spreads.items():
        drawn = shops.gaps[name]
        assert abs(drawn.mean() - float(spread.mean)) < 4 * spread.deviation / sqrt(builds), name
        assert drawn.std() == pytest.approx(spread.deviation, rel=4 / sqrt(2 * builds)), name
        sampling = sqrt(max(spread.chance * (1 - spread.chance), 1 / builds) / builds)
        assert abs(shops.share(name) - spread.chance) < 4 * sampling, name


def test_the_next_model_names_the_causes_of_every_gap_as_the_last_did_in_whatever_order() -> None:
    """Else gaps that are kept would have nothing in common with those worked out again."""
    fitted = one_case(WORKED)
    again = fitted.error_model()
    for spread in reversed(list(fitted.spreads.values())):
        assert spread_of(again, spread.gap).errors.keys() == spread.errors.keys()


@pytest.mark.parametrize("width", [None, F(36)], ids=["shares and their remainder", "a filler's rest"])
def test_a_run_follows_its_measured_opening_as_simulated_shops_do(width: F | None) -> None:
    """The filler takes what rounding leaves of the opening as measured, or all that the cases leave of it."""
    builds = 4000
    left = Filler(F(2) if width is None else None, F(1, 2), "ply")
    cases = (spec(f"B{n}", width=width) for n in (1, 2, 3))
    project = draw_up(job(*cases, opening=F(110), left=left))
    fitted = fit(
        project,
        Method(measured={"run1.opening": MeasuringTool.RULE}, follow=frozenset(project.parts)),
    )
    shops, spread = simulate(fitted, builds, seed=20), fitted.spreads["run: its cases in the opening"]
    drawn = shops.gaps["run: its cases in the opening"]
    assert abs(drawn.mean() - float(spread.mean)) < 4 * spread.deviation / sqrt(builds)
    assert drawn.std() == pytest.approx(spread.deviation, rel=4 / sqrt(2 * builds))
    # A share just on its mark is a mark less as soon as the opening is measured a little narrower.
    length = deviation(fitted.error_model().error("B1-B.length"))
    assert shops.sizes["B1-B.length"].std() == pytest.approx(length, rel=4 / sqrt(2 * builds))


def test_the_same_seed_gives_the_same_builds_and_another_seed_others() -> None:
    fitted = one_case()
    first, again, other = (simulate(fitted, 50, seed) for seed in (1, 1, 2))
    assert (first.gaps[BACK_PLAY] == again.gaps[BACK_PLAY]).all()
    assert (first.gaps[BACK_PLAY] != other.gaps[BACK_PLAY]).any()


def test_a_setting_shared_by_both_sides_cannot_put_the_back_on_a_twist() -> None:
    """The two sides' grooves are cut at one setting, so only each cut's own error is left."""
    spread = one_case().spreads["B1: B1-K against the front wall of the groove in B1-R"]
    assert {kind for kind, _ in spread.share_of_kinds()} == {CauseKind.CUT}
    apart = one_case(Method(settings={"B1-R.groove-back.at": "another day"}))
    assert apart.spreads[spread.gap.name].deviation > 1.5 * spread.deviation


def test_numbers_rounded_to_the_rule_shift_the_mean_not_the_plan() -> None:
    """A shelf of 23 3/64 in is cut at a thirty-second and pushes on the back by 1/64."""
    spread = one_case().spreads["B1: B1-F11 against B1-K"]
    assert spread.nominal == 0
    assert spread.mean == F(-1, 64)


def test_caliper_readings_narrow_the_fit_in_the_dado() -> None:
    readings = (F(719, 1000), F(717, 1000), F(720, 1000), F(718, 1000))
    measured = {**SHEETS, "ply": replace(SHEETS["ply"], readings=readings)}
    plain = job(spec("B1", bays=BASE))
    before = fit(draw_up(plain)).spreads["B1: B1-B in the dado of B1-L"]
    after = fit(draw_up(replace(plain, sheets=measured))).spreads["B1: B1-B in the dado of B1-L"]
    assert CauseKind.LOT in dict(before.share_of_kinds())
    assert after.deviation < 0.9 * before.deviation
    assert after.outcome.by_hand > before.outcome.by_hand


def test_worst_case_holds_every_simulated_build_and_the_usual_range_99_in_100() -> None:
    fitted = one_case()
    shops = simulate(fitted, 4000, seed=3)
    for name, spread in fitted.spreads.items():
        low, high = spread.usual
        inside = np.mean((shops.gaps[name] >= low) & (shops.gaps[name] <= high))
        assert 0.983 < inside < 0.997
        assert spread.worst[0] < low < high < spread.worst[1]
        assert shops.gaps[name].min() > spread.worst[0] and shops.gaps[name].max() < spread.worst[1]


def test_after_one_measurement_only_what_depends_on_it_is_worked_out_again() -> None:
    cases = [spec(f"B{n}", bays=BASE) for n in range(1, 9)]
    project = draw_up(job(*cases))
    whole = fit(project)
    facts = {"B3-L.dado-bottom.depth": (F(17, 64), 0.001)}
    after = whole.given(facts)
    assert 5 < after.worked < len(whole.gaps) / 8
    changed = {name for name in whole.spreads if after.spreads[name] is not whole.spreads[name]}
    assert len(changed) == after.worked
    assert {whole.gaps[name].place for name in changed} == {"B3", "run"}
    # What was left alone is what it would be if everything were worked out again.
    model = after.error_model()
    for name, spread in after.spreads.items():
        again = spread_of(model, after.gaps[name])
        assert (spread.mean, spread.nominal) == (again.mean, again.nominal)
        assert spread.deviation == pytest.approx(again.deviation)


def test_a_butted_shelf_lies_where_its_line_was_laid_out() -> None:
    fitted = one_case(bottom=BottomJoint.BUTT, toe=ToeKind.NONE, back=BackKind.APPLIED)
    spread = fitted.spreads["B1: B1-K flush with B1-B, down"]
    assert CauseKind.RULE in dict(spread.share_of_kinds())
