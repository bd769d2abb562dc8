"""The hanging page in the app: what the sheet says, and nothing of its own."""

from __future__ import annotations

from pathlib import Path

import pytest

from bearing.hung_jobs import hung, on_studs
from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.app.jobs.worked_job import WorkedJob
from casewright.store.shop_file import open_file
from casewright.web.web_app import make_app
from golden.page_texts import page_text
from web_bench import JOB, Client

READ = ('left_gaps = ["1/4", "3/4"]', 'wall_gaps = ["1/2", 0, "1/4"]')


def page(text: str, folder: Path) -> str:
    saved = KeptJobs(open_file(folder / "shop.sqlite3"), clock=lambda: "2026-11-02T09:00:00Z")
    job = saved.start(text)
    answer = Client(make_app(saved)).get(f"/jobs/{job.id}/hanging")
    assert answer.status_code == 200, answer.text
    return answer.text


@pytest.mark.parametrize(
    "job",
    [on_studs(*READ), hung(), hung('framing = { kind = "masonry" }')],
    ids=["studs", "unknown", "masonry"],
)
def test_the_page_says_what_the_sheet_says(job: WorkedJob, tmp_path: Path) -> None:
    said = job.borne.hanging_sheet
    html = page(job.text, tmp_path)
    text = " ".join(page_text(html).split())
    (row,) = said.rows
    doubts = [f"{doubt.text} {doubt.fix}" for doubt in row.doubts]
    lines = [row.level, row.verdict, row.drills, row.first, row.shims, *row.joins, *doubts]
    lines += [*said.cautions, *said.method, *said.assumptions, said.not_read]
    for case in row.cases:
        lines += [case.screws, *case.marks, *case.shims, case.lift, case.empty, case.full]
        lines += [height for screws in case.rows for height in screws.heights]
    for scribe in said.scribes:
        lines += [scribe.words, *(f"{one.up} | {one.width} | {one.off}" for one in scribe.offsets)]
        assert f"/papers/{scribe.file}" in html
    for line in filter(None, lines):
        assert " ".join(line.split()) in text, line
    assert ("NDS" in text) is bool(row.verdict)


def test_each_case_has_its_place_and_the_way_to_the_next(tmp_path: Path) -> None:
    html = page(on_studs().text, tmp_path)
    for link in ("hang-1-W1", "hang-1-W2"):
        assert f'id="{link}"' in html and f'href="#{link}"' in html
    assert html.count('href="#hang-1-W2"') == 2 and "Next: W2" in html and "Next: W1" not in html


def test_a_job_with_nothing_to_hang_says_so(tmp_path: Path) -> None:
    text = page_text(page(JOB, tmp_path))
    assert "No case of this job hangs on a wall." in text and "Level line" not in text
    assert "Standing on the floor" in text and text.count("Before anything in it is opened") == 2
    assert "prop" not in text, "nobody holds up a case that stands"
