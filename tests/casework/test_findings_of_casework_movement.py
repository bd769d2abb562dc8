"""Solid wood that its joints do not let move, each with the nearest job where they do."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from typing import Any

from casework.odd_jobs import of
from casework.solid_jobs import SAID, solid
from casewright.casework.job import BackKind, Bay, ToeKind, TopKind
from casewright.casework.project import draw_up
from casewright.findings import Finding, Weight
from casewright.shop.moisture import Climate
from finding_rows import Provoke, Row, check, each


def said_of(*arguments: Any, **made: Any) -> Provoke:
    return of(lambda: solid(*arguments, **made))


SOLID_CASE = {"case": "cherry", "shelf": "cherry", "strip": "cherry", "toe": "cherry"}
OAK_BACK = {"back": "thin-oak"}
ROOMY: dict[str, Any] = {"back_play": F(3, 8), "width": F(30)}

PLAIN: dict[str, Any] = {
    "top": TopKind.RABBET,
    "toe": ToeKind.NONE,
    "bays": (Bay(fixed=(F(10),)),),
}

ROWS = [
    Row(
        "glued-across-grain",
        "B1-F11",
        "the fixed shelf is solid black cherry",
        "front inch or two",
        said_of({"shelf": "cherry"}),
        said_of({**SOLID_CASE}),
        weight=Weight.WARN,
    ),
    Row(
        "glued-across-grain",
        "B1-L",
        "the left side is solid black cherry",
        "both of plywood",
        said_of({**SOLID_CASE, "shelf": "ply"}),
        said_of({**SOLID_CASE}),
        weight=Weight.WARN,
    ),
    Row(
        "glued-across-grain",
        "B1-F11",
        "to the left side",
        "Make both of the same wood",
        said_of({**SOLID_CASE, "shelf": "quartered"}),
        said_of({**SOLID_CASE}),
        weight=Weight.WARN,
    ),
    Row(
        "glued-across-grain",
        "B1-K",
        "the back is solid red oak",
        'set back = "groove"',
        said_of(OAK_BACK, back=BackKind.RABBET),
        said_of(OAK_BACK, back=BackKind.GROOVE),
        weight=Weight.WARN,
    ),
    Row(
        "back-swells",
        "cases.B1.back_play",
        "It would push the sides apart",
        'Set back_play to 3/8" or more',
        said_of(OAK_BACK, back_play=F(11, 32), width=F(33)),
        said_of(OAK_BACK, back_play=F(3, 8), width=F(33)),
        weight=Weight.WARN,
    ),
    Row(
        "back-swells",
        "cases.B1.back_play",
        "It would push the sides apart",
        "use plywood, or narrower or quartersawn boards",
        said_of(OAK_BACK, width=F(47)),
        said_of({}, width=F(47)),
        weight=Weight.WARN,
    ),
    Row(
        "back-slips-out",
        "cases.B1.groove_depth",
        "It would slip out of them",
        'Make groove_depth 3/8" or more',
        said_of(OAK_BACK, **ROOMY, groove_depth=F(11, 32)),
        said_of(OAK_BACK, **ROOMY, groove_depth=F(3, 8)),
        weight=Weight.WARN,
    ),
    Row(
        "back-slips-out",
        "cases.B1.groove_depth",
        'in grooves 5/16" deep',
        'Make groove_depth 11/32" or more',
        said_of(OAK_BACK, width=F(30), groove_depth=F(5, 16)),
        said_of(OAK_BACK, width=F(30), groove_depth=F(11, 32)),
        weight=Weight.WARN,
    ),
    Row(
        "solid-either-way",
        "either_way",
        "B1-A1 is solid black cherry",
        "out of either_way",
        said_of({"shelf": "cherry"}, either_way=["B1-A1"]),
        said_of({"shelf": "ply"}, either_way=["B1-A1"]),
        weight=Weight.WARN,
    ),
    Row(
        "boards-not-settled",
        "climate.shop",
        "12 % of moisture in the shop, more than wood ever has in the house, 6 to 11 %",
        "dry to 8.5 % before their final sizes",
        said_of({"shelf": "cherry"}, climate=replace(SAID, shop=F(12))),
        said_of({"shelf": "cherry"}, climate=replace(SAID, shop=F(11))),
        weight=Weight.NOTE,
    ),
    Row(
        "boards-not-settled",
        "climate.shop",
        "wider there all year round",
        "come up to 8.5 %",
        said_of({"shelf": "cherry"}, climate=replace(SAID, shop=F(5))),
        said_of({"shelf": "ply"}, climate=replace(SAID, shop=F(5))),
        weight=Weight.NOTE,
    ),
    Row(
        "climate-assumed",
        "climate",
        "8 % in the shop, 6 to 10 % in the house, as is usual in most of the United States",
        "shop, house_dry and house_damp",
        said_of({"shelf": "cherry"}, climate=Climate()),
        said_of({"shelf": "cherry"}),
        weight=Weight.NOTE,
    ),
    Row(
        "climate-assumed",
        "climate",
        "the figures for the shop and the house at its dampest as is usual",
        "shop and house_damp under climate",
        said_of({"shelf": "cherry"}, climate=Climate(house_dry=F(6))),
        said_of({"shelf": "cherry"}),
        weight=Weight.NOTE,
    ),
]


@each(ROWS)
def test_findings(row: Row) -> None:
    check(row)


def codes(findings: tuple[Finding, ...]) -> set[str]:
    return {one.code for one in findings} & {row.code for row in ROWS}


def test_a_case_of_one_wood_throughout_moves_as_one() -> None:
    """Sides, bottom, shelves and stretchers have their grain so that all of them move from front to back: the
    way cases of boards have always been built. The back is of plywood."""
    assert not codes(draw_up(solid(SOLID_CASE)).findings)


def test_a_back_of_the_cases_own_wood_is_held_by_the_bottom() -> None:
    """The grain of the bottom runs from side to side, across the back's: it does not move with it."""
    oak = {"case": "oak", "shelf": "oak", "strip": "oak", "toe": "oak", "back": "thin-oak"}
    told = draw_up(solid(oak, back=BackKind.APPLIED)).findings
    assert [one.place for one in told if one.code == "glued-across-grain"] == ["B1-K"]


def test_shelves_on_pins_hold_nothing() -> None:
    """Neither a plywood shelf the solid sides, nor plywood sides the solid shelf."""
    on_pins = (Bay(adjustable=2),)
    sides = {**SOLID_CASE, "shelf": "ply"}
    for made_of in (sides, {"shelf": "cherry"}):
        assert not codes(draw_up(solid(made_of, bays=on_pins)).findings)


def test_a_wide_strip_is_held_by_the_sides() -> None:
    wide = draw_up(solid({"strip": "oak"}, strip_width=F(7))).findings
    (told,) = (one for one in wide if one.code == "glued-across-grain")
    assert told.place == "B1-M1" and "side" in told.text


def test_narrow_wood_may_be_glued_across() -> None:
    """6 in of width at most: common practice, no source."""

    def held(depth: F) -> tuple[F, set[str]]:
        project = draw_up(solid({"shelf": "oak"}, depth=depth, **PLAIN))
        return project.dimensions(project.parts["B1-F11"])[1], codes(project.findings)

    deep, told = held(F(24))
    assert told == {"glued-across-grain"}
    assert held(F(24) - (deep - 6)) == (F(6), set[str]())
    assert held(F(24) - (deep - 6) + F(1, 32)) == (6 + F(1, 32), {"glued-across-grain"})


def test_a_shop_as_moist_as_the_house_needs_no_play() -> None:
    eight = Climate(shop=F(8), house_dry=F(8), house_damp=F(8))
    still = replace(solid({"shelf": "cherry", "back": "thin-oak"}), climate=eight)
    assert not codes(draw_up(still).findings)


def test_the_play_that_solid_wood_needs_is_not_too_wide() -> None:
    """A plywood back would rattle in it; a solid one that laps its grooves still is sound."""
    (told,) = (one for one in draw_up(solid(**ROOMY)).findings if one.code == "play-too-wide")
    assert told.place == "cases.B1.back_play"
    solid_back = draw_up(solid(OAK_BACK, **ROOMY, groove_depth=F(7, 16))).findings
    assert not codes(solid_back) and "play-too-wide" not in {one.code for one in solid_back}


def test_a_solid_back_in_rabbets_needs_no_more_play_than_another() -> None:
    found = draw_up(solid(OAK_BACK, **ROOMY, back=BackKind.RABBET)).findings
    assert "play-too-wide" in {one.code for one in found}


def test_the_same_in_many_shelves_is_said_once() -> None:
    shelves = {"shelf": "cherry", "case": "ply"}
    found = draw_up(solid(shelves, bays=(Bay(fixed=(F(8), F(8))),))).findings
    told = [one for one in found if one.code == "glued-across-grain"]
    assert len(told) == 1 and "in one other place" in told[0].text
