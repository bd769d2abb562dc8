"""The crosscut sled's angle: out of square over a part's width, alike in all that is cut on it."""

from __future__ import annotations

from dataclasses import replace
from math import sqrt

import pytest

from casewright.casework.project import Project, draw_up
from casewright.tolerance.chains.made_sizes import SizeKind, made_sizes
from casewright.tolerance.errors.causes import Cause, CauseKind
from casewright.tolerance.errors.way_of_working import Method
from casewright.tolerance.outcomes.gap_spread import Fit, fit
from oracles.simulate import simulate
from samples import BASE, SHOP, job, spec

OUT = 0.024  # over 24 in: a thousandth an inch
STRETCHER = "B1: B1-SF against B1-R"


def project() -> Project:
    shop = replace(SHOP, deviations=replace(SHOP.deviations, sled=OUT))
    return draw_up(replace(job(spec(bays=BASE)), shop=shop))


def on_sled(drawn: Project) -> Fit:
    """With the length of every part crosscut on the sled."""
    made = made_sizes(drawn).values()
    return fit(drawn, Method(stops=frozenset(one.setting for one in made if one.kind is SizeKind.LENGTH)))


def angle_in(plan: Fit, gap: str) -> float:
    """How much of the angle is in a gap: inches for each inch out over 24 in."""
    return plan.spreads[gap].errors.get(Cause(CauseKind.SLED, "sled", OUT), 0.0)


def test_a_narrow_stretcher_between_sides_meets_with_the_angle_of_the_wide_bottom() -> None:
    drawn = project()
    plan = on_sled(drawn)
    wide, narrow = (float(drawn.sizes.of(drawn.parts[mark].width)) for mark in ("B1-B", "B1-SF"))
    assert wide > narrow + 10
    assert abs(angle_in(plan, STRETCHER)) == pytest.approx((wide - narrow) / 24)
    plain = fit(drawn).spreads[STRETCHER].deviation
    squared = plain**2 + (OUT * (wide - narrow) / 24) ** 2
    assert plan.spreads[STRETCHER].deviation == pytest.approx(sqrt(squared), rel=0.25), "and a stop's scale"


def test_only_what_is_cut_on_the_sled_has_it() -> None:
    causes = [cause.kind for spread in fit(project()).spreads.values() for cause in spread.errors]
    assert causes and CauseKind.SLED not in causes


def test_simulated_shops_stray_as_far() -> None:
    plan = on_sled(project())
    gaps = [name for name in plan.spreads if abs(angle_in(plan, name)) > 0.1]
    assert len(gaps) > 3
    made = simulate(plan, 6000, 4)
    for name in gaps:
        assert float(made.gaps[name].std()) == pytest.approx(plan.spreads[name].deviation, rel=0.05), name
