"""Labels fit their paper, one a part, each with a code that leads to the part."""

from __future__ import annotations

import re
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from casewright.app.jobs.worked_job import WorkedJob
from casewright.app.papers.label_files import write_labels
from casewright.casework.project import draw_up
from casewright.drawings.kit.lettering import dimension_text
from casewright.drawings.kit.pages import Paper
from casewright.errors import CasewrightError, JobError
from casewright.packet.cut_places import cut_places
from casewright.packet.labels.label_stock import STOCKS
from casewright.packet.labels.labels import USUAL_STOCK, label_sheets, labels_pdf
from samples import BASE, job, spec

JOB = job(spec(bays=BASE))
PROJECT = draw_up(JOB)
PLANNED = WorkedJob("", JOB, PROJECT).planned(0.05)
PLACES = cut_places(PLANNED.ordered)
ADDRESS = "http://bench.local:8411/jobs/larder/shop#"


@pytest.mark.parametrize("name", STOCKS)
def test_the_labels_of_a_sheet_fill_its_paper_and_no_more(name: str) -> None:
    stock, grid = STOCKS[name], STOCKS[name].grid
    across = 2 * grid.left + grid.across * grid.wide + (grid.across - 1) * grid.gap
    down = 2 * grid.top + grid.down * grid.high
    assert across == pytest.approx(stock.wide, abs=0.5) and down == pytest.approx(stock.tall, abs=0.5)
    assert grid.code <= grid.high - 10


@pytest.mark.parametrize("name", STOCKS)
def test_every_part_has_one_label_that_can_be_read(name: str) -> None:
    stock = STOCKS[name]
    pages = PdfReader(BytesIO(labels_pdf(PROJECT, PLANNED.plan_name, PLACES, stock, ADDRESS))).pages
    per_page = stock.grid.across * stock.grid.down
    assert len(pages) == -(-len(PROJECT.parts) // per_page)
    assert {(round(float(p.mediabox.width)), round(float(p.mediabox.height))) for p in pages} == {
        (round(stock.wide), round(stock.tall))
    }
    lines = [line.strip() for page in pages for line in page.extract_text().splitlines()]
    for mark in PROJECT.parts:
        assert lines.count(mark) == 1, mark


def test_a_label_names_the_sheet_its_part_is_cut_from() -> None:
    """And the step that cuts it to size, and by which plan."""
    stock, parts = STOCKS["roll 4 x 2 in"], [PROJECT.parts["B1-L"]]
    made = labels_pdf(PROJECT, PLANNED.plan_name, PLACES, stock, "", parts)
    (page,) = PdfReader(BytesIO(made)).pages
    number = next(sheet.number for sheet, piece in PLANNED.plans["ply"].parts() if piece.item == "B1-L")
    step = max(
        number
        for number, batch in enumerate(PLANNED.ordered.batches, 1)
        for one in batch.operations
        if one.kind.cuts_up_a_sheet and "B1-L" in one.parts
    )
    said = " ".join(page.extract_text().split())
    assert f", ply {number}, step {step} ({PLANNED.plan_name})" in said


def test_labels_stand_in_the_order_in_which_their_parts_are_cut() -> None:
    made = labels_pdf(PROJECT, PLANNED.plan_name, PLACES, STOCKS["roll 4 x 2 in"], "")
    said = [page.extract_text() for page in PdfReader(BytesIO(made)).pages]
    steps = [int(found[1]) for text in said if (found := re.search(r"step (\d+)", " ".join(text.split())))]
    assert len(steps) == len(PROJECT.parts) and steps == sorted(steps)


def test_only_the_parts_asked_for(tmp_path: Path) -> None:
    out = tmp_path / "again.pdf"
    assert write_labels(PLANNED, "roll 62 x 29 mm", str(out), ADDRESS, ["B1-L", "B1-R"]) == 2
    assert len(PdfReader(out).pages) == 2
    with pytest.raises(JobError, match="B9-L"):
        write_labels(PLANNED, "roll 62 x 29 mm", str(out), ADDRESS, ["B9-L"])
    with pytest.raises(CasewrightError, match="cannot be written"):
        write_labels(PLANNED, "letter 30", str(tmp_path))


def test_offcuts_worth_keeping_fill_the_last_page_of_the_packets_labels() -> None:
    """The largest first, no page more than the parts alone take."""
    paper = Paper.LETTER
    made: Any = label_sheets(PROJECT, PLANNED.plan_name, PLACES, paper, ADDRESS, PLANNED.plans)
    kept = [piece for plan in PLANNED.plans.values() for sheet in plan.sheets for piece in sheet.offcuts]
    labels = made["all"][len(PROJECT.parts) :]
    grid = STOCKS[USUAL_STOCK[paper]].grid
    assert kept and len(labels) == min(len(kept), -len(PROJECT.parts) % (grid.across * grid.down))
    largest = max(kept, key=lambda piece: piece.area)
    assert labels[0]["mark"].startswith(dimension_text(largest.length, PROJECT.rule))
    assert all("worth keeping" in label["words"] and not label["code"] for label in labels)
