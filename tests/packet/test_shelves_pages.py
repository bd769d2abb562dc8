"""What the shelves bear, on paper."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO

from pypdf import PdfReader

from bearing.loaded_jobs import WALL_CASE, text
from casewright.app.jobs.worked_job import open_job
from casewright.app.papers.downloads import download, list_downloads
from casewright.packet.leaves import Leaves, Moment
from casewright.packet.shop_packet import packet_data
from casewright.planner.engine import MaxIterations
from casewright.planner.solve import solve
from casewright.workshop.sheets.cut_problems import cut_problems
from packet.packet_input import packet_of


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


def test_the_whole_packet_has_the_page_where_a_shelf_asks_for_thought() -> None:
    pins = f"{WALL_CASE}\nbays = [{{ adjustable = 2 }}]"
    for shelf, holds, there in (("mdf", "crockery", True), ("ply", "linen", False)):
        project = open_job(text(pins, shelf=shelf, holds=f'holds = "{holds}"')).needed()
        plans = {key: solve(problem, MaxIterations(50)) for key, problem in cut_problems(project).items()}
        of = packet_of(project, plans)
        assert bool(packet_data(of)["shelves"]) is there
        assert packet_data(replace(of, leaves=Leaves((Moment.SHELVES,))))["shelves"]


def test_a_job_without_shelves_has_no_such_leaf() -> None:
    bare = 'kind = "base"\nwidth = 33\nheight = 34\ndepth = 24\nbays = [{}]'
    for case, there in ((bare, False), (bare.replace("{}", "{ adjustable = 1 }"), True)):
        job = open_job(text(case, run=""))
        plans = {key: solve(problem, MaxIterations(50)) for key, problem in job.problems.items()}
        leaves = [one.path for one in list_downloads(job.with_plan(plans)).leaves]
        assert ("leaves/moment-shelves.pdf" in leaves) is there
