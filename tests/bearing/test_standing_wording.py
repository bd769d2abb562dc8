"""How a case on the floor is fixed, in words, on every way in."""

from __future__ import annotations

from bearing.loaded_jobs import borne_by, drawn
from bearing.test_standing import BASE, DOORED, SHALLOW, job
from casewright.bearing.hanging_sheet import StandTold
from casewright.bearing.standing_wording import stand_told
from casewright.lengths.quantities import weighed


def told(job_text: str) -> StandTold:
    return stand_told(drawn(job_text), "W1")


def test_height_studs_and_pull_by_a_figure() -> None:
    """The strip is 4 in wide below the upper stretcher; studs at 8 and 24 in stand behind the case."""
    project = drawn(job(SHALLOW))
    said = told(job(SHALLOW))
    assert 'through its highest strip, into the studs 8" and 24" from the left end of “wall”' in said.fixed
    (one,) = borne_by(job(SHALLOW)).standing
    assert f"a pull of {weighed(one.pull, project.job.unit)} there holds it" in said.held
    assert "before it is fixed it does not meet ASTM F2057-23" in said.held
    assert "60 lb hung on one, drawers full" in said.held
    assert said.words.startswith("Before anything in it is opened, fix it to the wall ")


def test_what_has_no_doors_is_fixed_all_the_same() -> None:
    said = told(job(BASE))
    assert said.held == "" and said.words == said.fixed and "above the floor" in said.fixed


def test_studs_that_nobody_has_found_and_walls_that_are_anothers_business() -> None:
    assert ", into studs." in told(job(DOORED, run="")).fixed
    brick = told(job(DOORED, run='framing = { kind = "masonry" }')).fixed
    assert "as a licensed contractor says for this wall" in brick


def test_the_page_tells_every_case_on_the_floor() -> None:
    sheet = borne_by(job(BASE, DOORED)).hanging_sheet
    assert [one.mark for one in sheet.stands] == ["W1", "W2"]
    assert sheet.stands[0] == told(job(BASE, DOORED)) and not sheet.rows
    assert any("Who lifts" in line for line in sheet.assumptions)
