"""The shop's own lists against what is published: sheets, machines and usual practice.

Each figure stands with its source. Where the list's own `source` says "from memory", "assumed" or
"common practice", nobody published it, and only that it says so is asked.
"""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from casewright.jobfile.catalogue import packaged_catalogue
from casewright.lengths.length import MM, Unit
from casewright.shop.machines import Carry

STOCK = packaged_catalogue()
SHEETS, PRACTICE = STOCK.sheets, STOCK.practice
INCH, METRIC = PRACTICE[Unit.INCH], PRACTICE[Unit.MM]
POUNDS_PER_SQUARE_FOOT = 4.882428  # kg/m2 in one: NIST SP 811, appendix B.8


@pytest.mark.parametrize(
    ("sheet", "label", "least", "most"),
    [("softwood ply 23/32", "0.703", 0.688, 0.750), ("softwood ply 15/32", "0.451", 0.438, 0.500)],
)
def test_softwood_plywood(sheet: str, label: str, least: float, most: float) -> None:
    """PS 1 performance categories, as quoted by APA Europe: label thickness and range; weight: APA's
    3 lb/ft2 for an inch of thickness."""
    usual = SHEETS[sheet].usual
    assert usual.middle == F(label) and least < float(usual.middle) < most
    assert usual.deviation == pytest.approx((most - least) / 6, abs=1e-4)
    assert float(SHEETS[sheet].weight) == pytest.approx(3 * float(usual.middle), abs=0.005)


def test_mdf() -> None:
    """ANSI A208.2, in a trade buyers' guide: thickness within 0.005 in, read as three deviations."""
    for name, nominal in (("mdf 3/4", F(3, 4)), ("mdf 1/4", F(1, 4))):
        assert SHEETS[name].usual.middle == nominal
        assert SHEETS[name].usual.deviation == pytest.approx(0.005 / 3, abs=1e-4)


def test_particleboard() -> None:
    """EN 312 table 1, in a maker's data sheet: thickness within 0.3 mm."""
    usual = SHEETS["particleboard 3/4"].usual
    assert usual.middle == F(3, 4) and usual.deviation == pytest.approx(0.3 / 25.4 / 3, abs=1e-4)


@pytest.mark.parametrize(
    ("nominal", "usual", "weight"), [("3/4", "23/32", "2.3"), ("1/2", "15/32", "1.5"), ("1/4", "7/32", "0.7")]
)
def test_hardwood_plywood(nominal: str, usual: str, weight: str) -> None:
    """Trade pages: a 32nd under its name. ANSI/HPVA HP-1 (from memory): +0 -3/64 in, six deviations."""
    sheet = SHEETS[f"hardwood ply {nominal}"]
    assert (sheet.nominal, sheet.usual.middle, sheet.weight) == (F(nominal), F(usual), F(weight))
    assert sheet.usual.deviation == pytest.approx(3 / 64 / 6, abs=2e-4)
    assert (sheet.sheet_length, sheet.sheet_width, sheet.trim, sheet.grain) == (F(96), F(48), F(1, 4), True)


def test_birch_plywood_in_millimetres() -> None:
    """A maker's table for 13 plies: 18 mm, +0.7 -0.9 mm; density 680 kg/m3 (from memory)."""
    sheet = SHEETS["birch ply 18"]
    assert sheet.usual.middle == F("17.9") * MM
    assert sheet.usual.deviation == pytest.approx(1.6 / 6 / 25.4, abs=2e-4)
    assert float(sheet.weight) * POUNDS_PER_SQUARE_FOOT == pytest.approx(680 * 0.0179, abs=0.05)


def test_what_one_person_carries() -> None:
    """No weight: the lifting equation says it for each lift. The length is common practice."""
    assert INCH.carry == Carry(None, F(72))
    assert METRIC.carry == Carry(None, 1800 * MM)


def test_the_toe_kick_is_no_less_than_the_least() -> None:
    """ANSI/KCMA A161.1: toe space at least 2 in deep and 3 in high. The metric 50 mm is 1 31/32 in, a
    hair under it: European practice, not KCMA's."""
    assert (INCH.construction.toe_depth, INCH.construction.toe_height) == (F(3), F(4))
    assert INCH.construction.toe_depth >= 2 and INCH.construction.toe_height >= 3
    assert (METRIC.construction.toe_depth, METRIC.construction.toe_height) == (50 * MM, 100 * MM)


def test_rows_of_holes_are_those_of_the_32_mm_system() -> None:
    """Trade reference pages: 32 mm apart, 5 mm wide, 37 mm behind the front edge."""
    made, jig = METRIC.construction, STOCK.pin_jigs["32 mm jig"]
    assert (made.pin_pitch, made.pin_diameter, made.pin_setback) == (32 * MM, 5 * MM, 37 * MM)
    assert (jig.pitch, jig.diameter, jig.setback) == (32 * MM, 5 * MM, 37 * MM)


def test_pins_of_a_quarter_inch() -> None:
    """A woodworking magazine: 1/4 in stems; a quarter-inch pin in a 5 mm hole does not go."""
    assert INCH.construction.pin_diameter == STOCK.pin_jigs["pin jig"].diameter == F(1, 4) > 5 * MM


def test_kerfs() -> None:
    """Trade pages: full kerf 1/8 in, thin kerf 3/32 in."""
    assert STOCK.table_saws["table saw"].kerf == F(1, 8)
    assert STOCK.table_saws["table saw, thin kerf"].kerf == F(3, 32)


def test_the_dado_stack() -> None:
    """Trade pages: outside cutters and chippers of 1/8, one of 3/32 and of 1/16; shims 0.010 and 0.015 in."""
    stack = STOCK.dado_stacks["8 in stack"]
    assert stack.outside == F(1, 8)
    assert sorted(stack.chippers) == [F(1, 16), F(3, 32), *[F(1, 8)] * 4]
    assert {F("0.010"), F("0.015")} <= set(stack.shims)


COMMON = {  # common practice, no source: heights, depths, play
    "base": (F(69, 2), F(24), F(0)),
    "wall": (F(30), F(12), F(54)),
    "tall": (F(84), F(24), F(0)),
    "open": (F(72), F(12), F(0)),
}


@pytest.mark.parametrize("kind", COMMON)
def test_usual_cases(kind: str) -> None:
    """Consumer and trade pages (United States): base 34 1/2 by 24, wall 30 by 12 hung at 54, tall 84."""
    (usual,) = [one for key, one in INCH.kinds.items() if key.value == kind]
    assert (usual.height, usual.depth, usual.lift) == COMMON[kind]


def test_usual_construction() -> None:
    """Common practice, no source."""
    made = INCH.construction
    assert (made.dado_depth, made.rabbet_depth, made.groove_depth) == (F(1, 4), F(3, 8), F(1, 4))
    assert (made.groove_play, made.back_play, made.back_inset) == (F(1, 64), F(1, 16), F(1, 2))
    assert (made.shelf_play, made.shelf_setback) == (F(1, 8), F(1, 4))
    assert (made.top_down, made.stretcher_width, made.strip_width) == (F(3, 4), F(4), F(4))
    assert (made.pin_first, made.pin_pitch) == (F(6), F(2))
    assert (made.pin_setback, made.pin_depth) == (F(3, 2), F(5, 16))


def test_every_entry_says_where_its_figures_come_from() -> None:
    entries = {*SHEETS, *STOCK.hand_saws, *STOCK.table_saws, *STOCK.dado_stacks, *STOCK.pin_jigs}
    said = {name: source for name, source in STOCK.sources.items() if any(one in name for one in entries)}
    assert len(said) >= len(entries)
    words = ("common practice", "memory", "assumed", "pages", "page", "ANSI", "PS 1", "EN ", "maker")
    assert all(any(word in source for word in words) for source in said.values())
