"""Edging on paper: every edged part once, in the words of the steps; over a front, on its case's leaf."""

from __future__ import annotations

from io import BytesIO
from typing import Any

import pytest
from pypdf import PdfReader

from casewright.app.papers.packet_files import packet_of
from casewright.packet.csv_tables import buying_csv, parts_csv
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
    assert "Oak strip, 96 long, for" in text and "none is chosen" not in text
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
