"""Edging on paper: every edged part once, in the words of the steps; over a front, on its case's leaf."""

from __future__ import annotations

from fractions import Fraction as F
from io import BytesIO
from typing import Any

import pytest
from pypdf import PdfReader

from casewright.app.papers.packet_files import packet_of
from casewright.app.sheets.plan_file import plan_json
from casewright.app.sheets.plan_text import plan_words
from casewright.app.sheets.sheets_page import sheets_view
from casewright.lengths.quantities import price_text, with_cents
from casewright.packet.csv_tables import buying_csv, parts_csv
from casewright.packet.pages.buying_page import buying_page
from casewright.packet.shop_packet import packet, packet_data
from planned_once import planned_once
from web_bench import JOB

EDGING = """
[edging.oak]
name = "oak strip"
thickness = "1/4"
width = "7/8"
stick = 96
price = 6.50
put_on = "{put_on}"

[edged]
case = "oak"
shelf = "oak"
"""


def edged(put_on: str) -> Any:
    return planned_once(JOB + EDGING.format(put_on=put_on))


@pytest.mark.parametrize("put_on", ["before joints", "after glue-up"])
def test_every_strip_stands_once_where_it_is_put_on(put_on: str) -> None:
    planned = edged(put_on)
    project, data = planned.project, packet_data(packet_of(planned))
    told: Any = data["edging"]
    rows = [row for session in told for row in session["rows"]]
    on_parts = [mark for row in rows for mark in row["marks"]]
    assert len(on_parts) == len(set(on_parts))
    assert set(on_parts) == {part.mark for part in project if any(edge.first for edge in part.edges)}
    steps = {step.piece: step.hold for text in planned.told for step in text.steps if step.kind == "edging"}
    assert {mark: row["words"] for row in rows for mark in row["marks"]} == steps
    cases: Any = data["cases"]
    for leaf in cases:
        said = [step["words"] for step in leaf["steps"] if step["title"] == "edging"]
        last = [
            part.mark for part in project.cases[leaf["mark"]].parts if part.edges and not part.edges[0].first
        ]
        assert len(said) == bool(last) and all(mark in said[0] for mark in last)
        assert bool(last) == (put_on == "after glue-up")


def test_the_yard_and_the_lists_name_the_sticks_and_the_edges() -> None:
    planned = edged("before joints")
    (bought,) = planned.worked.hardware.edging
    text = " ".join(page.extract_text() for page in PdfReader(BytesIO(packet(packet_of(planned)))).pages)
    assert "edging for" in text and "none is chosen" not in text
    page: Any = buying_page(planned.project, planned.plans, planned.purchases, planned.worked.hardware)
    (listed,) = (one for one in page["lines"] if one["name"] == "oak strip")
    assert (listed["count"], listed["sheet"]) == (bought.sticks, "96")
    assert ("fewer will not do" in listed["note"]) is bought.proved
    line = next(
        one
        for one in buying_csv(planned.project, (), planned.worked.hardware).decode().splitlines()
        if "oak" in one
    )
    assert line == f"oak strip,96,,,{bought.sticks},6.50,{6.5 * bought.sticks:.2f}"
    rows = parts_csv(planned.project).decode().splitlines()
    assert sum(row.endswith("front: oak strip") for row in rows) == sum(
        bool(part.edges) for part in planned.project
    )


def test_every_total_of_money_has_the_edging_in_it() -> None:
    """The buying list, the first page, the page of sheets, the plan's file and its words: one sum."""
    planned, bare = edged("before joints"), planned_once(JOB)
    (bought,) = planned.worked.hardware.edging
    money, sheets = planned.project.job.money, sum(line.money for line in planned.purchases)
    assert bought.money == F(13, 2) * bought.sticks > 0
    page: Any = buying_page(planned.project, planned.plans, planned.purchases, planned.worked.hardware)
    assert page["total"] == price_text(sheets + bought.money, money)
    figures: Any = packet_data(packet_of(planned))["figures"]
    assert (page["total"], "sheet goods and edging") in {
        (one["value"], one["caption"].partition(",")[0]) for one in figures
    }
    plain: Any = packet_data(packet_of(bare))["figures"]
    assert any(one["caption"].partition(",")[0] == "sheet goods" for one in plain)
    cents = with_cents(bought.money)
    (view,) = (one for one in sheets_view(planned) if one.name == "oak strip")
    assert f"Buy {bought.sticks} length" in view.buy and cents in view.buy
    assert cents in plan_words(planned) and cents not in plan_words(bare)
    (entry,) = plan_json(planned)["edging"]
    assert (entry["lengths"], entry["money"], entry["fewest"]) == (
        bought.sticks,
        float(bought.money),
        bought.proved,
    )
