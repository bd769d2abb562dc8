"""Tables, groups and cut lists: nothing lost, nothing twice, read back by the standard library."""

from __future__ import annotations

import csv
import re
from dataclasses import replace
from fractions import Fraction as F
from io import StringIO
from math import floor
from xml.etree import ElementTree

import pytest
import segno

from casewright.casework.parts.part import Role
from casewright.casework.parts.weights import weight_of
from casewright.casework.project import draw_up
from casewright.lengths.length import MM, Unit, parse_length
from casewright.lengths.quantities import price_text
from casewright.packet.csv_tables import buying_csv, parts_csv
from casewright.packet.labels.square_code import QUIET, code_svg
from casewright.planner.solve import solve
from casewright.workshop.hardware import hardware
from casewright.workshop.sheets.cut_problems import cut_problems
from casewright.workshop.sheets.purchases import buying_list
from drawings.shown_jobs import plans, project, project_mm
from samples import job


def rows(content: bytes) -> list[dict[str, str]]:
    assert b"\r\n" in content and b"\n" not in content.replace(b"\r\n", b"")
    return list(csv.DictReader(StringIO(content.decode(), newline="")))


def test_the_parts_table_reads_back_to_the_ledger() -> None:
    table = rows(parts_csv(project()))
    assert [row["mark"] for row in table] == list(project().parts)
    for row, part in zip(table, project(), strict=True):
        length = project().sizes.of(part.length)
        assert abs(float(row["length exact (in)"]) - float(length)) < 1e-6
        read = parse_length(row["length"].removeprefix("~"), Unit.INCH)
        assert row["length"].startswith("~") == (read != length)
        assert read == project().rule.number(length)


def test_a_millimetre_table_is_in_millimetres() -> None:
    side = rows(parts_csv(project_mm()))[0]
    assert float(side["length exact (mm)"]) == float(project_mm().sizes.of("B1-L.length") / MM)


def test_the_buying_table_adds_up() -> None:
    table = rows(buying_csv(project(), buying_list(project(), plans()), hardware(project(), ())))
    together = sum(F(row["together"]) for row in table if row["together"])
    assert together == sum(plan.figures.money for plan in plans().values())
    shelves = sum(part.role is Role.ADJUSTABLE_SHELF for part in project())
    assert table[-1]["what"] == "shelf pins" and int(table[-1]["count"]) == 4 * shelves


HOSTILE = ["=1+1", "+1+1", "-2+3", "@SUM(A1)", " =1+1", "＝1+1", '=HYPERLINK("http://x","y")', "-"]


@pytest.mark.parametrize("name", HOSTILE)
def test_no_name_becomes_a_formula_in_a_table(name: str) -> None:
    """A spreadsheet works out a cell that begins with one of these signs, even after blanks."""
    plain = job()
    sheets = {key: replace(sheet, name=f"{name} {key}") for key, sheet in plain.sheets.items()}
    drawn = draw_up(replace(plain, sheets=sheets, money=name))
    bought = buying_list(drawn, {key: solve(problem) for key, problem in cut_problems(drawn).items()})
    for content in (parts_csv(drawn), buying_csv(drawn, bought, hardware(drawn, ()))):
        table = list(csv.reader(StringIO(content.decode(), newline="")))
        cells = [cell for row in table for cell in row if cell]
        assert any(cell.startswith(f"'{name} ") for cell in cells)
        assert not [cell for cell in cells if cell.lstrip()[:1] in set("=+-@＝＋－＠")]


def test_a_labels_code_is_the_libraries_own_matrix() -> None:
    """Read back from the lines it is drawn with: level M kept, two modules of white on every side."""
    content = "casewright:part/B1-L"
    matrix = [list(row) for row in segno.make(content, error="m", micro=False, boost_error=False).matrix]
    side = len(matrix) + 2 * QUIET
    svg = ElementTree.fromstring(code_svg(content))
    assert svg.get("viewBox") == f"0 0 {side} {side}"
    (path,) = svg
    drawn = [[0] * side for _ in range(side)]
    x = y = 0.0
    for move, across, down, run in re.findall(r"([Mm])(-?[\d.]+) (-?[\d.]+)h(\d+)", path.get("d", "")):
        x, y = (float(across), float(down)) if move == "M" else (x + float(across), y + float(down))
        for _ in range(int(run)):
            drawn[floor(y)][int(x)] = 1
            x += 1
    assert [row[QUIET:-QUIET] for row in drawn[QUIET:-QUIET]] == matrix
    assert sum(map(sum, drawn)) == sum(map(sum, matrix))


def test_weight_is_area_by_the_sheets_weight() -> None:
    back = project().parts["B1-K"]
    length, width, _ = project().dimensions(back)
    assert weight_of(project(), [back]) == length * width / 144 * 2
    assert weight_of(draw_up(job()), draw_up(job())) is None


def test_money_shows_cents_only_where_there_are_any() -> None:
    assert [price_text(F(94), "$"), price_text(F(189, 2), "$"), price_text(F(1034), "EUR")] == [
        "$94",
        "$94.50",
        "EUR 1,034",
    ]
