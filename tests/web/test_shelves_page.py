"""The page of shelves in the app: what the list says, and nothing of its own."""

from __future__ import annotations

from pathlib import Path

from bearing.loaded_jobs import WALL_CASE, borne_by, text
from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.store.shop_file import open_file
from casewright.web.web_app import make_app
from golden.page_texts import page_text
from web_bench import Client

PINS = f"{WALL_CASE}\nbays = [{{ adjustable = 2 }}]"


def page(job_text: str, folder: Path) -> str:
    saved = KeptJobs(open_file(folder / "shop.sqlite3"), clock=lambda: "2026-11-02T09:00:00Z")
    job = saved.start(job_text)
    answer = Client(make_app(saved)).get(f"/jobs/{job.id}/shelves")
    assert answer.status_code == 200, answer.text
    return " ".join(page_text(answer.text).split())


def test_the_page_says_what_the_list_says(tmp_path: Path) -> None:
    job_text = text(PINS, holds='holds = "tinned food"')
    sheet, said = borne_by(job_text).shelf_sheet, page(job_text, tmp_path)
    assert "Does not meet" in said and "Meets" in said
    for one in sheet.shelves:
        for part in (*one.marks, one.span, one.section, one.load, one.at_once, one.after_years, one.allowed):
            assert part in said, part
        assert one.figure in said and one.fix in said
    assert all(line in said for line in sheet.assumptions)


def test_a_job_without_shelves_says_so(tmp_path: Path) -> None:
    bare = 'kind = "base"\nwidth = 33\nheight = 34\ndepth = 24\nbays = [{}]'
    assert "This job has no shelves." in page(text(bare, run=""), tmp_path)
