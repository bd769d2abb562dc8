"""Stacks of tolerances and capability against published formulas and worked examples.

Worst case and root-sum-square: F. Scholz, "Tolerance Stack Analysis Methods", Boeing
Information and Support Services, 1995. Capability: NIST/SEMATECH e-Handbook of Statistical
Methods, 6.1.6 (its example's figures from memory).
"""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from casewright.casework.build.meetings import Meeting
from casewright.sizes.affine import Affine
from casewright.tolerance.chains.gaps import Gap
from casewright.tolerance.chains.limits import GapLimits
from casewright.tolerance.chains.roles import GapRole, Sight
from casewright.tolerance.errors.causes import Cause, CauseKind
from casewright.tolerance.outcomes.bounds import Bounds
from casewright.tolerance.outcomes.gap_spread import WORST, GapSpread


def stack(mean: F, tolerances: list[F], low: F, high: F) -> GapSpread:
    """A gap of parts whose tolerances are `WORST` deviations each."""
    form = Affine(mean)
    limits = GapLimits("as published", shown_low=Affine(low), shown_high=Affine(high))
    role, sight = GapRole.OPENING, Sight.EXPOSED
    gap = Gap("stack", "stack", "", (), Meeting.PLAY, form, form, limits, (), form, role, sight)
    errors = {
        Cause(CauseKind.CUT, str(index), float(tolerance) / WORST): 1.0
        for index, tolerance in enumerate(tolerances)
    }
    bounds = Bounds(None, None, None, None, None, low, high)
    return GapSpread(gap, mean, mean, bounds, errors)


def test_ten_parts_of_a_tenth_stack_to_one_at_worst_and_to_a_third_in_root_sum_square() -> None:
    """A published example of ten parts at 0.1 mm: worst 1.0 mm, root-sum-square 0.316 mm."""
    ten = stack(F(0), [F(1, 10)] * 10, F(-1), F(1))
    assert ten.worst == pytest.approx((-1.0, 1.0))
    assert WORST * ten.deviation == pytest.approx(0.316, abs=0.0005)


def test_a_housing_less_three_parts_leaves_the_published_gap() -> None:
    """A published four-part gap: 40±0.10 - 25±0.05 - 2±0.03 - 10±0.05 leaves 3.0 mm.

    Its totals by Scholz's formulas: worst case ±0.23, root-sum-square ±0.1261.
    """
    mean = F(40) - 25 - 2 - 10
    four = stack(mean, [F(10, 100), F(5, 100), F(3, 100), F(5, 100)], F(277, 100), F(323, 100))
    assert four.mean == 3
    assert four.worst == pytest.approx((2.77, 3.23))
    assert WORST * four.deviation == pytest.approx(0.1261, abs=0.00005)


@pytest.mark.parametrize(("capability", "parts_in_a_million"), [(1.0, 2700), (4 / 3, 63), (5 / 3, 0.57)])
def test_chances_of_a_centred_process_are_the_handbook_s(
    capability: float, parts_in_a_million: float
) -> None:
    """Cp 1, 1.33, 1.67 give 2700, 63 and 0.57 in a million outside (standard normal; from memory)."""
    limit = F(capability).limit_denominator(3) * 3
    centred = stack(F(0), [F(3)], -limit, limit)
    assert centred.deviation == pytest.approx(1.0)
    assert centred.chance * 1e6 == pytest.approx(parts_in_a_million, rel=0.01)


def test_capability_of_the_handbook_s_example() -> None:
    """NIST 6.1.6: limits 8 and 20, mean 16, deviation 2: Cp 1.0, Cpk 0.6667."""
    example = stack(F(16), [F(6)], F(8), F(20))
    low, high = F(8), F(20)
    cp = float(high - low) / (6 * example.deviation)
    nearer = min(float(high - example.mean), float(example.mean - low))
    assert cp == pytest.approx(1.0)
    assert nearer / (3 * example.deviation) == pytest.approx(0.6667, abs=5e-5)
    # The normal table at two and at four deviations.
    assert example.chance == pytest.approx(0.022750 + 3.167e-5, abs=1e-6)
    assert example.outcome.shown == example.chance
    assert stack(F(16), [F(6)], F(8), F(100)).chance == pytest.approx(3.167e-5, abs=1e-8)
