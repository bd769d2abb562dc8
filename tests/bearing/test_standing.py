"""Cases on the floor with everything open: moments of drawn cases by hand, and what is said of a run."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from bearing.loaded_jobs import STUDS, borne_by, drawn, text
from casewright.bearing.standing import OpenedCase
from casewright.casework.parts.weights import weight_of
from casewright.findings import Weight
from casewright.shop.materials import per_square_inch

HINGE = '[hinges.cup]\nlike = "full overlay"\n'
SLIDE = '[slides.side]\nlike = "side mount"\n'
BASE = 'kind = "base"\nwidth = 33\nheight = 34\ndepth = 24'
DOORED = f'{BASE}\nbays = [{{ fronts = [{{ kind = "two doors" }}] }}]'
DRAWERS = f'{BASE}\nbays = [{{ fronts = [{{ kind = "drawer" }}, {{ kind = "drawer" }}] }}]'
TALL = DOORED.replace("base", "tall").replace("height = 34", "height = 84")
SHALLOW = TALL.replace("depth = 24", "depth = 14")


def job(*cases: str, run: str = STUDS) -> str:
    return text(*cases, shelf="ply", run=run, more=HINGE + SLIDE)


def standing(job_text: str) -> tuple[OpenedCase, ...]:
    return borne_by(job_text).standing


def said(job_text: str) -> list[tuple[str, str, Weight]]:
    found = borne_by(job_text).findings
    return [(one.place, one.fix, one.weight) for one in found if one.code == "tips-when-open"]


def test_a_case_with_doors_by_hand() -> None:
    """Two doors: the box holds at its middle, half its depth less the toe kick behind the line it tips over,
    and comes forward by its height times 10.9 mm over the depth of the feet. A door weighs what its sheet
    does, at half its width before the front; 60 lb hang at its end."""
    project = drawn(job(DOORED))
    (one,) = standing(job(DOORED))
    case = one.check.case
    doors = [part for part in project if part.role.value == "door"]
    wide, high = (project.sizes.of(size) for size in (doors[0].width, doors[0].length))
    door = wide * high * per_square_inch(project.job.sheets["ply"].weight)
    assert case.pounds == weight_of(project, (part for part in project if part not in doors))
    assert (case.depth, case.height, case.foot) == (F(24), F(34), F(3))
    assert [(found.pounds, found.width) for found in case.doors] == [(door, wide)] * 2
    lean = F("10.9") / F("25.4") / 21
    assert one.check.holding == case.pounds * (12 - 3 - lean * 17)
    up = case.doors[0].up
    by_doors = 2 * door * (wide / 2 + 3 + lean * up)
    assert one.check.tipping == by_doors + 60 * (wide + 3 + lean * up)


def test_drawers_are_full_and_all_out() -> None:
    (one,) = standing(job(DRAWERS))
    found = one.check.case.drawers
    assert len(found) == 2
    assert {drawer.travel for drawer in found} == {22}
    inside = F(33) - 2 * F(23, 32)
    assert all(0 < drawer.volume < inside * 22 * 15 for drawer in found)
    assert found[0].up < found[1].up


def test_shelves_on_pins_do_not_hold_it_down() -> None:
    with_shelf = DOORED.replace("[{ fronts", "[{ adjustable = 2, fronts")
    assert standing(job(with_shelf))[0].check.case.pounds == standing(job(DOORED))[0].check.case.pounds


def test_it_is_fixed_at_its_strip_into_the_studs_behind_it() -> None:
    """Its strip is 4 in wide, its middle 2 in below its upper end; studs at 8 and 24 in are behind it. The
    pull there just holds it."""
    (one,) = standing(job(DOORED))
    assert one.fastening.studs == (F(8), F(24)) and one.fastening.by_strip
    assert 34 - 4 < one.fastening.up < 34
    assert one.pull * one.fastening.up == one.check.tipping - one.check.holding
    ((place, fix, weight),) = said(job(DOORED))
    assert (place, weight) == ("runs.north", Weight.NOTE)
    assert '8" and 24" from the left end of “wall”' in fix.replace("\u00a0", " ").replace("\u202f", " ")


def test_a_run_is_told_once() -> None:
    assert len(said(job(DOORED, DOORED))) == 1
    ((_, fix, weight),) = said(job(DOORED, SHALLOW))
    assert weight is Weight.NOTE
    assert "Fix each to the wall" in fix


@pytest.mark.parametrize(
    ("framing", "words"),
    [
        ('framing = { kind = "masonry" }', "licensed contractor"),
        ("", "into studs, before"),
    ],
)
def test_a_wall_that_is_not_known_is_not_guessed_at(framing: str, words: str) -> None:
    ((_, fix, _),) = said(job(DOORED, run=framing))
    assert words in fix


def test_what_does_not_open_or_hangs_is_not_told_of() -> None:
    assert standing(job(f"{BASE}\nbays = [{{}}]")) == ()
    hung = DOORED.replace("base", "wall").replace("depth = 24", "depth = 12")
    assert standing(job(hung, run=f"lift = 54\n{STUDS}")) == ()


def test_a_deep_case_with_narrow_doors_stays_on_its_feet() -> None:
    """Doors 6 in wide cannot lever over a box 30 in deep."""
    narrow = DOORED.replace("width = 33", "width = 12").replace("depth = 24", "depth = 36")
    assert [one.check.meets for one in standing(job(narrow))] == [True]
    assert said(job(narrow)) == []


def test_a_worktop_holds_a_case_down() -> None:
    """33 in of its length, 25 in deep at 6 lb a square foot, its middle 11.5 in behind the case's front and
    8.5 in behind the toe kick's, 34.75 in up."""
    top = 'worktop = { thick = "1 1/2", overhang = 1, weight = 6 }'
    (bare,), (held,) = standing(job(DOORED)), standing(job(DOORED, run=f"{STUDS}\n{top}"))
    pounds = F(33 * 25 * 6, 144)
    lean = F("10.9") / F("25.4") / 21
    assert held.check.case.on_top is not None and held.check.case.on_top.pounds == pounds
    assert held.check.holding - bare.check.holding == pounds * (F(23, 2) - 3 - lean * F("34.75"))
    assert held.pull < bare.pull
    unknown = standing(job(DOORED, run=f'{STUDS}\nworktop = {{ thick = "1 1/2" }}'))
    assert [one.pull for one in unknown] == [bare.pull]
