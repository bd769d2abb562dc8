"""The list of all shelves: those alike together, their figures, and what is taken for granted."""

from __future__ import annotations

import json

from bearing.loaded_jobs import WALL_CASE, borne_by, text
from casewright.bearing.shelf_sheet import ShelfSheet, ShelfTold
from casewright.bearing.shelf_words import shelf_assumptions
from casewright.jobfile.write.other_unit import in_other_unit
from casewright.lengths.length import Unit
from casewright.strength.beam import EndSupport
from casewright.strength.loaded_shelf import LoadedShelf
from loaded_shelves import oak_strip, shelf

PINS = f"{WALL_CASE}\nbays = [{{ adjustable = 2 }}]"
EMPTY = f"{WALL_CASE}\nbays = [{{}}]"
TINS = 'holds = "tinned food"'


def sheet(*cases: str, **said: str) -> ShelfSheet:
    return borne_by(text(*cases, **said)).shelf_sheet


def shelf_of(found: ShelfSheet, mark: str) -> ShelfTold:
    (one,) = (one for one in found.shelves if mark in one.marks)
    return one


def test_shelves_that_meet_their_figure_stand_in_the_list_too() -> None:
    """Two cases alike: their four shelves are one line, their two bottoms another."""
    found = sheet(PINS, PINS, shelf="ply", holds='holds = "linen"')
    assert [one.marks for one in found.shelves] == [("W1-B", "W2-B"), ("W1-A1", "W1-A2", "W2-A1", "W2-A2")]
    assert all(one.meets and one.verdict == "meets" and not one.fix for one in found.shelves)
    assert found.settled
    pins = shelf_of(found, "W1-A1")
    assert (pins.what, pins.load) == ("adjustable shelf", "12 lb/ft2 (linen)")
    assert pins.figure == "L/144 of Architectural Woodwork Standards, ed. 1 (2009), 1.2.21.3"
    assert pins.span == '31 9/16"' and pins.allowed == '7/32" at once'
    assert pins.section == '~10 13/16" deep, hardwood plywood 3/4 in, 0.719 in thick'


def test_a_shelf_that_does_not_meet_its_figure_comes_first_with_what_mends_it() -> None:
    found = sheet(PINS, holds=TINS)
    first = found.shelves[0]
    assert first.marks == ("W1-A1", "W1-A2") and first.verdict == "does not meet"
    assert "make it of hardwood plywood" in first.fix
    assert (first.at_once, first.after_years, first.allowed) == ('1/4"', '13/16"', '7/32" at once')
    assert not found.settled and not found.doubts


def test_a_shelf_that_passes_its_figure_as_it_creeps_says_so() -> None:
    found = sheet(PINS, holds='holds = "crockery"')
    pins = shelf_of(found, "W1-A1")
    assert pins.verdict == 'meets; goes beyond 7/32" after years' and found.settled


def test_sags_that_a_rule_shows_alike_are_told_finer() -> None:
    """MDF of this span comes just beyond what is allowed at one of these loads."""
    over = [shelf_of(sheet(PINS, holds=f'load = "{pounds} lb/ft2"'), "W1-A1") for pounds in range(28, 36)]
    just = next(one for one in over if one.verdict == "does not meet")
    assert just.at_once.endswith(" in") and just.at_once != just.allowed.removesuffix(" at once")


def test_a_figure_for_another_load_says_for_which() -> None:
    kitchen = 'holds = "books"\nsag = "kitchen cabinets"'
    assert "(a figure for 15 lb/ft2 (kitchen, as tested))" in sheet(PINS, holds=kitchen).shelves[0].figure
    tested = kitchen.replace("books", "kitchen, as tested")
    assert "a figure for" not in sheet(PINS, holds=tested).shelves[0].figure


def test_a_material_of_no_kind_is_a_doubt() -> None:
    own = """
[materials.own]
name = "plywood of the yard"
nominal = "3/4"
usual = "23/32"
deviation = "0.005"
size = [96, 48]
"""
    found = sheet(PINS, shelf="own", more=own)
    assert [one.text for one in found.doubts] and "W1-A1" in found.doubts[0].text and not found.settled
    assert all("W1-A1" not in one.marks for one in found.shelves)


def test_a_job_in_millimetres_is_told_in_millimetres() -> None:
    metric = in_other_unit(text(PINS, holds=TINS), Unit.MM).text
    found = borne_by(metric).shelf_sheet
    said = json.dumps(found.plain())
    assert "kg/m2" in said and "N/mm2" in said and "psi" not in said and " lb/ft2" not in said
    assert shelf_of(found, "W1-A1").span == "802 mm"


def test_nothing_is_called_safe_and_each_assumption_stands_once() -> None:
    found = sheet(PINS, EMPTY, holds=TINS)
    assert "safe" not in json.dumps(found.plain())
    assert len(set(found.assumptions)) == len(found.assumptions) > 4


def said_of(one: LoadedShelf) -> str:
    return " ".join(shelf_assumptions(one, Unit.INCH))


def test_the_assumptions_name_every_figure() -> None:
    said = said_of(shelf(front=oak_strip(), back_held=True))
    for part in ("990,000 psi", "1.8 times", "glued along", "holds its rear edge", "own weight", "15 lb/ft2"):
        assert part in said
    assert "pins" in said_of(shelf(support=EndSupport.PINS))
    assert "grain across" in said_of(shelf(grain_along=False))
    assert "grain" not in said_of(shelf("MDF")), "a board without a grain"
    assert "not read there" in said_of(shelf("birch plywood"))
    assert "others weighed 20 lb/ft to 40 lb/ft" in said_of(shelf(use="books"))
