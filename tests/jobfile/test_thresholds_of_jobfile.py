"""Weights a job file gives in kilograms, against the published factors."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from casewright.jobfile.read.read_job import read_job
from casewright.lengths.length import Unit
from casewright.lengths.quantities import KILOGRAMS_IN_A_POUND, area, weighed

JOB = """\
job = "Net loft"
unit = "{unit}"
[made_of]
case = "birch"
back = "birch"
[materials.birch]
sheet = "hardwood ply 3/4"
weight = {weight}
[shop.carry]
weight = {carry}
[[runs]]
name = "north wall"
opening = "60 in"
[[runs.cases]]
mark = "N1"
kind = "base"
"""


def read(unit: str, weight: str, carry: str) -> tuple[float, float]:
    """Pounds per square foot of the sheet, and pounds one person carries."""
    job = read_job(JOB.format(unit=unit, weight=weight, carry=carry))
    carried = job.shop.carry.weight
    assert carried is not None
    return float(job.sheets["birch"].weight), float(carried)


@pytest.mark.parametrize(
    ("unit", "weight", "carry", "per_foot", "pounds"),
    [
        ("in", "2.3", "50", 2.3, 50),
        ("mm", '"2.3 lb/ft2"', '"50 lb"', 2.3, 50),
        ("in", '"12.2 kg/m2"', '"23 kg"', 12.2 / 4.882428, 23 / 0.45359237),
        ("mm", "12.2", "23", 12.2 / 4.882428, 23 / 0.45359237),
    ],
)
def test_weights(unit: str, weight: str, carry: str, per_foot: float, pounds: float) -> None:
    """NIST SP 811, appendix B: 1 lb is 0.453 592 37 kg, 1 lb/ft2 is 4.882 428 kg/m2."""
    area, load = read(unit, weight, carry)
    assert area == pytest.approx(per_foot, rel=1e-6)
    assert load == pytest.approx(pounds, rel=1e-9)


def test_weights_as_printed() -> None:
    """NIST SP 811: 1 lb is 0.453 592 37 kg; 1 in2 is 6.4516 cm2."""
    assert F("0.45359237") == KILOGRAMS_IN_A_POUND
    assert (weighed(F(100), Unit.INCH), weighed(F(100), Unit.MM)) == ("100 lb", "45 kg")
    assert (area(F(100), Unit.INCH), area(F(100), Unit.MM)) == ("100 sq in", "645 cm²")
