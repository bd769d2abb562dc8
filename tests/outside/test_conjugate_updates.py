"""The updates of the shop's deviations against a statistics library and a published worked example."""

from __future__ import annotations

from math import sqrt

import numpy as np
import pytest
from scipy import stats

from casewright.tolerance.learning.nested_spread import (
    Belief,
    SettingMean,
    learn_between,
    learn_within,
    start_from,
)

# Wing lengths of nine midges, mm: Grogan and Wirth 1981, as worked in P. Hoff, "A First Course in Bayesian
# Statistical Methods" (2009), section 5.3, with mu0 = 1.9, kappa0 = 1, sigma0^2 = 0.01, nu0 = 1. Data and
# prior looked up; the answers (nu 10, sigma^2 0.0153, printed as 0.015) are from memory.
MIDGES = (1.64, 1.70, 1.72, 1.74, 1.82, 1.82, 1.82, 1.90, 2.08)


def test_a_published_worked_example_of_the_update() -> None:
    # A mean believed beforehand to be 1.9, worth one reading, is one reading more of 1.9.
    ten = np.array([*MIDGES, 1.9])
    after = learn_within(Belief(0.1, 1.0), float(((ten - ten.mean()) ** 2).sum()), 9, 0.0)
    assert ten.mean() == pytest.approx(1.814, abs=5e-4)
    assert after.degrees == pytest.approx(10.0, rel=1e-6)
    assert after.middle**2 == pytest.approx(0.0153, abs=5e-5)


def test_the_grid_is_the_library_s_inverse_gamma_where_that_is_exact() -> None:
    """A scaled inverse chi-square is `invgamma(nu / 2, scale=nu s^2 / 2)`, and its next reading `t(nu)`."""
    errors = np.random.default_rng(3).normal(0.0, 0.005, 12)
    between, _ = learn_between(start_from(0.006), [[SettingMean(one, 0.0) for one in errors]], 0.0)
    sigma = np.linspace(1e-4, 0.08, 40_001)
    prior = stats.invgamma.pdf(sigma**2, 2.0, scale=2.0 * 0.006**2)
    density = prior * stats.norm.pdf(errors[:, None], scale=sigma).prod(axis=0)
    posterior = stats.invgamma(between.degrees / 2, scale=between.degrees * between.middle**2 / 2)
    ours = posterior.pdf(sigma**2)
    assert between.degrees == pytest.approx(16.0, rel=1e-6)
    np.testing.assert_allclose(ours / ours.max(), density / density.max(), atol=1e-6)
    assert between.to_use == pytest.approx(stats.t(between.degrees, scale=between.middle).std(), rel=1e-9)


def test_the_caliper_s_own_error_and_uneven_settings_against_direct_integration() -> None:
    """Offset and deviation together on a plane of their own, by the library's densities."""
    settings = [SettingMean(0.009, 1e-5), SettingMean(0.001, 5e-6), SettingMean(0.006, 2.5e-6)]
    belief, (offset,) = learn_between(start_from(0.006), [settings], 0.006)
    sigma = np.geomspace(1e-4, 0.2, 1500)[:, None]
    shift = np.linspace(-0.04, 0.05, 1201)[None, :]
    density = stats.invgamma.pdf(sigma**2, 2.0, scale=2.0 * 0.006**2) * sigma**2  # per step of the logarithm
    density = density * stats.norm.pdf(shift, scale=0.006)
    for one in settings:
        density = density * stats.norm.pdf(one.error, shift, np.sqrt(sigma**2 + one.variance))
    density /= density.sum()
    mean = float((density * shift).sum())
    precision = float((density / sigma**2).sum())
    square = float((density * (1 / sigma**2 - precision) ** 2).sum())
    assert offset.mean == pytest.approx(mean, rel=1e-4)
    assert offset.deviation == pytest.approx(sqrt((density * (shift - mean) ** 2).sum()), rel=1e-4)
    assert belief.middle == pytest.approx(1 / sqrt(precision), rel=1e-4)
    assert belief.degrees == pytest.approx(2 * precision**2 / square, rel=1e-3)


def test_a_reading_variance_is_taken_off_within_a_setting() -> None:
    sigma = np.geomspace(1e-5, 0.05, 20_001)
    squares, degrees, reading = 30 * 0.0012**2, 30, 0.001**2
    density = stats.invgamma.pdf(sigma**2, 2.0, scale=2.0 * 0.003**2) * sigma**2
    density = density * stats.chi2.pdf(squares / (sigma**2 + reading), degrees) / (sigma**2 + reading)
    precision = float((density / sigma**2).sum() / density.sum())
    after = learn_within(start_from(0.003), squares, degrees, reading)
    assert after.middle == pytest.approx(1 / sqrt(precision), rel=1e-3)
    assert after.middle < learn_within(start_from(0.003), squares, degrees, 0.0).middle
