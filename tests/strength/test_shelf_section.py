"""The transformed section against worked examples and the plain sections it must come down to."""

import random
from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casewright.strength.shelf_plate import StiffeningStrip
from oracles.bending_reference import section_by_elements
from oracles.transformed_section import (
    SectionPart,
    ShelfSection,
    bare_panel,
    panel_with_strips,
)

PINE, OAK = F(1_300_000), F(1_820_000)
sizes = st.fractions(min_value=F(1, 8), max_value=F(24), max_denominator=64)
moduli = st.integers(100_000, 3_000_000).map(F)


def test_the_published_wood_and_steel_beam() -> None:
    """Goodno and Gere, Mechanics of Materials, transformed-section example (read in a copy of it on
    holooly.com as question 5.16): 4 x 6 in of wood, E 1500 ksi, on a 4 x 1/2 in plate of steel, E 30,000 ksi.
    Printed: n = 20, the neutral axis 5.031 in below the top, 1.469 in above the bottom."""
    beam = ShelfSection(
        (SectionPart(F(4), F(1, 2), F(0), F(30_000_000)), SectionPart(F(4), F(6), F(1, 2), F(1_500_000)))
    )
    assert float(F("6.5") - beam.neutral_axis) == pytest.approx(5.031, abs=0.0005)
    assert float(beam.neutral_axis) == pytest.approx(1.469, abs=0.0005)
    # From memory of the same book: I 231.3 in4 in wood, so that 60 kip in squeezes its upper face by 1310
    # psi.
    inertia = float(beam.stiffness / 1_500_000)
    assert inertia == pytest.approx(231.3, abs=0.05)
    assert 60_000 * 5.031 / inertia == pytest.approx(1310, abs=5.5)


def test_wood_on_a_steel_strap() -> None:
    """A textbook's composite beam (from memory, arithmetic done again): wood 150 x 150 mm, 12 GPa, on a strap
    150 x 20 mm, 200 GPa: neutral axis 36.38 mm up, I 9.358e6 mm4 in steel."""
    beam = ShelfSection((SectionPart(F(150), F(20), F(0), F(200)), SectionPart(F(150), F(150), F(20), F(12))))
    assert float(beam.neutral_axis) == pytest.approx(36.38, abs=0.005)
    assert float(beam.stiffness / 200) == pytest.approx(9.358e6, rel=1e-4)


def test_a_shelf_with_an_oak_front() -> None:
    """Worked out by hand, not published: 11 1/4 x 3/4 shelf, oak front 3/4 x 1 1/2, upper faces flush."""
    shelf = panel_with_strips(F("11.25"), F("0.75"), PINE, (StiffeningStrip(F("0.75"), F("1.5"), OAK),))
    assert round(shelf.stiffness) == 1_140_704
    assert float(shelf.neutral_axis + F("0.75")) == pytest.approx(1.0660, abs=0.00005)


def test_where_the_edging_stands_counts() -> None:
    """Its upper face 3/8 in above a panel 3/4 in thick, 3/4 high: its middle 3/8 in above the panel's."""
    raised = panel_with_strips(F(12), F(3, 4), PINE, (StiffeningStrip(F(1), F(3, 4), PINE, F(3, 8)),))
    apart = F(12 * 1, 13) * F(3, 4) * F(3, 8) ** 2  # the parallel axes of 12 and 1 wide
    assert raised.stiffness == PINE * (13 * F(3, 4) ** 3 / 12 + apart)


def test_an_edging_of_the_same_wood_makes_the_plain_angle() -> None:
    """Of one modulus it is an L of one wood: 11.25 x 0.75 and 0.75 x 1.5, by the parallel axes."""
    shelf = panel_with_strips(F("11.25"), F("0.75"), PINE, (StiffeningStrip(F("0.75"), F("1.5"), PINE),))
    flat, drop = F("11.25") * F("0.75"), F("0.75") * F("1.5")
    axis = (flat * F("0.375") + drop * F("0.75")) / (flat + drop)  # below the upper face
    own = F("11.25") * F("0.75") ** 3 / 12 + F("0.75") * F("1.5") ** 3 / 12
    inertia = own + flat * (axis - F("0.375")) ** 2 + drop * (F("0.75") - axis) ** 2
    assert shelf.stiffness == PINE * inertia


@given(depth=sizes, thickness=sizes, strip=sizes, modulus=moduli)
def test_an_edging_as_high_as_the_panel_only_makes_it_deeper(
    depth: F, thickness: F, strip: F, modulus: F
) -> None:
    shelf = panel_with_strips(depth, thickness, modulus, (StiffeningStrip(strip, thickness, modulus),))
    assert shelf.stiffness == bare_panel(depth + strip, thickness, modulus).stiffness
    assert shelf.stiffness == modulus * (depth + strip) * thickness**3 / 12


@given(depth=sizes, thickness=sizes, strip=sizes, lower=sizes, more=sizes, panel=moduli, edge=moduli)
def test_a_higher_edging_is_stiffer_and_never_less_than_its_parts(
    depth: F, thickness: F, strip: F, lower: F, more: F, panel: F, edge: F
) -> None:
    def shelf(height: F) -> F:
        return panel_with_strips(depth, thickness, panel, (StiffeningStrip(strip, height, edge),)).stiffness

    alone = bare_panel(depth, thickness, panel).stiffness + edge * strip * lower**3 / 12
    assert shelf(lower) >= alone
    assert shelf(max(lower, thickness) + more) > shelf(max(lower, thickness))


def test_a_panel_with_strips_agrees_with_the_integral_over_a_mesh() -> None:
    draw = random.Random(22)
    for _ in range(20):
        parts = [(draw.uniform(6, 26), draw.uniform(0.4, 1.5), 0.0, draw.uniform(2e5, 2e6))]
        for _ in range(draw.randint(1, 3)):
            height = draw.uniform(0.5, 4)
            parts.append((draw.uniform(0.25, 2), height, draw.uniform(-height, 1), draw.uniform(2e5, 2e6)))
        ours = ShelfSection(tuple(SectionPart(*map(F, part)) for part in parts))
        _, reference = section_by_elements(parts)
        assert float(ours.stiffness) == pytest.approx(reference, rel=1e-9)


@pytest.mark.parametrize(
    "part", [("width", F(0), F(1), F(1)), ("height", F(1), F(-1), F(1)), ("modulus", F(1), F(1), F(0))]
)
def test_a_part_of_no_size_is_refused(part: tuple[str, F, F, F]) -> None:
    name, width, height, modulus = part
    with pytest.raises(ValueError, match=f"the {name} of a part of the section must be more than zero"):
        SectionPart(width, height, F(0), modulus)


def test_a_section_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="at least one part"):
        ShelfSection(())
