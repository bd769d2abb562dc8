"""Labels fit their paper, one a part, each with a code that leads to the part."""

from __future__ import annotations

import re
from dataclasses import replace
from io import BytesIO
from math import hypot
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from casewright.app.jobs.worked_job import WorkedJob
from casewright.app.papers.label_files import write_labels
from casewright.casework.front_choices import Front, FrontKind
from casewright.casework.job import Bay
from casewright.casework.project import draw_up
from casewright.drawings.kit.draughting import SMALLEST
from casewright.drawings.kit.lettering import dimension_text, width_of
from casewright.drawings.kit.pages import Paper
from casewright.errors import CasewrightError, JobError
from casewright.packet.cut_places import cut_places
from casewright.packet.labels.label_stock import STOCKS
from casewright.packet.labels.label_text import BAR, GUTTER, INSET, SAID_LESS, LabelText, label_lines
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
    said = [" ".join(line["text"] for line in label["lines"]) for label in labels]
    assert said[0].startswith(dimension_text(largest.length, PROJECT.rule))
    assert all("worth keeping" in text for text in said) and not any(label["code"] for label in labels)


def test_fronts_over_which_the_grain_runs_on_are_numbered_as_they_hang() -> None:
    bays = (
        Bay(fronts=(Front(FrontKind.DRAWER), Front(FrontKind.DRAWER))),
        Bay(fronts=(Front(FrontKind.TWO_DOORS),)),
    )
    project = draw_up(job(spec(bays=bays)))
    made: Any = label_sheets(project, "", {}, Paper.LETTER, ADDRESS, {})
    said = [" ".join(line["text"] for line in label["lines"]) for label in made["all"]]
    for mark, role in {
        "B1-DF2": "drawer front, 1 of 2 from the top",
        "B1-DF1": "drawer front, 2 of 2 from the top",
        "B1-DO1": "door, 1 of 2 from the left",
        "B1-DO2": "door, 2 of 2 from the left",
    }.items():
        (label,) = [text for text in said if text.startswith(mark)]
        assert role in label
    assert sum(" of 2 from the " in text for text in said) == 4


LONGEST = LabelText(
    mark="WWWWWW-999-F11",
    size="~125 31/32 × ~125 31/32",
    role="adjustable shelf",
    sheet="quarter-sawn-white-oak-plywood 110",
    step="step 1150",
    plan="d58967",
    up="outside face up",
    work="12 dados, 2 grooves, 2 rabbets, 2 notches, 120 holes",
    edging="solid walnut strip 1/4",
    edges="from lower end, upper end, front edge, rear edge",
    code="<svg/>",
)
"""The longest mark that a job may have, with more on it than any part of an example."""

OFFCUT = replace(LONGEST, code="", up="", edges="", mark=LONGEST.size, size="plywood " * 9 + "!")


@pytest.mark.parametrize("name", STOCKS)
@pytest.mark.parametrize(
    "text",
    [LONGEST, replace(LONGEST, code="", up="", edges="", mark=LONGEST.size, size="plywood " * 9 + "!")],
)
def test_no_line_of_a_label_is_smaller_than_can_be_read_or_runs_out_of_it(name: str, text: LabelText) -> None:
    grid = STOCKS[name].grid
    lines = label_lines(text, grid)
    room = grid.wide - 2 * INSET[0] - (grid.code + GUTTER if text.code else 0.0)
    assert lines[0].text == text.mark
    assert " ".join(line.text for line in lines if line.bold) == f"{text.mark} {text.size}"
    assert sum(line.high for line in lines) <= grid.high - 2 * INSET[1]
    for line in lines:
        wide = width_of(f"{line.lead}{line.text}", line.size, bold=line.bold) + (BAR if line.bar else 0.0)
        assert line.size >= SMALLEST and wide <= room, line


def test_a_label_says_less_in_the_order_that_is_stated() -> None:
    """On labels that grow lower by a point at a time, each thing goes in its turn and none comes back."""
    grid, said = STOCKS["letter 10"].grid, []
    for high in range(250, 60, -1):
        lines = label_lines(LONGEST, replace(grid, wide=700.0, high=high))
        text = " ".join(f"{line.lead}{line.text}" for line in lines)
        said.append({name for name in SAID_LESS if getattr(LONGEST, name) in text})
    gone = [len(SAID_LESS) - len(there) for there in said]
    assert gone == sorted(gone) and gone[0] == 0 and gone[-1] >= 5
    assert all(there == set(SAID_LESS[count:]) for there, count in zip(said, gone, strict=True))


def test_no_print_of_a_label_is_smaller_than_can_be_read() -> None:
    """Read back from the PDF of the smallest labels."""
    for name in ("letter 30", "a4 24", "roll 2 1/4 x 1 1/4 in"):
        sizes: set[float] = set()

        def see(
            text: str,
            user: list[float],
            matrix: list[float],
            _: object,
            size: float,
            sizes: set[float] = sizes,
        ) -> None:
            if text.strip():
                across = matrix[0] * user[0] + matrix[1] * user[2], matrix[0] * user[1] + matrix[1] * user[3]
                sizes.add(round(size * hypot(*across), 2))

        made = labels_pdf(PROJECT, PLANNED.plan_name, PLACES, STOCKS[name], ADDRESS)
        for page in PdfReader(BytesIO(made)).pages:
            page.extract_text(visitor_text=see)
        assert sizes and min(sizes) >= SMALLEST, (name, sizes)
