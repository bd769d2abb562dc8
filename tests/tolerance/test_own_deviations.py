"""What readings teach of the shop, on simulated shops whose deviations are known, and by hand."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from casewright.jobfile.catalogue import packaged_catalogue
from casewright.shop.deviations import Workmanship
from casewright.shop.measuring_tools import MeasuringTool
from casewright.tolerance.learning.own_deviations import (
    CutReading,
    SetBy,
    learn_deviations,
    nearest_start,
)
from oracles.simulated_shops import caliper_readings

CAREFUL = packaged_catalogue().deviations[Workmanship.CAREFUL]


def read(
    set_by: SetBy,
    setting: str,
    *thousandths: float,
    number: float = 2.0,
    tool: MeasuringTool = MeasuringTool.CALIPER,
    again: str = "",
) -> list[CutReading]:
    """Readings so many thousandths above their number."""
    return [
        CutReading(f"{setting} {index}", set_by, setting, number, number + one / 1000, tool, again)
        for index, one in enumerate(thousandths)
    ]


@pytest.mark.parametrize("shop", Workmanship)
def test_after_24_settings_nine_shops_in_ten_are_within_a_factor_of_1_3(shop: Workmanship) -> None:
    true = packaged_catalogue().deviations[shop]
    rng = np.random.default_rng(18)
    near = {"fence": 0, "cut": 0}
    for _ in range(60):
        learned = learn_deviations(true, caliper_readings(true, rng))
        for figure in learned.figures:
            if figure.name in near:
                near[figure.name] += 1 / 1.3 < figure.to_use / getattr(true, figure.name) < 1.3
    assert min(near.values()) >= 54, near


def test_a_shop_twice_as_good_as_its_column_is_found_out() -> None:
    true = replace(CAREFUL, fence=0.003, cut=0.0015, scale=0.001)
    learned = learn_deviations(CAREFUL, caliper_readings(true, np.random.default_rng(5)))
    figures = {figure.name: figure.to_use for figure in learned.figures}
    assert figures["fence"] < 0.0045 and figures["cut"] < 0.0023 and figures["scale"] < 0.003


def test_no_reading_teaches_nothing_and_few_widen() -> None:
    assert learn_deviations(CAREFUL, ()).figures == ()
    few = learn_deviations(CAREFUL, read(SetBy.GROOVE, "a", 3.0) + read(SetBy.GROOVE, "b", -3.0))
    many = [one for n in range(40) for one in read(SetBy.GROOVE, f"{n}", 3.0 if n % 2 else -3.0)]
    (groove,), (sure,) = few.figures, learn_deviations(CAREFUL, many).figures
    assert groove.to_use > CAREFUL.groove > sure.to_use * 0.95
    assert groove.to_use > sure.to_use and groove.degrees is not None and groove.degrees < 8


def test_a_scale_that_reads_long_is_the_scale_s_and_not_the_fence_s() -> None:
    every = [one for n in range(8) for one in read(SetBy.FENCE, f"{n}", 10.0 + (-1) ** n, number=1.0 + n)]
    learned = learn_deviations(CAREFUL, every)
    (scale,) = learned.scales
    assert 0.008 < scale.offset.mean < 0.0101 and scale.settings == 8
    figures = {figure.name: figure.to_use for figure in learned.figures}
    assert figures["fence"] < 0.006 and 0.008 < figures["scale"] < 0.011


def test_each_scale_has_an_offset_of_its_own() -> None:
    fence = [one for n in range(6) for one in read(SetBy.FENCE, f"f{n}", 8.0)]
    stop = [one for n in range(6) for one in read(SetBy.STOP, f"s{n}", -8.0)]
    offsets = {one.set_by: one.offset.mean for one in learn_deviations(CAREFUL, fence + stop).scales}
    assert offsets[SetBy.FENCE] > 0.006 and offsets[SetBy.STOP] < -0.006


def test_a_setting_made_again_teaches_how_well_it_was_found_again() -> None:
    every = read(SetBy.FENCE, "first", 9.0, 9.0) + read(SetBy.FENCE, "again", 10.0, 10.0, again="first")
    figures = {one.name: one for one in learn_deviations(CAREFUL, every).figures}
    assert figures["fence"].settings == 1 and figures["fence_again"].settings == 1
    assert figures["fence_again"].to_use < figures["fence"].to_use


def test_depths_teach_the_height_by_setting_and_the_flatness_by_place() -> None:
    every = [one for n in range(12) for one in read(SetBy.HEIGHT, f"{n}", (-1) ** n * 6.0, (-1) ** n * 6.2)]
    figures = {one.name: one.to_use for one in learn_deviations(CAREFUL, every).figures}
    assert figures["height"] > 0.005 and figures["flatness"] < 0.002


def test_a_rule_teaches_nothing_and_a_blunder_is_listed_by_any_tool() -> None:
    by_rule = read(SetBy.FENCE, "a", 12.0, -9.0, tool=MeasuringTool.RULE)
    assert learn_deviations(CAREFUL, by_rule).figures == ()
    assert learn_deviations(CAREFUL, by_rule).unused == 2
    wrong = read(SetBy.FENCE, "b", 125.0, tool=MeasuringTool.RULE) + read(SetBy.FENCE, "c", -125.0)
    learned = learn_deviations(CAREFUL, by_rule + wrong + read(SetBy.FENCE, "c", 1.0))
    assert learned.blunders == tuple(wrong)
    assert {one.name: one.readings for one in learned.figures} == {"fence": 1, "scale": 1}


def test_the_figures_learned_from_enough_take_the_place_of_those_started_from() -> None:
    few = learn_deviations(CAREFUL, read(SetBy.DADO_PACKED, "a", 1.0) + read(SetBy.DADO_PACKED, "b", 1.0))
    assert few.figures and few.applied(CAREFUL) == CAREFUL
    every = [one for name in "abc" for one in read(SetBy.DADO_PACKED, name, 1.0)]
    learned = learn_deviations(CAREFUL, every)
    assert learned.applied(CAREFUL) == replace(CAREFUL, dado_packed=learned.figures[0].to_use)
    assert [one.enough for one in learn_deviations(CAREFUL, read(SetBy.FENCE, "a", 1, 2, 3, 4)).figures] == [
        False,
        False,
        True,
    ], "fence and scale on one setting, the cut on four pieces"


COLUMNS = packaged_catalogue().deviations


def test_readings_name_the_starting_shop_they_are_nearest_to() -> None:
    assert nearest_start(learn_deviations(CAREFUL, ()), Workmanship.CAREFUL, COLUMNS) is Workmanship.CAREFUL
    few = learn_deviations(CAREFUL, [one for n in range(3) for one in read(SetBy.FENCE, f"{n}", 0.0, 0.0)])
    assert nearest_start(few, Workmanship.CAREFUL, COLUMNS) is Workmanship.CAREFUL, "drawn to where it starts"
    rng = np.random.default_rng(2)
    named = [
        nearest_start(
            learn_deviations(CAREFUL, caliper_readings(COLUMNS[shop], rng)), Workmanship.CAREFUL, COLUMNS
        )
        is shop
        for shop in Workmanship
        for _ in range(30)
    ]
    assert sum(named) >= 0.8 * len(named)
