"""The assembly simulation against beams worked out by hand, and what it makes of small jobs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction as F
from math import erf, sqrt

import numpy as np
import pytest

from casewright.casework.job import BackKind, Bay, Construction, TopKind
from casewright.casework.project import draw_up
from oracles.assembly.bending import compliance
from oracles.assembly.closed_case import Effort
from oracles.assembly.closing import CaseProgramme
from oracles.assembly.geometry import Held, Piece, X, Y, Z, shapes_of
from oracles.assembly.made_parts import MadeParts, Method, Stock
from oracles.assembly.one_off import FAULTLESS, GROOVED, LIKE_GLASS, WALL, closed, made_but, wall_case
from oracles.assembly.shop_errors import (
    CAREFUL,
    GOOD_PLY,
    PLY_E,
    DadoWidth,
)
from oracles.assembly.verdicts import Limits, Verdict, judge
from samples import job, spec


def rigidity(piece: Piece) -> float:
    thick = min(piece.size)
    return PLY_E * piece.size[Y] * thick**3 / 12


def test_a_panel_is_as_stiff_as_the_table_of_beams_says() -> None:
    """48EI/L^3: 1340 lb/in for 3/4 x 24 over 34, 618 over 44 (computed by the project from that formula)."""
    for span, stiffness in ((34.0, 1340), (44.0, 618)):
        bends = compliance([0.0, span / 2, span], PLY_E * 24 * 0.75**3 / 12)
        moved = bends @ np.array([-0.5, 1.0, -0.5])
        assert 1 / (moved[1] - (moved[0] + moved[2]) / 2) == pytest.approx(stiffness, rel=0.001)


def test_a_load_off_the_middle_bends_a_panel_as_the_beam_formula_says() -> None:
    """P a^2 b^2 / (3 E I L), simply supported (beam tables)."""
    long, a, ei = 30.0, 8.0, 5e5
    bends = compliance([0.0, a, long], ei)
    moved = bends @ np.array([-(1 - a / long), 1.0, -a / long])
    sag = moved[1] - (moved[0] * (1 - a / long) + moved[2] * a / long)
    assert sag == pytest.approx(a**2 * (long - a) ** 2 / (3 * ei * long))


@pytest.mark.parametrize(("width", "depth"), [(36, 24), (45, 24), (36, 12), (45, 12)])
def test_a_divider_one_32nd_too_long_closes_with_4_to_19_pounds(width: int, depth: int) -> None:
    """Two beams bent from their middles, one after the other: r / (L^3/48EI + L^3/48EI)."""
    case = wall_case((Bay(), Bay()), F(width), F(depth))
    shape, found = closed(case, {"W1-D1 length": 1 / 32})
    bottom = shape.pieces["W1-B"]
    by_hand = 1 / 32 / (2 * bottom.size[X] ** 3 / (48 * rigidity(bottom)))
    push = found.push["W1-D1", 1][0]
    assert push == pytest.approx(by_hand, rel=0.01)
    assert 4 < push < 19.5
    assert found.unplaced[0] == pytest.approx(0.0, abs=1e-7)


def test_a_shelf_one_32nd_too_long_bows_both_sides() -> None:
    case = wall_case((Bay(fixed=(F(10),)),))
    shape, found = closed(case, {"W1-F11 length": 1 / 32})
    side, shelf = shape.pieces["W1-L"], shape.pieces["W1-F11"]
    low, high, at = (
        shape.pieces[mark].corner[Z] + shape.pieces[mark].size[Z] / 2 for mark in ("W1-B", "W1-T", "W1-F11")
    )
    a, span = at - low, high - low
    bow = a**2 * (span - a) ** 2 / (3 * rigidity(side) * span)  # of one side, a pound
    assert found.push["W1-F11", 1][0] == pytest.approx(1 / 32 / (2 * bow), rel=0.001)
    assert found.push["W1-F11", -1][0] == found.push["W1-F11", 1][0]
    assert shelf.size[X] > 34


def test_what_is_too_long_for_a_hand_leaves_the_bottom_open_until_a_clamp_is_put_on() -> None:
    case = wall_case((Bay(fixed=(F(10),)),))
    longer = {"W1-F11 length": 1 / 32}
    limits = Limits()
    _, by_hand = closed(case, longer, Effort(limits.hand, limits.hair))
    _, clamped = closed(case, longer, Effort(limits.clamp, limits.hair))
    assert by_hand.unplaced[0] > 0.005
    assert clamped.unplaced[0] == pytest.approx(0.0, abs=1e-7)
    assert by_hand.push["W1-F11", 1][0] == pytest.approx(limits.hand)


@pytest.mark.parametrize(
    ("longer", "verdict", "shown"),
    [
        (0.0, Verdict.BY_HAND, False),
        (0.005, Verdict.BY_HAND, False),
        (1 / 32, Verdict.CLAMP, False),
        (0.3, Verdict.EASE, False),
        (-0.025, Verdict.BY_HAND, False),
        (-0.04, Verdict.BY_HAND, True),
        (-0.3, Verdict.RECUT, True),
    ],
)
def test_a_shelf_off_its_length(longer: float, verdict: Verdict, shown: bool) -> None:
    """By the table of roles: long bends, then is clamped, then trimmed; short shows above 0.031 in."""
    shape, made = made_but(wall_case((Bay(fixed=(F(10),)),)), {"W1-F11 length": longer})
    outcome = judge(shape, made, Limits())
    assert outcome.verdict[0] == verdict
    assert outcome.shown[0] == shown


def test_a_short_shelf_is_drawn_home_by_clamps_until_the_sides_are_too_stiff() -> None:
    for short, still in ((-0.04, False), (-0.6, True)):
        shape, made = made_but(wall_case((Bay(fixed=(F(10),)),)), {"W1-F11 length": short})
        assert judge(shape, made, Limits()).shown_drawn[0] == still


def test_a_shelf_too_long_beside_a_divider_bends_the_divider_too() -> None:
    """Softer than between two sides alone, as the divider slides in its dados before it bends."""
    bays = (Bay(fixed=(F(10),)), Bay())
    _, alone = closed(wall_case((Bay(fixed=(F(10),)),)), {"W1-F11 length": 1 / 32})
    _, beside = closed(wall_case(bays), {"W1-F11 length": 1 / 32})
    assert 0 < beside.push["W1-F11", 1][0] < alone.push["W1-F11", 1][0]
    _, slid = closed(wall_case(bays), {"W1-F11 length": 1 / 128})
    assert slid.push["W1-F11", 1][0] == pytest.approx(0.0, abs=1e-6)


def test_clamps_pull_where_the_push_goes() -> None:
    """A shelf too long between the left side and a divider pushes that side off bottom and top; the divider
    passes the push on to both through its dados, so the right side needs no clamp."""
    _, found = closed(wall_case((Bay(fixed=(F(10),)), Bay())), {"W1-F11 length": 1 / 32})
    left = found.pull["W1-B", -1][0] + found.pull["W1-T", -1][0]
    assert left == pytest.approx(found.push["W1-F11", -1][0], rel=1e-4)
    assert found.pull["W1-B", 1][0] + found.pull["W1-T", 1][0] == pytest.approx(0.0, abs=1e-4)


TWO_BAYS = (Bay(fixed=(F(10),)), Bay(fixed=(F(10),)))
SNUG = replace(WALL, dado_play=F(0))
RABBETED = replace(WALL, top=TopKind.RABBET, bottom_up=F(0))
LOW = {"W1-L dado-top at": 0.05, "W1-R dado-top at": 0.05}
TALLER = {"W1-L length": 0.05, "W1-R length": 0.05}


@pytest.mark.parametrize(
    ("construction", "off", "part", "short"),
    [
        (WALL, {"W1-L dado-F11 depth": 0.04}, "W1-F11", 0.04),
        (WALL, {"W1-B length": 0.04, "W1-T length": 0.04}, "W1-F11", 0.04),
        (WALL, {"W1-R dado-bottom depth": -0.04, "W1-R dado-top depth": -0.04}, "W1-F11", 0.04),
        (WALL, {"W1-L thickness": 0.04}, "W1-F11", 0.0),
        (SNUG, TALLER, "W1-D1", 0.05),
        (WALL, TALLER, "W1-D1", 0.05 - 2 / 64),  # top and bottom slide towards it in their dados
        (SNUG, {**TALLER, **LOW}, "W1-D1", 0.0),
        (SNUG, {"W1-L dado-bottom at": -0.05, "W1-R dado-bottom at": -0.05}, "W1-D1", 0.05),
        (SNUG, {"W1-T dado-D1 depth": 0.05}, "W1-D1", 0.05),
        (RABBETED, {"W1-L rabbet-top width": -0.05, "W1-R rabbet-top width": -0.05}, "W1-D1", 0.05),
        (RABBETED, {"W1-L rabbet-bottom width": -0.05, "W1-R rabbet-bottom width": -0.05}, "W1-D1", 0.05),
    ],
)
def test_what_a_size_off_does_to_the_part_that_comes_after(
    construction: Construction, off: Mapping[str, float], part: str, short: float
) -> None:
    """Worked out on paper; the slopes that follow are of second order and left out."""
    bays = TWO_BAYS if part == "W1-D1" else (Bay(fixed=(F(10),)),)
    _, found = closed(wall_case(bays, construction=construction), off)
    assert found.gap[part, -1][0] + found.gap[part, 1][0] == pytest.approx(short, abs=2e-4)


def test_a_thin_divider_leaves_its_shelves_short_between_them() -> None:
    """Bays are set from the bottom's dado, so a divider thin by 0.04 leaves 0.02 at either side of it."""
    _, found = closed(wall_case(TWO_BAYS), {"W1-D1 thickness": -0.04})
    open_ = sum(found.gap[shelf, sign][0] for shelf in ("W1-F11", "W1-F21") for sign in (-1, 1))
    assert open_ == pytest.approx(0.04, abs=2e-4)


def test_a_stretcher_is_set_flush_so_a_taller_side_leaves_the_divider_short() -> None:
    base = job(spec(bays=(Bay(), Bay()), construction=Construction(back=BackKind.NONE)))
    _, found = closed(base, {"B1-L length": 0.05, "B1-R length": 0.05})
    assert found.gap["B1-D1", -1][0] + found.gap["B1-D1", 1][0] == pytest.approx(0.05, abs=2e-4)


@pytest.mark.parametrize(("higher", "shown"), [(0.05, False), (0.07, True), (-0.07, True)])
def test_a_dado_out_of_level_is_a_shelf_out_of_level(higher: float, shown: bool) -> None:
    """A snug shelf follows its dados; above 1/16 in it is spoken of."""
    case = wall_case((Bay(fixed=(F(10),)),), construction=SNUG)
    shape, made = made_but(case, {"W1-R dado-F11 at": higher})
    found = CaseProgramme(shape, made).close(Effort(15.0, 0.004))
    assert found.lean["W1-F11"][0] == pytest.approx(higher, abs=1e-6)
    outcome = judge(shape, made, Limits())
    assert outcome.verdict[0] == Verdict.BY_HAND
    assert outcome.shown[0] == shown


@pytest.mark.parametrize(
    ("thicker", "verdict"),
    [
        (-0.001, Verdict.BY_HAND),
        (0.003, Verdict.CLAMP),
        (0.005, Verdict.EASE),
        (0.019, Verdict.EASE),
        (0.021, Verdict.RECUT),
    ],
)
def test_a_panel_too_thick_for_its_dado(thicker: float, verdict: Verdict) -> None:
    case = wall_case((Bay(fixed=(F(10),)),), construction=SNUG)
    shape, made = made_but(case, {"W1-F11 thickness": thicker})
    assert judge(shape, made, Limits()).verdict[0] == verdict


def test_a_dado_much_too_wide_shows() -> None:
    case = wall_case((Bay(fixed=(F(10),)),), construction=SNUG)
    for wider, shown in ((0.03, False), (0.033, True)):
        shape, made = made_but(case, {"W1-L dado-F11 width": wider})
        assert judge(shape, made, Limits()).shown[0] == shown


@pytest.mark.parametrize(
    ("off", "verdict", "shown"),
    [
        ({"W1-K width": 0.06}, Verdict.BY_HAND, False),
        ({"W1-K width": 0.07}, Verdict.EASE, False),
        ({"W1-K length": 0.07}, Verdict.EASE, False),
        ({"W1-L groove-back depth": -0.04, "W1-R groove-back depth": -0.04}, Verdict.EASE, False),
        (
            {"W1-L dado-bottom depth": 0.04, "W1-L dado-top depth": 0.04, "W1-K width": 0.03},
            Verdict.EASE,
            False,
        ),
        ({**TALLER, "W1-K length": 0.07}, Verdict.BY_HAND, False),
        ({"W1-B groove-back at": 0.03}, Verdict.BY_HAND, False),
        ({"W1-B groove-back at": 0.05}, Verdict.BY_HAND, True),
        ({"W1-B groove-back at": -0.05}, Verdict.BY_HAND, True),
        ({"W1-B groove-back at": 0.05, "W1-B width": 0.05}, Verdict.BY_HAND, False),
        ({"W1-F11 width": 0.05}, Verdict.BY_HAND, True),
        ({"W1-F11 width": 0.03}, Verdict.BY_HAND, False),
    ],
)
def test_the_back_and_what_meets_it(off: Mapping[str, float], verdict: Verdict, shown: bool) -> None:
    """A step shows above 0.025 in, after the 1/64 that the back has in its grooves."""
    case = wall_case((Bay(fixed=(F(10),)), Bay()), construction=GROOVED)
    shape, made = made_but(case, off)
    outcome = judge(shape, made, Limits())
    assert outcome.verdict[0] == verdict
    assert outcome.shown[0] == shown


def test_pins_rock_where_rows_of_holes_are_off() -> None:
    case = wall_case((Bay(adjustable=1),))
    shapes = shapes_of(draw_up(case))
    stocks = {key: Stock(LIKE_GLASS, 96.0 * 48.0, 1) for key in case.sheets}
    shop = replace(FAULTLESS.shop, cut=0.02)
    made = MadeParts(shapes, stocks, replace(FAULTLESS, shop=shop), 400, 5)
    eased = np.mean(judge(shapes[0], made, Limits()).by_cause["pins"] == Verdict.EASE)
    assert eased == pytest.approx(1 - erf(1 / 32 / 0.04 / sqrt(2)), abs=0.08)  # four rows: 2 x 0.02


def test_every_bar_is_in_balance_and_pushed_only_where_it_touches() -> None:
    """Read from the answers: forces along and across each bar that is free sum to nothing."""
    bays = (Bay(fixed=(F(16), F(16))), Bay(fixed=(F(22),)))
    of = job(spec(bays=bays, height=F(60), width=F(26), depth=F(12)))
    shapes = shapes_of(draw_up(of))
    stocks = {key: Stock(GOOD_PLY, 96.0 * 48.0, 4) for key in of.sheets}
    made = MadeParts(shapes, stocks, Method(CAREFUL, DadoWidth.BY_NUMBERS, 52.0), 60, 3)
    programme = CaseProgramme(shapes[0], made)
    found = programme.close(Effort(300.0, 0.004))
    assert np.max(found.values[:, [column for column, _ in programme.pulls]]) > 1.0
    for mark, bar in programme.bars.items():
        if mark != "B1-L":
            across = sum(sign * found.values[:, column] for _, column, sign in bar.across_forces)
            along = sum(sign * found.values[:, column] for column, sign in bar.along_forces)
            assert np.max(np.abs(across)) < 1e-5, mark
            assert np.max(np.abs(along)) < 1e-5, mark
    for column, (_, room, error) in programme.contacts.items():
        apart = sum(times * found.values[:, one] for one, times in room.items()) + error
        assert np.min(apart) > -1e-6, "one part is in another"
        assert np.max(found.values[:, column] * apart) < 5e-4, "something pushes where nothing touches"


def test_the_joints_of_a_base_case_are_found_from_its_parts() -> None:
    shape = shapes_of(draw_up(job(spec(bays=(Bay(fixed=(F(10),)), Bay())))))[0]
    held = {(joint.bar, joint.sign): (joint.onto, joint.held, joint.placing) for joint in shape.joints}
    assert held["B1-D1", -1] == ("B1-B", Held.WALLS, True)
    assert held["B1-D1", 1] == ("B1-SF", Held.FREE, False)
    assert held["B1-F11", 1] == ("B1-D1", Held.WALLS, False)
    assert held["B1-SF", -1] == ("B1-L", Held.FLUSH, True)
    assert held["B1-TK", 1] == ("B1-R", Held.FREE, False)


def test_a_panel_in_a_rabbet_is_held_by_its_shoulder() -> None:
    shape = shapes_of(draw_up(wall_case((Bay(),), construction=RABBETED)))[0]
    assert {joint.held for joint in shape.joints} == {Held.SHOULDER}
