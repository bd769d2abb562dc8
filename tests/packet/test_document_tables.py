"""Tables, groups and cut lists: nothing lost, nothing twice, read back by the standard library."""

from __future__ import annotations

import csv
from collections import Counter
from fractions import Fraction as F
from io import StringIO

import segno
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.casework.job import Bay
from casewright.casework.parts.alike_parts import groups
from casewright.casework.parts.part import Hand, Role
from casewright.casework.parts.weights import weight_of
from casewright.casework.project import draw_up
from casewright.drawings.kit.pages import Paper
from casewright.lengths.length import MM, Unit, parse_length
from casewright.packet.csv_tables import buying_csv, parts_csv
from casewright.packet.labels.square_code import QUIET, code_svg
from casewright.packet.pages.cut_order import CutLine, cut_lines
from casewright.packet.pages.part_work import work_in_short
from casewright.packet.pages.prices import priced
from casewright.packet.pages.sheet_pages import in_columns
from casewright.packet.pages.weights import weight_words
from casewright.planner.plan import Purpose
from casewright.planner.problem import Direction, Edge
from drawings.shown_jobs import plans, project, project_mm
from samples import job, spec


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
        assert abs(read - length) <= F(1, 64)


def test_a_millimetre_table_is_in_millimetres() -> None:
    side = rows(parts_csv(project_mm()))[0]
    assert float(side["length exact (mm)"]) == float(project_mm().sizes.of("B1-L.length") / MM)


def test_the_buying_table_adds_up() -> None:
    table = rows(buying_csv(project(), plans()))
    together = sum(F(row["together"]) for row in table if row["together"])
    assert together == sum(plan.figures.money for plan in plans().values())
    shelves = sum(part.role is Role.ADJUSTABLE_SHELF for part in project())
    assert table[-1]["what"] == "shelf pins" and int(table[-1]["count"]) == 4 * shelves


@settings(deadline=None)
@given(st.lists(st.sampled_from([F(24), F(30), F(36)]), min_size=1, max_size=4), st.integers(0, 3))
def test_groups_hold_every_part_once_and_only_equals(widths: list[F], shelves: int) -> None:
    specs = [spec(f"B{n}", width=width, bays=(Bay(adjustable=shelves),)) for n, width in enumerate(widths, 1)]
    proj = draw_up(job(*specs))
    found = groups(proj)
    assert Counter(mark for group in found for mark in group.marks) == Counter(list(proj.parts))
    for group in found:
        assert len({proj.dimensions(part) for part in group.parts}) == 1
        assert len({part.material for part in group.parts}) == 1
        assert len({work_in_short(proj, part) for part in group.parts}) == 1
    sides = [group for group in found if group.first.hand is not Hand.NONE]
    # Cases differ in width only, so all their sides are alike: one group, half of it left.
    assert len(sides) == 1 and len(sides[0].of_hand(Hand.LEFT)) == len(widths) == sides[0].count / 2


def test_sides_bored_unlike_are_no_pair() -> None:
    """Regression: with shelves in one bay only, left and right side differ and need a drawing each."""
    proj = draw_up(job(spec(bays=(Bay(adjustable=2), Bay()))))
    sides = [group for group in groups(proj) if group.first.hand is not Hand.NONE]
    assert [group.count for group in sides] == [1, 1]
    assert all(group.pair is None for group in sides)


def test_cut_lists_hold_every_cut_once_in_order_and_every_part() -> None:
    for plan in plans().values():
        for sheet in plan.sheets:
            lines = cut_lines(sheet)
            assert [order for line in lines for order in line.orders] == [cut.order for cut in sheet.cuts]
            settings = {cut.order: cut for cut in sheet.cuts}
            for line in lines:
                assert all(settings[order].setting == line.setting for order in line.orders)
            named = {mark for line in lines if line.purpose is not Purpose.TRIM for mark in line.gives}
            whole = {sheet.root.item} if sheet.root.item else set()
            assert {piece.item for piece in sheet.parts} - whole <= named


def test_a_labels_code_is_the_libraries_own_matrix() -> None:
    content = "casewright:part/B1-L"
    matrix = [list(row) for row in segno.make(content, error="m", micro=False, boost_error=False).matrix]
    drawn = [[0] * len(matrix) for _ in matrix]
    svg = code_svg(content).decode()
    for move in svg.split('d="M')[1].split('"')[0].split("M"):
        x, rest = move.split(" ")
        y, length = rest.split("v")[0].split("h")
        for step in range(int(length)):
            drawn[int(y) - QUIET][int(x) - QUIET + step] = 1
    assert drawn == matrix


def test_weight_is_area_by_the_sheets_weight() -> None:
    back = project().parts["B1-K"]
    length, width, _ = project().dimensions(back)
    assert weight_of(project(), [back]) == length * width / 144 * 2
    assert weight_words(project(), [back]) == f"{round(length * width / 144 * 2)} lb"
    assert weight_of(draw_up(job()), draw_up(job())) is None
    assert weight_words(draw_up(job()), draw_up(job())) == "not known"


def test_money_shows_cents_only_where_there_are_any() -> None:
    assert [priced(F(94), "$"), priced(F(189, 2), "$"), priced(F(1034), "EUR")] == [
        "$94",
        "$94.50",
        "EUR 1,034",
    ]


@settings(deadline=None)
@given(st.lists(st.sampled_from([Purpose.TRIM, Purpose.SIZE]), max_size=160), st.sampled_from(Paper))
def test_columns_of_cuts_read_on_from_page_to_page(purposes: list[Purpose], paper: Paper) -> None:
    """Regression: column one ran over the page's end, so cut 23 came after cut 93."""
    lines = tuple(
        CutLine((n,), "table saw", Direction.RIP, purpose, F(4), Edge.NEAR, ("B1-TK",))
        for n, purpose in enumerate(purposes, 1)
    )
    pages = in_columns(lines, paper)
    assert [line for columns in pages for column in columns for line in column] == list(lines)
    assert all(len(columns) == 3 for columns in pages)
    assert len(pages) <= 1 + len(lines) // 45
