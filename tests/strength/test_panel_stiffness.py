"""Stiffness: every sheet good and wood has a figure with its source, and what has none is not guessed."""

from fractions import Fraction as F

import pytest

from casewright.jobfile.catalogue import packaged_catalogue
from casewright.lengths.quantities import NEWTON_PER_SQUARE_MM
from casewright.shop.materials import PanelKind
from casewright.shop.woods import known_woods
from casewright.strength.panel_stiffness import (
    board_stiffness,
    panel_stiffness,
    sheet_kinds,
    with_modulus,
)


def test_every_sheet_of_the_catalogue_has_a_stiffness() -> None:
    for name, sheet in packaged_catalogue().sheets.items():
        assert sheet.kind is not None, name
    assert [kind.value for kind in PanelKind] == list(sheet_kinds()), "each kind has its figures"
    assert panel_stiffness(PanelKind.MDF) is sheet_kinds()["MDF"]


def test_every_figure_has_a_source_and_lies_between_the_others() -> None:
    for kind in sheet_kinds().values():
        assert all(figure.source for figure in (kind.along, kind.across, kind.shear))
        assert kind.across.value <= kind.along.value
        low, high = kind.low or kind.along, kind.high or kind.along
        assert low.value <= kind.along.value <= high.value


def test_the_units_of_published_figures() -> None:
    """1 N/mm2 is 145.04 psi; A208.1 prints M-2 as 326,300 psi and as 2250 N/mm2."""
    assert float(NEWTON_PER_SQUARE_MM) == pytest.approx(145.0377, abs=5e-5)
    assert float(sheet_kinds()["particleboard"].along.value) == pytest.approx(326_300, rel=1e-3)


def test_plywood_with_its_grain_across_is_less_stiff() -> None:
    """Five plies of one thickness, those across the grain 1/20 as stiff: 99/125 and 26/125 of the second
    moment lie along and across; 0.248 / 0.802 of the stiffness along."""
    share = (F(26, 125) + F(99, 125) / 20) / (F(99, 125) + F(26, 125) / 20)
    for kind in ("fir plywood", "hardwood plywood"):
        ply = sheet_kinds()[kind]
        across = ply.lengthwise(grain_along=False).value
        assert across == pytest.approx(float(share * ply.along.value), rel=0.03)
        assert ply.crosswise(grain_along=False) == ply.lengthwise(grain_along=True) == ply.along


def test_solid_wood_takes_its_own_figure() -> None:
    """Sugar maple 1.83 million psi, Wood Handbook, Table 5-3b."""
    maple = board_stiffness(known_woods()["sugar maple"])
    assert (maple.along.value, maple.along.read) == (F(1_830_000), True)
    assert maple.across.value == F(1_830_000, 20) and not maple.across.read
    assert not board_stiffness(known_woods()["silver maple"]).along.read


def test_the_makers_own_figure() -> None:
    """What lies across the grain stays the same share of it."""
    usual = panel_stiffness(PanelKind.FIR_PLYWOOD)
    own = with_modulus(usual, F(1_900_000))
    assert (own.along.value, own.along.source) == (F(1_900_000), "the maker's own figure")
    assert own.across.value == 2 * usual.across.value and own.shear.value == 2 * usual.shear.value
    with pytest.raises(ValueError, match="the stiffness of MDF must be more than zero, not -1 psi"):
        with_modulus(panel_stiffness(PanelKind.MDF), F(-1))
