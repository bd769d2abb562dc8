"""A spoiled part of rough boards is refused, one of a sheet beside it is put right."""

from __future__ import annotations

from casewright.app.editing.forms import materials_form
from casewright.app.jobs.worked_job import open_job
from casewright.app.repair.mishap import Mishap, repair_task
from casewright.app.repair.repair_page import look
from finding_rows import Provoke, Row, check, each, told
from loft_job import LOFT, loft


def spoiled(mark: str) -> Provoke:
    return lambda: told(lambda: repair_task(loft(), Mishap(spoiled=[mark])))


def lost(mark: str) -> Provoke:
    return lambda: told(lambda: repair_task(loft(), Mishap(lost=[mark])))


ROWS = [
    Row(
        "part-of-boards", "B1-RA1", "boards of hard maple", "turned round", spoiled("B1-RA1"), spoiled("B1-L")
    ),
    Row("part-of-boards", "B1-ST1", "boards of hard maple", "Mill another", lost("B1-ST1"), lost("B1-R")),
]


@each(ROWS)
def test_every_finding_is_provoked(row: Row) -> None:
    check(row)


def test_another_part_is_milled_from_what_the_boards_leave_or_from_a_small_board() -> None:
    (rail,) = told(lambda: repair_task(loft(), Mishap(spoiled=["B1-RA1"])))
    assert "from what is left beside the strips of Board" in rail.fix
    assert "from a 4/4 FAS board to buy, clear, at least 96" in rail.fix and "(4 bf, $38.00)" in rail.fix


def test_a_way_for_a_part_of_a_sheet_leaves_the_boards_alone() -> None:
    found = look(repair_task(loft(), Mishap(spoiled=["B1-L"])))
    assert found.lines and not any("maple" in line.what for line in found.lines)


def test_the_form_of_a_wood_asks_nothing_about_sheets() -> None:
    groups = materials_form(open_job(LOFT))
    of_maple = {field.path[-1] for group in groups for field in group.fields if "maple" in field.path}
    assert {"name", "usual", "readings", "weight"} <= of_maple
    assert not of_maple & {"sheet", "size", "trim", "price", "nominal", "boards", "others"}
