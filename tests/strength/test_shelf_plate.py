"""The shelf as a plate against published plates, the beam it comes down to, and what it cannot do."""

from fractions import Fraction as F

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.strength.beam import simple_uniform
from casewright.strength.panel_stiffness import PanelStiffness, sheet_kinds
from casewright.strength.published import PublishedFigure
from casewright.strength.shelf_plate import (
    PlateStiffness,
    StiffeningStrip,
    flange_depth,
    plate_sag,
    plate_stiffness,
    strip_stiffness,
)
from oracles.transformed_section import panel_with_strips

PLY = sheet_kinds()["hardwood plywood"]
THICK = F(23, 32)
spans = st.integers(12, 60).map(float)
depths = st.integers(8, 26).map(float)
strips = st.sampled_from([0.0, 2e4, 1e5, 5e5])
held = st.booleans()


@pytest.mark.parametrize(
    ("depth", "published"), [(0.5, 0.00710), (2 / 3, 0.00968), (1.0, 0.01286), (1.5, 0.01462), (2.0, 0.01507)]
)
def test_a_plate_on_three_sides(depth: float, published: float) -> None:
    """Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, Table 48: three sides rest, the fourth,
    of length a, is free; even load, nu = 0.3; the sag at the middle of the free side in q a4 / D (from
    memory)."""
    plate = PlateStiffness(1.0, 1.0, 0.3, 0.35)
    sag = plate_sag(1.0, 1.0, depth, plate, back_held=True)
    assert sag.front == pytest.approx(published, rel=1.5e-3)
    assert sag.back == pytest.approx(0, abs=1e-12)
    assert sag.most == pytest.approx(sag.front)


@pytest.mark.parametrize(("ratio", "published"), [(1.0, 0.01309), (2.0, 0.01289), (0.5, 0.01377)])
def test_a_plate_on_two_sides(ratio: float, published: float) -> None:
    """The same book, Table 47: two opposite sides rest, a apart, the others are free, b / a = 1, 2 and 1/2;
    the sag at the middle of the plate is in the table; the free edges sag more, 0.01509 at b / a = 1 (from
    memory)."""
    sag = plate_sag(1.0, 1.0, ratio, PlateStiffness(1.0, 1.0, 0.3, 0.35))
    assert sag.front == pytest.approx(sag.back)
    assert sag.front > published
    if ratio == 1.0:
        assert sag.front == pytest.approx(0.01509, rel=6e-3)


@settings(deadline=None)
@given(span=spans, depth=depths, along=st.integers(1, 9), across=st.integers(1, 9), twist=st.integers(1, 9))
def test_without_strips_or_back_it_is_the_beam(
    span: float, depth: float, along: int, across: int, twist: int
) -> None:
    """Where it does not curl, each inch of its depth is a beam: 5 q L4 / 384 D, to what six waves leave."""
    sag = plate_sag(0.3, span, depth, PlateStiffness(along * 1e4, across * 1e3, 0.0, twist * 1e3))
    assert sag.most == pytest.approx(5 * 0.3 * span**4 / (384 * along * 1e4), rel=1e-5)
    assert sag.front == pytest.approx(sag.back, rel=1e-9)


@settings(deadline=None)
@given(span=spans, depth=depths, front=strips, back=strips, held=held)
def test_a_front_strip_helps_the_front(
    span: float, depth: float, front: float, back: float, held: bool
) -> None:
    plate = plate_stiffness(PLY, THICK, grain_along=True)
    sag = plate_sag(0.3, span, depth, plate, front=front, back=back, back_held=held)
    # Not even a held back always lowers the whole: as in a beam on springs, what lifts one edge can press the
    # other a few hundredths further down.
    stiffer = plate_sag(0.3, span, depth, plate, front=front + 1e5, back=back, back_held=held)
    assert stiffer.front < sag.front
    twice = plate_sag(0.6, span, depth, plate, front=front, back=back, back_held=held)
    assert twice.most == pytest.approx(2 * sag.most, rel=1e-9)
    longer = plate_sag(0.3, span * 1.1, depth, plate, front=front, back=back, back_held=held)
    assert longer.most > sag.most


@settings(deadline=None)
@given(span=spans, depth=depths, one=strips, other=strips)
def test_turned_round_it_sags_the_other_way_about(
    span: float, depth: float, one: float, other: float
) -> None:
    plate = plate_stiffness(PLY, THICK, grain_along=True)
    here = plate_sag(0.3, span, depth, plate, front=one, back=other)
    there = plate_sag(0.3, span, depth, plate, front=other, back=one)
    assert [here.front, here.back] == pytest.approx([there.back, there.front])


def test_a_shelf_too_stiff_to_twist_is_the_whole_section() -> None:
    """Where the panel cannot bend across or twist, the strip's stiffness adds to the panel's own: one
    beam."""
    stiff = PlateStiffness(3e4, 1e10, 0.0, 1e10)
    sag = plate_sag(0.3, 30.0, 12.0, stiff, front=4e5)
    assert sag.most == pytest.approx(5 * 0.3 * 12 * 30.0**4 / (384 * (12 * 3e4 + 4e5)), rel=1e-3)


def test_the_back_of_an_edged_plywood_shelf_hangs_behind() -> None:
    """What the beam formula of the whole section leaves out: an oak front 3/4 x 1 1/2 on 30 in of plywood
    holds the front to less than half a bare shelf's sag, and the back sags almost as if there were none."""
    oak = StiffeningStrip(F(3, 4), F(3, 2), F(1_820_000))
    plate = plate_stiffness(PLY, THICK, grain_along=True)
    front = strip_stiffness(oak, F(30), F(11), THICK, PLY, grain_along=True)
    bare, edged = plate_sag(0.28, 30.0, 11.0, plate), plate_sag(0.28, 30.0, 11.0, plate, front=front)
    whole = panel_with_strips(F(11), THICK, PLY.along.value, (oak,)).stiffness
    as_beam = float(simple_uniform(F("0.28") * 11, F(30), whole))
    assert edged.front < 0.5 * bare.front
    assert edged.back > 0.8 * bare.back
    assert edged.back > 2 * as_beam


def test_a_strip_level_with_the_panel_only_bends_by_itself() -> None:
    """As high as the panel and flush with it, it stretches nothing: E b h3 / 12 in every wave."""
    level = StiffeningStrip(F(3, 4), THICK, PLY.along.value)
    alone = float(PLY.along.value * F(3, 4) * THICK**3 / 12)
    assert strip_stiffness(level, F(30), F(11), THICK, PLY, grain_along=True) == pytest.approx(alone)


def test_a_high_strip_counts_more_than_alone_and_less_than_with_the_whole_panel() -> None:
    high = StiffeningStrip(F(3, 4), F(3, 2), PLY.along.value)
    whole = float(panel_with_strips(F(12), THICK, PLY.along.value, (high,)).stiffness)
    panel = float(PLY.along.value * 12 * THICK**3 / 12)
    alone = float(PLY.along.value * F(3, 4) * F(3, 2) ** 3 / 12)
    by_wave = strip_stiffness(high, F(30), F(12), THICK, PLY, grain_along=True)
    assert all(alone < each < whole - panel for each in by_wave)
    assert list(by_wave) == sorted(by_wave, reverse=True)  # short waves draw less of the panel along


def imagined(kind: str, along: int, across: int, shear: int) -> PanelStiffness:
    """A panel with these moduli in psi, which curls across by a quarter of the less stiff way."""
    curl = min(F(1), F(along, across)) / 4
    return PanelStiffness(
        kind, *(PublishedFigure(F(one), "made up", False) for one in (along, across, shear, curl))
    )


def test_a_quarter_of_a_panel_stiff_in_shear_stretches_with_its_edge() -> None:
    """A force along the edge of a bar stretches that edge by 1/A + 3/A: four times what it does along the
    middle."""
    rigid = imagined("rigid in shear", 10**6, 10**9, 10**9)
    assert flange_depth(96.0, 8.0, rigid, grain_along=True)[0] == pytest.approx(2.0, rel=0.01)
    assert flange_depth(24.0, 11.0, PLY, grain_along=True)[0] < 11 / 4


def test_a_deep_board_stretches_as_the_half_plane() -> None:
    """Drawn along one edge in short waves, a deep board without grain is the half plane under a shear load
    t cos kx on its face: by the stress function (A + B y) exp(-ky) the face stretches by 2 t / (E k) per unit
    of thickness, so a part 1 / 2k deep, L / 2 pi, would stretch as its edge does."""
    board = imagined("board", 10**6, 10**6, 4 * 10**5)
    assert flange_depth(8.0, 16.0, board, grain_along=True)[0] == pytest.approx(8 / 6.28319, rel=2e-3)


def test_a_panel_soft_in_shear_gives_near_its_edge() -> None:
    """Where the far edge is far, E u'' + G u'' = 0: the edge draws about (L / pi) sqrt(G / E) of it along, a
    little less where the panel moves across too."""
    soft = imagined("soft in shear", 10**6, 10**6, 10**4)
    flange = flange_depth(24.0, 24.0, soft, grain_along=True)[0]
    assert flange == pytest.approx(24 / 3.14159 * 0.01**0.5, rel=0.05)


def test_a_board_without_grain_is_an_isotropic_plate() -> None:
    """E h3 / 12 (1 - nu2) both ways, nu times that between them, and G h3 / 12 = (1 - nu) / 2 of it."""
    mdf = plate_stiffness(sheet_kinds()["MDF"], F(3, 4), grain_along=True)
    assert mdf.along == mdf.across
    assert mdf.both == pytest.approx(mdf.along / 4)
    assert mdf.twist == pytest.approx(mdf.along * 3 / 8)
    turned = plate_stiffness(PLY, THICK, grain_along=False)
    upright = plate_stiffness(PLY, THICK, grain_along=True)
    assert (turned.along, turned.across) == (upright.across, upright.along)
    assert turned.both == upright.both < upright.across


def test_a_shelf_of_no_length_is_refused() -> None:
    with pytest.raises(ValueError, match="more than zero"):
        plate_sag(0.3, 0.0, 11.0, plate_stiffness(PLY, THICK, grain_along=True))
