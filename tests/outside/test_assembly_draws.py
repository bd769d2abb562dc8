"""How the assembly simulation draws its shops, and what it makes of small jobs."""

from __future__ import annotations

from dataclasses import fields, replace
from fractions import Fraction as F
from math import erf, sqrt

import numpy as np
import pytest

from casewright.casework.job import Bay, CaseKind, Construction, Job
from casewright.casework.parts.part import Role
from casewright.casework.project import draw_up
from oracles.assembly.geometry import CaseShape, X, Z, shapes_of
from oracles.assembly.made_parts import MadeParts, Method, Stock, nearest_mark
from oracles.assembly.one_off import FAULTLESS, GROOVED, LIKE_GLASS, WALL, wall_case
from oracles.assembly.shop_errors import (
    CAREFUL,
    GOOD_PLY,
    HOME_CENTRE_PLY,
    MDF,
    PLY_E,
    DadoWidth,
    SheetErrors,
    ShopErrors,
)
from oracles.assembly.simulation import JobOutcome, simulate_job, with_play
from samples import job, spec


def drawn_by(height: F = F(30), **errors: float) -> tuple[CaseShape, MadeParts]:
    one = spec("W1", construction=GROOVED, height=height, kind=CaseKind.WALL)
    case = job(one, construction=GROOVED)
    shapes = shapes_of(draw_up(case))
    stocks = {key: Stock(LIKE_GLASS, 96.0 * 48.0, 1) for key in case.sheets}
    shop = ShopErrors("one error", *(errors.get(one.name, 0.0) for one in fields(ShopErrors)[1:]))
    return shapes[0], MadeParts(shapes, stocks, replace(FAULTLESS, shop=shop), 500, 2)


def test_the_scale_is_off_alike_in_all_that_it_sets() -> None:
    shape, made = drawn_by(scale=0.01)
    bottom, side = shape.pieces["W1-B"], shape.pieces["W1-L"]
    assert np.std(made.size(bottom, X)) == pytest.approx(0.01, rel=0.1)
    assert np.array_equal(made.size(bottom, X), made.size(side, Z))
    assert np.array_equal(made.size(bottom, X), made.slot_at(side, side.slots[0]))


def test_one_number_is_set_once_and_each_cut_errs_by_itself() -> None:
    shape, made = drawn_by(setting=0.01)
    left, right, bottom = (shape.pieces[mark] for mark in ("W1-L", "W1-R", "W1-B"))
    assert np.array_equal(made.size(left, Z), made.size(right, Z))
    assert abs(np.corrcoef(made.size(left, Z), made.size(bottom, X))[0, 1]) < 0.2
    shape, made = drawn_by(cut=0.01)
    assert abs(np.corrcoef(made.size(left, Z), made.size(right, Z))[0, 1]) < 0.2


def test_a_tall_pair_is_sawn_together_and_by_no_scale() -> None:
    shape, made = drawn_by(height=F(84), hand_saw=0.01)
    left, right = shape.pieces["W1-L"], shape.pieces["W1-R"]
    assert np.std(made.size(left, Z)) == pytest.approx(0.01, rel=0.1)
    assert np.array_equal(made.size(left, Z), made.size(right, Z))
    shape, made = drawn_by(height=F(84), scale=0.01)
    assert np.std(made.size(left, Z)) == 0.0


def test_a_groove_is_as_wide_as_its_two_passes_make_it() -> None:
    shape, made = drawn_by(two_passes=0.01)
    widths = [
        made.slot_width(piece, slot, "thin")
        for piece in shape.pieces.values()
        for slot in piece.slots
        if slot.back
    ]
    assert len(widths) == 4
    assert np.std(widths[0]) == pytest.approx(0.01, rel=0.1)
    assert all(np.array_equal(width, widths[0]) for width in widths)


def test_a_stack_tried_in_the_stock_follows_the_thickest_sheet() -> None:
    ply = SheetErrors("varied", 0.01, 0.0, PLY_E)
    case = small_job()
    shapes = shapes_of(draw_up(case))
    stocks = {key: Stock(ply, 20.0 * 48.0, 2) for key in case.sheets}
    made = MadeParts(shapes, stocks, replace(FAULTLESS, dado=DadoWidth.TRIED), 200, 4)
    bottom = shapes[0].pieces["B1-B"]
    slot = shapes[0].pieces["B1-L"].slots[0]
    rooms = made.slot_width(shapes[0].pieces["B1-L"], slot, bottom.material)
    thick = [
        made.thickness(piece)
        for shape in shapes
        for piece in shape.pieces.values()
        if piece.material == "ply"
    ]
    assert np.allclose(rooms, np.max(thick, axis=0))
    assert np.std(rooms) > 0.001


def test_a_panel_is_as_often_too_thick_for_its_dado_as_the_normal_law_says() -> None:
    """Sheets alike everywhere in themselves: the play, less the packing and what the readings are off."""
    even = SheetErrors("even", 0.005, 0.0, PLY_E)
    case = wall_case((Bay(), Bay()), depth=F(12), construction=replace(WALL, dado_play=F(1, 128)))
    shape = shapes_of(draw_up(case))[0]
    builds, readings = 4000, 4
    stocks = {key: Stock(even, 96.0 * 48.0, readings) for key in case.sheets}
    made = MadeParts([shape], stocks, Method(CAREFUL, DadoWidth.BY_NUMBERS, 52.0), builds, 11)
    divider, bottom = shape.pieces["W1-D1"], shape.pieces["W1-B"]
    slot = bottom.slots[-1]
    room = slot.width - divider.size[X] + made.slot_width(bottom, slot, divider.material)
    tight = float(np.mean(room - made.thickest(divider, "end -1") < 0))
    # All parts of so small a job are of one sheet, the one the caliper read.
    deviation = sqrt(CAREFUL.packed**2 + 0.001**2 / readings)
    expected = 0.5 * (1 + erf(-(1 / 128) / deviation / sqrt(2)))
    assert tight == pytest.approx(expected, abs=4 * sqrt(expected / builds))


@pytest.fixture(scope="module")
def built() -> JobOutcome:
    return simulate_job(small_job(), CAREFUL, GOOD_PLY, 60, 7)


def small_job() -> Job:
    return job(spec("B1", bays=(Bay(fixed=(F(10),)), Bay())), spec("B2"), construction=Construction())


def test_every_build_of_a_case_has_one_verdict(built: JobOutcome) -> None:
    for mark in built.cases:
        shares = built.shares(mark)
        assert sum(shares[one] for one in ("by_hand", "clamp", "ease", "recut")) == pytest.approx(1.0)
        assert shares["shown_drawn"] <= shares["shown"]


def test_one_seed_gives_one_answer_and_another_another(built: JobOutcome) -> None:
    again = simulate_job(small_job(), CAREFUL, GOOD_PLY, 60, 7)
    other = simulate_job(small_job(), CAREFUL, GOOD_PLY, 60, 8)
    assert again.job_shares == built.job_shares
    assert any(np.any(other.cases[mark].verdict != built.cases[mark].verdict) for mark in built.cases)


def test_a_64th_of_play_spares_most_of_the_sanding(built: JobOutcome) -> None:
    with_some = simulate_job(with_play(small_job(), F(1, 64)), CAREFUL, GOOD_PLY, 60, 7)
    assert built.joints_eased > 10 * with_some.joints_eased
    assert with_some.job_shares["recut"] == 0.0


def test_sheets_that_vary_more_jam_more(built: JobOutcome) -> None:
    poor = simulate_job(small_job(), CAREFUL, HOME_CENTRE_PLY, 60, 7)
    board = simulate_job(small_job(), CAREFUL, MDF, 60, 7)
    assert poor.joints_eased > built.joints_eased > board.joints_eased


def test_parts_cut_to_the_standing_case_keep_nothing_open() -> None:
    shape = shapes_of(draw_up(small_job()), {Role.TOE_KICK})[0]
    assert all(joint.bar != "B1-TK" for joint in shape.joints)
    before = simulate_job(with_play(small_job(), F(1, 64)), CAREFUL, GOOD_PLY, 60, 7)
    after = simulate_job(with_play(small_job(), F(1, 64)), CAREFUL, GOOD_PLY, 60, 7, fitted={Role.TOE_KICK})
    assert after.job_shares["by_hand"] > before.job_shares["by_hand"]


def test_rounding_a_number_moves_every_part_cut_to_it() -> None:
    shapes = shapes_of(draw_up(small_job()))
    stocks = {key: Stock(LIKE_GLASS, 96.0 * 48.0, 1) for key in small_job().sheets}
    made = MadeParts(shapes, stocks, replace(FAULTLESS, rounding=nearest_mark(1 / 32)), 1, 0)
    bottom = shapes[0].pieces["B1-B"]
    cut = bottom.size[X] + made.size(bottom, X)[0]
    assert cut * 32 == pytest.approx(round(cut * 32))
    assert abs(cut - bottom.size[X]) <= 1 / 64 + 1e-9
