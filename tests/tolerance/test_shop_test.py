"""The shop's test: what its blanks teach, and what the five cuts and the thicknesses come to."""

from __future__ import annotations

from cmath import exp, phase
from dataclasses import replace
from fractions import Fraction as F
from math import tan

import pytest

from casewright.casework.job import Job
from casewright.jobfile.catalogue import packaged_catalogue
from casewright.lengths.length import Mark, Unit
from casewright.shop.deviations import Workmanship
from casewright.tolerance.learning.own_deviations import learn_deviations
from casewright.tolerance.learning.shop_test import (
    readings_of_test,
    shop_test,
    sled_square,
    thickness_readings,
)
from casewright.tolerance.learning.typed_test import read_test
from samples import job

JOB = job()
METRIC = replace(JOB, unit=Unit.MM, mark=Mark.MILLIMETRE, rounding=Mark.MILLIMETRE)
CAREFUL = packaged_catalogue().deviations[Workmanship.CAREFUL]


@pytest.mark.parametrize("chosen", [JOB, METRIC], ids=lambda chosen: chosen.unit.value)
def test_it_takes_a_quarter_of_an_hour_and_its_numbers_are_on_the_rule(chosen: Job) -> None:
    test = shop_test(chosen)
    assert test.minutes == 15 and len(test.blanks) == sum(len(cut.blanks) for cut in test.cuts)
    strips = [blank.number for name, blank in test.blanks.items() if name.startswith("strip")]
    assert len(strips) == 10 and len(set(strips)) == 5
    assert all((number / chosen.mark.step).denominator == 1 for number in strips)
    assert all(number < 6 for number in strips), "a small caliper reaches no further"


def test_dadoes_are_packed_of_the_cutters_that_the_shop_has() -> None:
    assert shop_test(JOB).blanks["dado 1"].number == F(3, 4)
    few = replace(JOB.shop.dado_stack, chippers=(F(1, 8), F(1, 16)))
    test = shop_test(replace(JOB, shop=replace(JOB.shop, dado_stack=few)))
    assert test.blanks["dado 1"].number == F(7, 16)


def test_each_blank_teaches_what_it_was_cut_for() -> None:
    test = shop_test(JOB)
    numbers = {name: blank.number for name, blank in test.blanks.items()}
    readings = readings_of_test(test, numbers, numbers, "test")
    figures = {one.name: one for one in learn_deviations(CAREFUL, readings).figures}
    counted = {name: (one.readings, one.settings) for name, one in figures.items()}
    assert counted == {
        "fence": (9, 5),
        "scale": (9, 5),
        "fence_again": (1, 1),
        "cut": (5, 1),
        "dado_packed": (3, 3),
        "height": (3, 1),
        "flatness": (3, 1),
    }
    assert {name for name, one in figures.items() if one.enough} == {"fence", "scale", "cut", "dado_packed"}


def test_five_cuts_carry_the_error_of_four() -> None:
    """From plain geometry: each cut lies a right angle and the sled's angle from the edge at its fence."""
    angle, edge = 0.0005, 1 + 0j
    for _ in range(4):
        edge *= 1j * exp(1j * angle)
    wedge = 15 * tan(phase(edge))
    ends = {
        "five-cut near end": F(2) + F(wedge).limit_denominator(10**6),
        "five-cut far end": F(2),
        "five-cut length": F(15),
    }
    found = sled_square(ends, Unit.INCH)
    assert found is not None and found.over == pytest.approx(24 * angle, rel=1e-4) and not found.square
    level = sled_square({**ends, "five-cut near end": F(2)}, Unit.INCH)
    assert level is not None and level.square
    assert sled_square({"five-cut near end": F(2)}, Unit.INCH) is None


def test_empty_blanks_are_skipped_and_thicknesses_come_in_order() -> None:
    entries = [("thickness 2-1", "0.701"), ("thickness 1-1", "18 mm"), ("strip 1", "")]
    typed = read_test(shop_test(JOB), entries, Unit.INCH)
    assert not typed.findings and set(typed.values) == {"thickness 1-1", "thickness 2-1"}
    assert thickness_readings(shop_test(JOB), typed.values) == (F(18) / F("25.4"), F("0.701"))
