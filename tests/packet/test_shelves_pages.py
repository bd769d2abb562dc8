"""What the shelves bear, on paper."""

from __future__ import annotations

from io import BytesIO

from pypdf import PdfReader

from bearing.loaded_jobs import WALL_CASE, text
from casewright.app.jobs.worked_job import open_job
from casewright.app.papers.downloads import download, list_downloads
from casewright.planner.engine import MaxIterations
from casewright.planner.solve import solve


def test_the_page_has_what_the_list_says() -> None:
    job = open_job(text(f"{WALL_CASE}\nbays = [{{ adjustable = 2 }}]", holds='holds = "tinned food"'))
    plans = {key: solve(problem, MaxIterations(50)) for key, problem in job.problems.items()}
    content, _ = download(job.with_plan(plans), "leaves/moment-shelves.pdf")
    words = "".join("".join(one.extract_text() for one in PdfReader(BytesIO(content)).pages).split())
    sheet = job.borne.shelf_sheet
    for one in sheet.shelves:
        for part in (one.figure, one.span, one.load, one.at_once, one.after_years, one.verdict, one.fix):
            assert "".join(part.split()) in words, part
    assert all("".join(line.split()) in words for line in sheet.assumptions)


def test_a_job_without_shelves_has_no_such_leaf() -> None:
    bare = 'kind = "base"\nwidth = 33\nheight = 34\ndepth = 24\nbays = [{}]'
    for case, there in ((bare, False), (bare.replace("{}", "{ adjustable = 1 }"), True)):
        job = open_job(text(case, run=""))
        plans = {key: solve(problem, MaxIterations(50)) for key, problem in job.problems.items()}
        leaves = [one.path for one in list_downloads(job.with_plan(plans)).leaves]
        assert ("leaves/moment-shelves.pdf" in leaves) is there
