"""How each size of a part is made, and on which setting: what errs together is what shares one."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from casewright.casework.job import Construction, TopKind
from casewright.casework.project import draw_up
from casewright.lengths.length import Mark, Unit
from casewright.tolerance.chains.made_sizes import HowMade, MadeSize
from casewright.tolerance.outcomes.gap_spread import fit
from samples import SHOP, job, spec


def made(rip: F = F(52), stack: F = F(1, 8), **units: object) -> dict[str, MadeSize]:
    shop = replace(
        SHOP,
        table_saw=replace(SHOP.table_saw, rip_capacity=rip),
        dado_stack=replace(SHOP.dado_stack, outside=stack),
    )
    usual = Construction(top=TopKind.RABBET)
    drawn = draw_up(replace(job(spec(construction=usual), construction=usual), shop=shop, **units))  # type: ignore[arg-type]
    return dict(fit(drawn).made)


@pytest.mark.parametrize(
    ("units", "width", "depth", "groove"),
    [
        ({}, "dado stack for 0.719 in", "0.250 in", "two passes for 0.234 in"),
        (
            {"unit": Unit.MM, "mark": Mark.MILLIMETRE},
            "dado stack for 18.26 mm",
            "6.35 mm",
            "two passes for 5.95 mm",
        ),
    ],
)
def test_a_setting_of_the_cutter_is_named_by_what_a_caliper_reads(
    units: dict[str, object], width: str, depth: str, groove: str
) -> None:
    """23/32 is 0.71875 in or 18.256 mm; the groove is 7/32 and 1/64: 0.234 in, 5.953 mm."""
    sizes = made(**units)  # type: ignore[arg-type]
    assert sizes["B1-L.dado-bottom.width"].setting == width
    assert sizes["B1-L.dado-bottom.depth"].setting == f"{depth} height of the {width}"
    assert sizes["B1-L.groove-back.width"].setting == groove
    assert sizes["B1-L.dado-bottom.at"].setting == "B1 sides dado-bottom place"
    assert sizes["B1-L.length"].setting == sizes["B1-R.length"].setting == "B1 sides length"
    assert "B1-L.rabbet-top.at" not in sizes, "a rabbet lies at the edge"
    assert sizes["B1-L.rabbet-top.width"].setting == "B1 sides rabbet-top width"


def test_a_channel_as_wide_as_two_outside_cutters_takes_the_stack_and_a_hair_less_the_blade() -> None:
    """23/32 wide: two cutters of 23/64 just go in."""
    assert made(stack=F(23, 64))["B1-L.dado-bottom.width"].how is HowMade.STACK
    assert made(stack=F(23, 64) + F(1, 1000))["B1-L.dado-bottom.width"].how is HowMade.TWO_PASSES


def test_what_is_longer_than_the_rail_is_cut_by_hand_a_pair_in_one_pass() -> None:
    assert made(rip=F(69, 2))["B1-L.length"].how is HowMade.FENCE
    by_hand = made(rip=F(69, 2) - F(1, 1000))
    assert by_hand["B1-L.length"].how is HowMade.HAND_SAW
    assert by_hand["B1-L.length"].setting == by_hand["B1-R.length"].setting


def test_what_is_gauged_from_the_stock_is_so_for_the_numbers_and_for_the_errors_alike() -> None:
    """A rabbet follows the sheet that lies in it, a groove's inset the strip behind it: neither has a number,
    and neither has an error of the scale."""
    usual = Construction(top=TopKind.RABBET)
    plan = fit(draw_up(job(spec(construction=usual), construction=usual)))
    gauged = {name for name, one in plan.made.items() if one.how is HowMade.GAUGED}
    assert gauged == plan.project.numbers.set_sizes.gauged
    assert {"B1-L.rabbet-top.width", "B1-L.groove-back.at"} <= gauged
    assert all(plan.made[name].gauge for name in gauged)
    assert plan.made["B1-L.dado-bottom.at"].how is HowMade.FENCE
