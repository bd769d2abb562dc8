"""A shop's figures that no saw has and plays that hold nothing, and the nearest that are taken."""

from __future__ import annotations

from dataclasses import fields, replace
from fractions import Fraction as F

import pytest

from casework.odd_jobs import STEP, built, of
from casewright.casework.checks.figure_checks import check_figures
from casewright.findings import Weight
from casewright.jobfile.catalogue import packaged_catalogue
from casewright.shop.deviations import Deviations, Workmanship
from casewright.shop.figure_limits import figure_limits
from finding_rows import Provoke, Row, check, each
from samples import job


def strays(**figures: float) -> Provoke:
    """A shop with figures of its own."""
    plain = job()
    shop = replace(plain.shop, deviations=replace(plain.shop.deviations, **figures))
    return of(lambda: replace(plain, shop=shop))


OWN = "your own readings, or leave it out"
ROWS = [
    Row(
        "figure-too-great",
        "shop.deviations.scale",
        "10 in is",
        OWN,
        strays(scale=10),
        strays(scale=0.125),
    ),
    Row("figure-too-great", "shop.deviations.rule", "0.0626", OWN, strays(rule=0.0626), strays(rule=0.0625)),
    Row(
        "figure-too-small",
        "shop.deviations.fence",
        "0.0002 in is finer than any shop's; the least is about 0.0005 in",
        "millimetres",
        strays(fence=0.0002),
        strays(fence=0.0005),
        Weight.WARN,
    ),
    Row(
        "play-too-wide",
        "cases.B1.dado_play",
        "a dado play of 2 in",
        "0.125 in or less",
        built(dado_play=F(2)),
        built(dado_play=F(1, 32)),
    ),
    Row(
        "play-too-wide",
        "cases.B1.groove_play",
        "0.09375 in",
        "0.0625 in or less",
        built(groove_play=F(3, 32)),
        built(groove_play=F(1, 16)),
        Weight.WARN,
    ),
    Row(
        "play-too-wide",
        "cases.B1.shelf_play",
        "slides off its pins",
        "0.5 in",
        built(shelf_play=F(1, 2) + STEP),
        built(shelf_play=F(1, 2)),
        Weight.WARN,
    ),
]


@each(ROWS)
def test_each_is_said_of_the_wrong_figure_and_not_of_its_neighbour(row: Row) -> None:
    check(row)


def test_every_deviation_has_its_limits_and_the_reason() -> None:
    limits = figure_limits()["deviations"]
    assert list(limits) == [one.name for one in fields(Deviations)]
    assert all(one.reason and one.most and one.least < one.most for one in limits.values())


@pytest.mark.parametrize("shop", list(Workmanship))
def test_no_starting_shop_is_asked_about(shop: Workmanship) -> None:
    plain = job()
    start = packaged_catalogue().deviations[shop]
    assert not list(check_figures(replace(plain, shop=replace(plain.shop, deviations=start))))
