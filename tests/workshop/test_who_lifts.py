"""Who lifts what, by the maker's own figure or by the lifting equation's."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from casewright.lengths.length import Unit
from casewright.shop.machines import Carry
from casewright.workshop.who_lifts import (
    LiftRule,
    hanging_rule,
    over_limit_words,
    piece_rule,
    sheet_rule,
    standing_rule,
    whose_figures,
)

OWN, NONE = Carry(F(60), F(72)), Carry(None, F(72))


@pytest.mark.parametrize("rule", [sheet_rule(OWN), piece_rule(OWN), standing_rule(OWN, F(24))])
def test_the_makers_own_figure_holds_for_every_lift(rule: LiftRule) -> None:
    """60 lb for one, and a third more for two: 80 lb."""
    at = [rule.lifters(F(pounds), F(48)).people for pounds in (60, 61, 80, 81)]
    assert at == [1, 2, 2, None]
    said = rule.lifters(F(97), F(96)).words(Unit.INCH)
    assert said.startswith("two with a cart") and "over the 80 lb for two" in said


def test_without_one_the_equation_judges_each_lift_by_itself() -> None:
    """A full sheet of 3/4 in MDF is 97 lb, of plywood 70 lb; half of one is 35 lb."""
    assert sheet_rule(NONE).lifters(F(38), F(48)).people == 1
    assert sheet_rule(NONE).lifters(F(39), F(48)).people == 2
    assert piece_rule(NONE).lifters(F(51), F(48)).people == 1
    assert piece_rule(NONE).lifters(F(52), F(48)).people == 2
    assert sheet_rule(NONE).lifters(F(97), F(96)).words(Unit.INCH) == (
        "two with a cart, or one end at a time (over the 51 lb for two)"
    )


def test_what_is_long_and_not_light_is_for_two() -> None:
    rule = piece_rule(OWN)
    assert [rule.lifters(F(pounds), F(73)).people for pounds in (30, 31)] == [1, 2]
    assert rule.lifters(F(31), F(72)).people == 1
    assert [rule.lifters(None, F(long)).people for long in (72, 73)] == [1, 2]


def test_what_is_hung_is_held_by_a_second() -> None:
    light = hanging_rule(OWN, F(12), F(54)).lifters(F(30), F(30))
    assert not light.alone and light.people == 1
    assert light.words(Unit.INCH) == "one lifts it, a second holds it while it is screwed"
    assert light.short == "one, a second holds it"
    assert "cabinet lift" in hanging_rule(OWN, F(12), F(54)).lifters(F(99), F(30)).short


def test_whose_figure_it_is_stands_beside_it() -> None:
    assert over_limit_words(OWN, piece_rule(OWN).limit, Unit.INCH) == "your 60 lb"
    assert over_limit_words(NONE, piece_rule(NONE).limit, Unit.INCH) == "the lifting equation’s 51 lb"
    assert "the shop’s own limit: 60 lb for one, 80 lb for two" in whose_figures(OWN, Unit.INCH)
    assert "publication 94-110: 38 lb for one and 51 lb for two" in whose_figures(NONE, Unit.INCH)
