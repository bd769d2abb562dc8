"""Solid wood and its climate in a job file: read, written back, and kept in the other unit."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from casewright.casework.job import Job
from casewright.jobfile.read.read_job import read_job
from casewright.jobfile.write.other_unit import in_other_unit
from casewright.jobfile.write.write_job import write_job
from casewright.lengths.length import Unit
from casewright.shop.moisture import Air, Climate, Region, celsius_of
from casewright.shop.woods import Sawn, wood_called
from jobfile.changed_jobs import PLAIN

BOARDS = """
[materials.boards]
name = "cherry boards"
nominal = 1
usual = "13/16"
deviation = "0.01"
size = [96, 6]
wood = "Cherry"
"""


def with_climate(entries: str) -> Job:
    return read_job(f"{PLAIN}{BOARDS}\n[climate]\n{entries}\n")


def percents(climate: Climate) -> list[float]:
    """In the shop, and in the house at its driest and dampest."""
    return [float(one) for one in (climate.in_shop, climate.at_driest, climate.at_dampest)]


def test_a_material_of_solid_wood() -> None:
    sheet = read_job(PLAIN + BOARDS).sheets["boards"]
    assert sheet.wood == wood_called("black cherry") and sheet.sawn is Sawn.FLAT
    assert read_job(PLAIN).sheets["birch"].wood is None
    sawn = read_job(PLAIN + BOARDS + 'sawn = "quarter"\n').sheets["boards"]
    assert sawn.sawn is Sawn.QUARTER


def test_solid_wood_weighs_what_its_wood_does() -> None:
    """0.50 x 62.4 lb/ft3 x 1.12, 13/16 in thick; what the maker says goes before it."""
    sheet = read_job(PLAIN + BOARDS).sheets["boards"]
    assert float(sheet.weight) == pytest.approx(0.5 * 62.4 * 1.12 * 13 / 16 / 12, abs=0.006)
    assert read_job(PLAIN + BOARDS + 'weight = "3 lb/ft2"\n').sheets["boards"].weight == 3


def test_a_climate_by_percent_and_by_the_air() -> None:
    job = with_climate('shop = "70 F, 45 %"\nhouse_dry = 6.5\nhouse_damp = "25.5 °C 60%"')
    climate = job.climate
    assert climate.shop == Air(celsius_of(F(70)), F(45), "70 F, 45 %")
    assert (climate.in_shop, climate.at_driest) == (F("8.5"), F("6.5"))
    assert climate.house_damp == Air(F("25.5"), F(60), "25.5 °C 60%")
    assert not climate.assumed
    assert with_climate('shop = "9 %"').climate.shop == 9


def test_what_is_not_said_is_usual_in_the_region() -> None:
    assert read_job(PLAIN).climate == Climate() and Climate().assumed
    assert percents(Climate()) == [8, 6, 10]
    damp = with_climate('region = "damp coast"\nshop = 9').climate
    assert damp.region is Region.DAMP_COAST
    assert percents(damp) == [9, 8, 13] and damp.assumed


@pytest.mark.parametrize(
    "entries",
    [
        "",
        'region = "dry southwest"',
        "shop = 7.5",
        'shop = "70 F, 45 %"\nhouse_dry = 6\nhouse_damp = "25 C, 60 %"',
    ],
)
def test_what_is_written_reads_back_the_same(entries: str) -> None:
    job = with_climate(entries)
    assert read_job(write_job(job)) == job
    assert write_job(read_job(write_job(job))) == write_job(job)


def test_the_other_unit_leaves_moisture_alone() -> None:
    text = f'{PLAIN}{BOARDS}\n[climate]\nshop = 8\nhouse_dry = "70 F, 30 %"\n'
    for exactly in (True, False):
        metric = in_other_unit(text, Unit.MM, exactly=exactly)
        assert read_job(metric.text).climate == read_job(text).climate
        assert not any(one.place.startswith("climate") for one in metric.lengths)
