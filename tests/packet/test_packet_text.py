"""The packet read back: every part, every sum, thin spaces, one typeface, a length a person can hold."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction as F
from functools import cache
from io import BytesIO
from typing import Any

import pytest
from pypdf import PdfReader

from casewright.casework.project import draw_up
from casewright.drawings.kit.lettering import THIN_SPACE, dimension_text
from casewright.findings import Finding, Weight
from casewright.packet.pages.cautions import CAUTIONS
from casewright.packet.pages.wall_pages import GAP, ROOM
from casewright.packet.shop_packet import Notice, packet, packet_data
from casewright.packet.typesetting import TEMPLATES
from casewright.planner.engine import MaxIterations
from casewright.planner.solve import solve
from casewright.workshop.sheets.cut_problems import cut_problems
from casewright.workshop.sheets.purchases import buying_list, money_of, sheets_of
from drawings.shown_jobs import plans, project, project_mm
from packet.packet_input import packet_of
from samples import spec


@cache
def printed() -> bytes:
    return packet(packet_of(project(), plans(), "7"))


@cache
def pages() -> tuple[str, ...]:
    return tuple(page.extract_text() for page in PdfReader(BytesIO(printed())).pages)


def text() -> str:
    return "\n".join(pages())


def stands_in(length: str, words: str) -> bool:
    """Whether a length stands in the text with white space where it has its thin space.

    A PDF names a glyph's text once, so one space glyph set in two widths reads back as either.
    """
    return (
        re.search(rf"(?<![\d/]){re.escape(length).replace(THIN_SPACE, chr(92) + 's')}(?![\d/])", words)
        is not None
    )


def section(title: str) -> str:
    """The text of the pages that begin with a heading, and those that follow without one."""
    return "\n".join(page for page in pages() if title in page)


def test_every_part_is_in_the_packet_and_on_a_label() -> None:
    labels = "\n".join(page for page in pages() if "revision" not in page)
    for mark in project().parts:
        assert len(re.findall(rf"\b{re.escape(mark)}\b", text())) >= 3, mark
        assert len(re.findall(rf"^{re.escape(mark)}$", labels, re.MULTILINE)) == 1, mark


def test_no_whole_runs_into_its_fraction() -> None:
    """Regression: 21 25/32 set without a gap is read as 2125/32."""
    lengths = [
        dimension_text(size, project().rule) for part in project() for size in project().dimensions(part)
    ]
    mixed = [length for length in lengths if THIN_SPACE in length]
    assert mixed
    assert all(stands_in(length, text()) for length in mixed)
    for numerator in re.findall(r"(\d+)/(?:2|4|8|16|32|64)\b", text()):
        assert len(numerator) <= 2


def test_rounded_sizes_are_flagged() -> None:
    thickness = dimension_text(project().sizes.of("ply.thickness"), project().rule)
    assert thickness.startswith("~") and thickness in text()
    assert "~ means rounded, by less than 1/32" in text()


def test_the_buying_list_adds_up_to_the_plans() -> None:
    bought = buying_list(project(), plans())
    assert money_of(bought) == sum(plan.figures.money for plan in plans().values())
    assert sheets_of(bought) == sum(plan.figures.sheets for plan in plans().values())
    assert f"${int(money_of(bought)):,}" in section("At the yard")


def test_every_setting_of_the_table_saw_is_printed_in_the_order_of_the_steps() -> None:
    data: Any = packet_data(packet_of(project(), plans(), "7"))
    words = section("At the table saw")
    titles = [f"{row['number']} {row['title']}" for row in data["table_saw"]["rows"] if not row["where"]]
    assert len(titles) > 10
    printed = re.sub(r"\s+", " ", words)
    places = [printed.find(title) for title in titles]
    assert -1 not in places and places == sorted(places)
    assert "kerf 0.125 in" in words


def test_every_sheet_stands_at_the_trestles_with_its_cuts_by_hand() -> None:
    data: Any = packet_data(packet_of(project(), plans(), "7"))
    words = re.sub(r"\s+", " ", text())
    for page in data["trestles"]["sheets"]:
        assert f"{page['name']} sheet {page['number']} {page['of']}" in words
        for cut in page["cuts"]:
            assert cut["hold"] in words


def test_cautions_stand_on_page_two_before_any_cut() -> None:
    assert "Cautions" in pages()[1]
    assert all(caution.title in pages()[1] for caution in CAUTIONS)
    assert "manuals" in pages()[1] and "licensed" in pages()[1]
    assert all("Cautions: page 2" in page for page in pages() if "revision 7" in page)


def test_the_packet_is_set_in_one_typeface() -> None:
    """A sign that the typeface lacks would be set in another one, and drag its line along."""
    fonts = set()
    for page in PdfReader(BytesIO(printed())).pages:
        stack: list[Any] = [page["/Resources"]]
        while stack:
            found = stack.pop().get_object()
            for font in (found.get("/Font") or {}).values():
                fonts.add(str(font.get_object()["/BaseFont"]).split("+")[-1])
            stack += [
                x.get_object()["/Resources"]
                for x in (found.get("/XObject") or {}).values()
                if "/Resources" in x.get_object()
            ]
    assert fonts
    assert all("SourceSansPro" in font for font in fonts), fonts


def test_the_packet_stays_short_and_numbers_its_pages() -> None:
    numbered = [page for page in pages() if "revision 7" in page]
    assert len(pages()) <= 32
    assert len(numbered) > 10
    for number, page in enumerate(pages(), 1):
        # Pages of labels have the paper to themselves.
        assert page not in numbered or f"page {number} of {len(pages())}" in page


def test_the_same_job_gives_the_same_bytes() -> None:
    assert packet(packet_of(project(), plans(), "7")) == printed()


def test_letter_in_inches_and_a4_in_millimetres() -> None:
    box = PdfReader(BytesIO(printed())).pages[0].mediabox
    assert (round(box.width), round(box.height)) == (612, 792)
    metric = {key: solve(problem, MaxIterations(20)) for key, problem in cut_problems(project_mm()).items()}
    content = packet(packet_of(project_mm(), metric, "1"))
    reader = PdfReader(BytesIO(content))
    assert (round(reader.pages[0].mediabox.width), round(reader.pages[0].mediabox.height)) == (595, 842)
    words = "\n".join(page.extract_text() for page in reader.pages)
    assert "Sizes in millimetres" in words and "900" in words and "/32" not in words


def test_findings_are_on_the_cover_and_notices_with_the_cautions() -> None:
    finding = Finding("a-code", "cases.B1", "the shelf is long.", "Add a divider.", Weight.WARN)
    told = replace(project(), findings=(finding,))
    notice = Notice("Look-alike sizes", ("B1-L beside B2-L",))
    content = packet(packet_of(told, plans(), "1", notices=(notice,)))
    cover, second = (page.extract_text() for page in PdfReader(BytesIO(content)).pages[:2])
    assert "the shelf is long." in cover and "Add a divider." in cover and "cases.B1" in cover
    assert "Look-alike sizes" in second and "B1-L beside B2-L" in second


def test_the_cover_says_what_stops_most_first_and_stays_one_page() -> None:
    """Regression: with more to mind than fits, the contents stood alone on a second page."""
    weights = [Weight.NOTE, Weight.WARN, Weight.NOTE, *[Weight.WARN] * 8]
    many = tuple(
        Finding(f"code-{number}", f"P{number}", f"thing number {number}.", "Mend it.", weight)
        for number, weight in enumerate(weights)
    )
    told = replace(project(), findings=many)
    notice = Notice("Look-alike sizes", ("B1-L beside B2-L",))
    content = packet(packet_of(told, plans(), "1", notices=(notice,)))
    cover, second = (page.extract_text() for page in PdfReader(BytesIO(content)).pages[:2])
    assert "thing number 1." in cover and "Labels" in cover and "thing number 0." not in cover
    assert second.index("Cautions") < second.index("thing number 0.") < second.index("Look-alike sizes")
    data: Any = packet_data(packet_of(told, plans(), "1"))
    weighed = [one["weight"] for one in (*data["findings"], *data["more_findings"])]
    assert weighed == sorted(weighed, key=["refuse", "warn", "note"].index)


def test_a_job_along_three_walls_has_every_wall_in_its_packet() -> None:
    (low, high) = project().job.runs
    other = (spec("E1", width=F(30)), spec("S1", width=F(30)))
    walls = (
        replace(low, wall="east", cases=other[:1], opening=F(30)),
        replace(high, wall="south", cases=other[1:], opening=F(30)),
    )
    sides = (replace(run, name=run.wall, left=None) for run in walls)
    turned = draw_up(replace(project().job, runs=(low, *sides)))
    data: Any = packet_data(packet_of(turned, {}, "1"))
    (row,) = data["walls"]
    assert [wall["name"] for wall in row] == ["north", "east", "south"]
    assert sum(wall["picture"]["wide"] for wall in row) + 2 * GAP <= ROOM[0]
    assert 180 < max(wall["picture"]["tall"] for wall in row) <= ROOM[1]


def test_sheets_with_numbers_of_their_own_are_not_counted_to_the_last() -> None:
    """Handed out anew, `sheet 12 of 3` would be nonsense."""
    data: Any = packet_data(packet_of(project(), plans(), "1"))
    assert {page["of"] for page in data["trestles"]["sheets"]} == {
        f"of {len(plan.sheets)}" for plan in plans().values()
    }
    later = {
        key: replace(plan, sheets=tuple(replace(sheet, number=sheet.number + 9) for sheet in plan.sheets))
        for key, plan in plans().items()
    }
    data = packet_data(packet_of(project(), later, "1"))
    assert {page["of"] for page in data["trestles"]["sheets"]} == {""}
    assert min(page["number"] for page in data["trestles"]["sheets"]) == 10


@pytest.mark.parametrize("name", ["*hash #show", "$x$ _a_ @b", "<angle> & “quote”", "\\back\\slash"])
def test_a_job_may_be_called_anything(name: str) -> None:
    named = replace(project(), job=replace(project().job, name=name))
    cover = PdfReader(BytesIO(packet(packet_of(named, {}, "1")))).pages[0].extract_text()
    assert name in cover.replace("\n", " ")


def test_templates_are_package_data() -> None:
    assert {path.name for path in TEMPLATES.iterdir()} >= {"packet.typ", "look.typ", "cover.typ"}


def test_no_line_ends_between_a_whole_and_its_fraction() -> None:
    """Regression: `21` stood at the end of one line and `7/16` at the start of the next."""
    words = " ".join(f"set {'a' * (n % 7 + 1)} 21 7/16" for n in range(120))
    content = packet(packet_of(project(), {}, "1", notices=(Notice("Long", (words,)),)))
    page = PdfReader(BytesIO(content)).pages[1].extract_text()
    assert page.count("7/16") >= 120
    assert not re.search(r"^7/16", page, re.MULTILINE)
