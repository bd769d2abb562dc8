"""The joints worth a look at the dry fit: each is told on one line, a run's opening as well."""

from __future__ import annotations

from functools import cache

import pytest

from casewright.app.fit.fit_page import worth_a_look
from casewright.app.jobs.worked_job import open_job
from casewright.jobfile.write.write_job import write_job
from casewright.tolerance.outcomes.gap_spread import WORTH_A_WORD, Fit
from oracles.odd_shops import odd_job


@cache
def fit(seed: int) -> Fit:
    return open_job(write_job(odd_job(seed))).planned(0.03).fit


@pytest.mark.parametrize("seed", range(3))
def test_each_place_with_a_joint_at_risk_is_on_a_line_and_none_twice(seed: int) -> None:
    said = worth_a_look(fit(seed))
    at_risk = fit(seed).at_risk(WORTH_A_WORD)
    assert at_risk and {look.gap for look in said} <= {spread.gap.name for spread in at_risk}
    for look in said:
        _, _, others = look.text.partition("(and in ")
        named = others.partition(")")[0].split(", ") if others else []
        assert len(named) == len(set(named))
    text = " ".join(look.text for look in said)
    assert all(spread.gap.place in text for spread in at_risk)


def test_a_run_tight_in_its_opening_is_among_them() -> None:
    """It is a gap between no two parts."""
    (run,) = (spread.gap for spread in fit(0).at_risk(WORTH_A_WORD) if not spread.gap.parts)
    assert run.name in {look.gap for look in worth_a_look(fit(0))}
