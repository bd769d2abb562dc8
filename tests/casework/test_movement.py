"""How much solid parts move, against sums by hand with the coefficients of the Wood Handbook."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from casework.solid_jobs import SAID, STOCK, solid
from casewright.casework.movement import (
    Movement,
    climate_text,
    movement_text,
    panel_movement,
    part_movements,
)
from casewright.casework.project import draw_up
from casewright.lengths.length import MM, Mark, Unit
from casewright.shop.moisture import Climate, Region


def test_a_panel_from_the_shop_to_the_house() -> None:
    """12 in of flatsawn cherry, 0.00248 for each percent: 8 to 12 % swells 0.119 in, as in the newsgroup's
    example from the Handbook; 8 to 6 % shrinks half as much."""
    climate = Climate(shop=F(8), house_dry=F(6), house_damp=F(12))
    moves = panel_movement(F(12), STOCK["cherry"], climate)
    assert moves == Movement(12 * F("0.00248") * 2, 12 * F("0.00248") * 4)
    assert float(moves.swells) == pytest.approx(0.119, abs=5e-4)
    quartered = panel_movement(F(12), STOCK["quartered"], climate)
    assert quartered.swells / moves.swells == F("0.00126") / F("0.00248")


def test_panels_of_plywood_stay() -> None:
    assert panel_movement(F(48), STOCK["ply"], SAID) == Movement()


def test_a_shop_drier_or_damper_than_the_house() -> None:
    """Wood that is drier in the shop than ever in the house only swells; the other way round only shrinks."""
    dry = panel_movement(F(10), STOCK["oak"], Climate(shop=F(6), house_dry=F(7), house_damp=F(9)))
    assert dry == Movement(F(0), 10 * F("0.00369") * 3)
    damp = panel_movement(F(10), STOCK["oak"], Climate(shop=F(12), house_dry=F(7), house_damp=F(9)))
    assert damp == Movement(10 * F("0.00369") * 5, F(0))


def test_beyond_the_coefficients_it_is_said() -> None:
    moves = panel_movement(F(10), STOCK["oak"], Climate(Region.DRY_SOUTHWEST))
    assert moves.by_shrinkage and not panel_movement(F(10), STOCK["oak"], Climate()).by_shrinkage


def test_every_solid_part_of_a_job_and_no_other() -> None:
    project = draw_up(solid({"shelf": "cherry"}))
    moving = part_movements(project.job, project, project.sizes)
    assert [one.mark for one in moving] == ["B1-F11", "B1-A1"]
    for one in moving:
        width = project.dimensions(project.parts[one.mark])[1]
        assert (one.width, one.moves.shrinks) == (width, width * F("0.00248") * 2)
        assert one.moves.swells == width * F("0.00248") * 3


@pytest.mark.parametrize(
    ("amount", "said"),
    [
        (F(0), "nothing"),
        (F(1, 200), "a hair"),
        (F(1, 64), '1/64"'),
        (F("0.119"), '1/8"'),
        (F(7, 64), '7/64"'),
    ],
)
def test_amounts_in_words(amount: F, said: str) -> None:
    assert movement_text(solid(), amount) == said


def test_amounts_in_millimetres() -> None:
    metric = replace(solid(), unit=Unit.MM, mark=Mark.MILLIMETRE)
    assert movement_text(metric, 3 * MM + MM / 25) == "3 mm"
    assert movement_text(metric, MM * 14 / 10) == "1.4 mm"


def test_the_climate_in_words() -> None:
    assert climate_text(SAID) == "8 % in the shop, 6 to 11 % in the house"
    assert climate_text(Climate(shop=F("7.5"))) == "7.5 % in the shop, 6 to 10 % in the house"
