"""The hanging page on paper, and cut lines on sheets of Letter and A4."""

from __future__ import annotations

import re
from io import BytesIO

import pytest
from pypdf import PdfReader
from pypdf.generic import ContentStream

from bearing.hung_jobs import hung, on_studs
from casewright.app.jobs.worked_job import WorkedJob, open_job
from casewright.app.papers.downloads import download, list_downloads
from casewright.jobfile.write.other_unit import in_other_unit
from casewright.lengths.length import Unit
from casewright.packet.pages.assembly_steps import assembly_steps
from casewright.packet.scribe_paper import scribe_data, scribe_pdf
from casewright.planner.engine import MaxIterations
from casewright.planner.solve import solve

READ = ('left_gaps = ["1/4", "3/4"]', 'wall_gaps = ["1/2", 0, "1/4"]')


def page(job: WorkedJob) -> str:
    plans = {key: solve(problem, MaxIterations(50)) for key, problem in job.problems.items()}
    content, _ = download(job.with_plan(plans), "leaves/moment-hanging.pdf")
    return " ".join(" ".join(one.extract_text() for one in PdfReader(BytesIO(content)).pages).split())


def test_the_page_has_what_the_sheet_says() -> None:
    job = on_studs(*READ)
    said, text = job.borne.hanging_sheet, page(job)
    (row,) = said.rows
    lines = (*said.cautions, *said.method, *said.assumptions, row.title, row.verdict, row.first, row.shims)
    for line in (*lines, *row.joins, *(scribe.words for scribe in said.scribes), "scribes/W1-FL.pdf"):
        assert line and " ".join(line.split()) in text, line
    for case in row.cases:
        for words in (case.screws, *case.shims, case.lift, case.full):
            assert words in text
    assert all(text.count(caution) == 1 for caution in said.cautions), "each once"
    assert "does not reach the wall there" in text


def test_a_wall_nobody_knows_has_the_question_in_place_of_screws() -> None:
    job = hung('framing = { kind = "masonry" }')
    text = page(job)
    (doubt,) = job.borne.hanging_sheet.rows[0].doubts
    assert doubt.fix in text and "NDS" not in text and "Drill " not in text
    assert "both edges of each stud" not in text
    assert re.search(r"Full, (they|it) weighs? \d+ lb", text), "whoever is asked needs it"


@pytest.mark.parametrize(
    ("framing", "into"),
    [
        ('framing = { kind = "masonry" }', "as a licensed contractor says for this wall"),
        ('framing = { kind = "wood studs", first = 8, every = 16 }', "into studs"),
    ],
)
def test_the_step_that_hangs_a_case_says_into_what(framing: str, into: str) -> None:
    job = hung(framing)
    (case, *_) = job.borne.hangings[0].marks
    steps = assembly_steps(job.needed(), case, job.joinings[case])
    (step,) = (one for one in steps if one.title == "hanging")
    assert step.words.endswith(f"above the floor, {into}.")


def test_the_line_at_full_size_is_among_the_files() -> None:
    job = on_studs(*READ)
    plans = {key: solve(problem, MaxIterations(50)) for key, problem in job.problems.items()}
    found = list_downloads(job.with_plan(plans))
    assert [one.path for one in found.scribes] == ["scribes/W1-FL.pdf", "scribes/W1-FL.svg"]
    for one in found.scribes:
        content, media = download(job.with_plan(plans), one.path)
        assert content and media in ("application/pdf", "image/svg+xml")


@pytest.mark.parametrize(("unit", "paper"), [(Unit.INCH, (612, 792)), (Unit.MM, (595.28, 841.89))])
def test_nothing_on_a_sheet_is_scaled_and_all_of_it_is_on_the_paper(
    unit: Unit, paper: tuple[float, float]
) -> None:
    job = on_studs(*READ)
    if unit is Unit.MM:
        job = open_job(in_other_unit(job.text, unit).text)
    (part,) = job.borne.scribed
    pdf, data = scribe_pdf(job.needed(), part), scribe_data(job.needed(), part)
    sheets = data["sheets"]
    assert isinstance(sheets, list)
    pages = PdfReader(BytesIO(pdf)).pages
    assert len(pages) == len(sheets) == 4
    for one, sheet in zip(pages, sheets, strict=True):
        assert isinstance(sheet, dict) and isinstance(sheet["picture"], dict)
        assert tuple(map(float, one.mediabox[2:])) == pytest.approx(paper, abs=0.02)
        wide, tall = sheet["picture"]["wide"], sheet["picture"]["tall"]
        assert isinstance(wide, float) and isinstance(tall, float)
        assert wide <= paper[0] - 72 and tall <= paper[1] - 80, "it would run off the paper"
    assert _scales(pdf) == {1.0}


def _scales(pdf: bytes) -> set[float]:
    """By how much the drawings of a document are scaled, across or up; words that are turned are left out."""
    found = set()
    reader = PdfReader(BytesIO(pdf))
    for one in reader.pages:
        contents = one.get_contents()
        assert contents is not None
        for operands, operator in ContentStream(contents, reader).operations:
            if operator == b"cm":
                across, turned, _, up = (abs(float(one)) for one in operands[:4])
                found |= {round(across, 3), round(up, 3)} if turned < across else set()
    return found
