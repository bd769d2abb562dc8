"""What is read by caliper, scales and area, in the unit of the shop."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from casewright.lengths.length import MM, Unit
from casewright.lengths.quantities import area, caliper, running_length, stock_size, weighed


@pytest.mark.parametrize(
    ("length", "unit", "finer", "said"),
    [
        (F(23, 32), Unit.INCH, False, "0.719 in"),
        (F(23, 32), Unit.INCH, True, "0.7188 in"),
        (F(23, 32), Unit.MM, True, "18.26 mm"),
        (MM * 18, Unit.MM, False, "18.00 mm"),
        (F(-1, 32), Unit.INCH, False, "-0.031 in"),
        (F(-1, 10**6), Unit.INCH, True, "0.0000 in"),  # never a negative nought
    ],
)
def test_a_caliper_shows_thousandths_or_hundredths(length: F, unit: Unit, finer: bool, said: str) -> None:
    assert caliper(length, unit, finer=finer) == said


@pytest.mark.parametrize(
    ("length", "unit", "said"),
    [
        (F(3, 4), Unit.INCH, "3/4 (.750)"),
        (F(703, 1000), Unit.INCH, "~45/64 (.703)"),
        (F(725, 1000), Unit.INCH, "~23/32 (.725)"),
        (F(1) + F(1, 8), Unit.INCH, "1 1/8 (1.125)"),
        (MM * 18, Unit.MM, "18"),
        (MM * F("18.25"), Unit.MM, "18.25"),
        (MM * F("17.83"), Unit.MM, "~17.85 (17.83)"),
    ],
)
def test_a_thickness_is_told_to_a_64th_or_a_twentieth_with_its_decimal(
    length: F, unit: Unit, said: str
) -> None:
    assert stock_size(length, unit) == said


def test_the_gap_stands_before_the_unit() -> None:
    assert caliper(F(1, 2), Unit.INCH, gap="_") == "0.500_in"


def test_weights_and_areas() -> None:
    """A pound is 0.45359237 kg and an inch 25.4 mm, by definition (1959)."""
    assert weighed(F(100), Unit.INCH) == "100 lb"
    assert weighed(F(100), Unit.MM) == "45 kg"
    assert area(F(100), Unit.INCH) == "100 sq in"
    assert area(F(100), Unit.MM) == "645 cm²"


def test_a_length_to_buy_is_rounded_up() -> None:
    assert (
        running_length(F(12), Unit.INCH) == "1 ft" and running_length(F(12) + F(1, 64), Unit.INCH) == "2 ft"
    )
    assert running_length(1000 * MM, Unit.MM) == "1.0 m" and running_length(1001 * MM, Unit.MM) == "1.1 m"
