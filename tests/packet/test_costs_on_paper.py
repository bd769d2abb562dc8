"""The packet's page of costs, the table of them, and the quote for the customer."""

from __future__ import annotations

import csv
from io import BytesIO, StringIO

from pypdf import PdfReader

from casewright.app.papers.packet_files import documents, packet_of
from casewright.packet.leaves import Leaves, Moment
from casewright.packet.shop_packet import packet
from planned_once import planned_once
from priced_box import BOX, PRICES


def files(text: str) -> dict[str, bytes]:
    wanted = ("costs.csv", "quote.pdf")
    return {one.path: one.make() for one in documents(planned_once(text)) if one.path in wanted}


def test_the_table_has_a_row_a_line_and_its_money_is_theirs() -> None:
    rows = list(csv.DictReader(StringIO(files(BOX + PRICES)["costs.csv"].decode())))
    costs = planned_once(BOX + PRICES).costs
    assert [row["what"] for row in rows] == [line.what for line in costs.lines]
    assert sum(round(float(row["money ($)"]) * 100) for row in rows) == costs.total * 100


def test_what_has_no_price_has_an_empty_cell_and_there_is_no_quote() -> None:
    made = files(BOX)
    rows = list(csv.DictReader(StringIO(made["costs.csv"].decode())))
    assert {row["what"] for row in rows if row["money ($)"] == ""} == {
        line.what for line in planned_once(BOX).costs.unpriced
    }
    assert "quote.pdf" not in made and files(BOX + PRICES)["quote.pdf"].startswith(b"%PDF")


def printed(text: str) -> str:
    pages = PdfReader(BytesIO(packet(packet_of(planned_once(text), leaves=Leaves((Moment.COSTS,)))))).pages
    return " ".join("".join(page.extract_text() for page in pages).split())


def test_the_page_is_there_for_a_job_that_tells_prices_alone() -> None:
    said = printed(BOX + PRICES)
    costs = planned_once(BOX + PRICES).costs
    assert "Money and hours" in said and f"${float(costs.quote):,.2f}" in said
    assert "Money and hours" not in printed(BOX)
