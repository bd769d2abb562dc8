"""The packet's page of costs, the table of them, and the quote for the customer."""

from __future__ import annotations

import csv
from io import BytesIO, StringIO
from typing import Any

from pypdf import PdfReader

from casewright.app.papers.packet_files import documents, packet_of
from casewright.packet.csv_tables import buying_csv
from casewright.packet.leaves import Leaves, Moment
from casewright.packet.pages.buying_page import buying_page
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


def test_the_yard_lists_glue_and_finish_as_the_costs_count_them() -> None:
    """What `[costs]` tells is to buy, and is not among what is “not counted”."""
    made = planned_once(BOX + PRICES)
    costs = {line.what: line for line in made.costs.lines}
    page: Any = buying_page(made.project, made.plans, made.purchases, made.worked.hardware)
    listed = {one["name"]: one["count"] for one in page["hardware"]}
    for what in ("glue", "finish"):
        assert listed[f"{what.capitalize()}, for {costs[what].follows}"] == costs[what].amount
        assert what not in page["note"]
    table = buying_csv(made.project, made.purchases, made.worked.hardware).decode()
    assert '\r\n"glue, bottles",,,,0.31,10.00,3.13\r\n' in table
    assert '\r\n"finish, cans",,,,6,20.00,120.00\r\n' in table


def test_the_yard_says_what_the_job_does_not_tell_of() -> None:
    made, half = planned_once(BOX), planned_once(f"{BOX}\n[costs.finish]\ncovers = '10 ft2'\n")
    bare: Any = buying_page(made.project, made.plans, made.purchases, made.worked.hardware)
    assert bare["note"].endswith("(its studs decide), glue and finish.")
    assert "glue" not in buying_csv(made.project, made.purchases, made.worked.hardware).decode()
    page: Any = buying_page(half.project, half.plans, half.purchases, half.worked.hardware)
    assert page["note"].endswith("(its studs decide) and glue.")
    assert [one["count"] for one in page["hardware"] if one["name"].startswith("Finish")] == ["4 cans"]
    assert '"finish, cans",,,,4,,\r\n' in buying_csv(half.project, (), half.worked.hardware).decode()


def printed(text: str) -> str:
    pages = PdfReader(BytesIO(packet(packet_of(planned_once(text), leaves=Leaves((Moment.COSTS,)))))).pages
    return " ".join("".join(page.extract_text() for page in pages).split())


def test_the_page_is_there_for_a_job_that_tells_prices_alone() -> None:
    said = printed(BOX + PRICES)
    costs = planned_once(BOX + PRICES).costs
    assert "Money and hours" in said and f"${float(costs.quote):,.2f}" in said
    assert "Money and hours" not in printed(BOX)
