"""The assembly simulation against beams worked out by hand, and what it makes of small jobs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction as F
from math import erf, sqrt

import numpy as np
import pytest

from casewright.casework.job import BackKind, Bay, CaseKind, Construction, Job, ToeKind, TopKind
from casewright.casework.project import draw_up
from oracles.assembly.bending import compliance
from oracles.assembly.closing import CaseProgramme, Closed, Effort
from oracles.assembly.geometry import CaseShape, Held, Piece, X, Y, Z, shapes_of
from oracles.assembly.made_parts import Builds, MadeParts, Method, Stock, nearest_mark
from oracles.assembly.shop_errors import CAREFUL, GOOD_PLY, PLY_E, DadoWidth, SheetErrors, ShopErrors
from oracles.assembly.simulation import JobOutcome, simulate_job, with_play
from oracles.assembly.verdicts import Limits, Verdict, judge
from samples import job, spec

LIKE_GLASS = SheetErrors("like glass", 0.0, 0.0, PLY_E)
FAULTLESS = Method(ShopErrors("faultless", *(0.0,) * 11), DadoWidth.BY_NUMBERS, 52.0, caliper=0.0)
HARD_PUSH = Effort(10_000.0, 0.0)
WALL = Construction(
    top=TopKind.DADO, back=BackKind.NONE, toe=ToeKind.NONE, bottom_up=F(1), dado_play=F(1, 64)
)


class OneOff(MadeParts):
    """Parts made without a fault but that some are longer, by so many inches."""

    longer: Mapping[str, float]

    def size(self, piece: Piece, axis: int) -> Builds:
        off = self.longer.get(piece.mark, 0.0) if axis == piece.length else 0.0
        return np.asarray(super().size(piece, axis) + off)


def wall_case(
    bays: tuple[Bay, ...], width: F = F(36), depth: F = F(24), construction: Construction = WALL
) -> Job:
    one = spec(
        "W1", construction=construction, width=width, depth=depth, height=F(30), bays=bays, kind=CaseKind.WALL
    )
    return job(one, construction=construction)


def made_but(of: Job, longer: Mapping[str, float]) -> tuple[CaseShape, OneOff]:
    shapes = shapes_of(draw_up(of))
    stocks = {key: Stock(LIKE_GLASS, 96.0 * 48.0, 1) for key in of.sheets}
    made = OneOff(shapes, stocks, FAULTLESS, 1, 0)
    made.longer = longer
    return shapes[0], made


def closed(of: Job, longer: Mapping[str, float], effort: Effort = HARD_PUSH) -> tuple[CaseShape, Closed]:
    shape, made = made_but(of, longer)
    return shape, CaseProgramme(shape, made).close(effort)


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
    shape, found = closed(case, {"W1-D1": 1 / 32})
    bottom = shape.pieces["W1-B"]
    by_hand = 1 / 32 / (2 * bottom.size[X] ** 3 / (48 * rigidity(bottom)))
    push = found.push["W1-D1", 1][0]
    assert push == pytest.approx(by_hand, rel=0.01)
    assert 4 < push < 19.5
    assert found.unplaced[0] == pytest.approx(0.0, abs=1e-7)


def test_a_shelf_one_32nd_too_long_bows_both_sides() -> None:
    case = wall_case((Bay(fixed=(F(10),)),))
    shape, found = closed(case, {"W1-F11": 1 / 32})
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
    longer = {"W1-F11": 1 / 32}
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
    shape, made = made_but(wall_case((Bay(fixed=(F(10),)),)), {"W1-F11": longer})
    outcome = judge(shape, made, Limits())
    assert outcome.verdict[0] == verdict
    assert outcome.shown[0] == shown


def test_a_short_shelf_is_drawn_home_by_clamps_until_the_sides_are_too_stiff() -> None:
    for short, still in ((-0.04, False), (-0.6, True)):
        shape, made = made_but(wall_case((Bay(fixed=(F(10),)),)), {"W1-F11": short})
        assert judge(shape, made, Limits()).shown_drawn[0] == still


def test_a_shelf_too_long_beside_a_divider_bends_the_divider_too() -> None:
    """Softer than between two sides alone, as the divider slides in its dados before it bends."""
    bays = (Bay(fixed=(F(10),)), Bay())
    _, alone = closed(wall_case((Bay(fixed=(F(10),)),)), {"W1-F11": 1 / 32})
    _, beside = closed(wall_case(bays), {"W1-F11": 1 / 32})
    assert 0 < beside.push["W1-F11", 1][0] < alone.push["W1-F11", 1][0]
    _, slid = closed(wall_case(bays), {"W1-F11": 1 / 128})
    assert slid.push["W1-F11", 1][0] == pytest.approx(0.0, abs=1e-6)


def test_every_bar_is_in_balance_whatever_the_errors() -> None:
    """Forces along and across each bar that is free, read from the answer, sum to nothing."""
    of = job(spec(bays=(Bay(fixed=(F(10),)), Bay())))
    shapes = shapes_of(draw_up(of))
    stocks = {key: Stock(GOOD_PLY, 96.0 * 48.0, 4) for key in of.sheets}
    made = MadeParts(shapes, stocks, Method(CAREFUL, DadoWidth.BY_NUMBERS, 52.0), 20, 3)
    programme = CaseProgramme(shapes[0], made)
    found = programme.close(Effort(15.0, 0.004))
    assert np.max(found.values[:, [column for column, _ in programme.pulls]]) > 1.0
    for mark, bar in programme.bars.items():
        if mark != "B1-L":
            across = sum(sign * found.values[:, column] for _, column, sign in bar.across_forces)
            along = sum(sign * found.values[:, column] for column, sign in bar.along_forces)
            assert np.max(np.abs(across)) < 1e-5, mark
            assert np.max(np.abs(along)) < 1e-5, mark


def test_the_joints_of_a_base_case_are_found_from_its_parts() -> None:
    shape = shapes_of(draw_up(job(spec(bays=(Bay(fixed=(F(10),)), Bay())))))[0]
    held = {(joint.bar, joint.sign): (joint.onto, joint.held, joint.placing) for joint in shape.joints}
    assert held["B1-D1", -1] == ("B1-B", Held.WALLS, True)
    assert held["B1-D1", 1] == ("B1-SF", Held.FREE, False)
    assert held["B1-F11", 1] == ("B1-D1", Held.WALLS, False)
    assert held["B1-SF", -1] == ("B1-L", Held.FLUSH, True)
    assert held["B1-TK", 1] == ("B1-R", Held.FREE, False)


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


def test_rounding_a_number_moves_every_part_cut_to_it() -> None:
    shapes = shapes_of(draw_up(small_job()))
    stocks = {key: Stock(LIKE_GLASS, 96.0 * 48.0, 1) for key in small_job().sheets}
    made = MadeParts(shapes, stocks, replace(FAULTLESS, rounding=nearest_mark(1 / 32)), 1, 0)
    bottom = shapes[0].pieces["B1-B"]
    cut = bottom.size[X] + made.size(bottom, X)[0]
    assert cut * 32 == pytest.approx(round(cut * 32))
    assert abs(cut - bottom.size[X]) <= 1 / 64 + 1e-9
