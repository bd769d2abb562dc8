"""The text of every page, of the shop screen and of the packet, of one small job, as it is kept beside.

A difference is shown line by line. When a page is meant to read otherwise, write the texts anew and look at
what has changed before you commit it:

    .venv/bin/python -m pytest tests/golden --regen-all
    git diff tests/golden
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import cache
from io import BytesIO
from pathlib import Path

import pytest
from fastapi import FastAPI
from fastapi.routing import APIRoute
from pypdf import PdfReader
from pytest_regressions.file_regression import FileRegressionFixture

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.app.jobs.worked_job import PlannedJob, open_job
from casewright.app.papers.downloads import download
from casewright.app.shop.shop_floor import hand_out
from casewright.planner.engine import MaxIterations
from casewright.planner.solve import solve
from casewright.store.shop_file import open_file
from casewright.web.routes import modules
from casewright.web.web_app import make_app
from golden.page_texts import page_text
from web_bench import JOB, Client

KEPT = Path(__file__).parent
NOW = "2026-11-02T09:00:00Z"

PAGES = {  # the name of its text, the route, and what is asked
    "jobs": ("/", "/"),
    "pair": ("/pair", "/pair"),
    "devices": ("/devices", "/devices"),
    "backup": ("/backup", "/backup"),
    "backup-done": ("/backup/done", "/backup/done?kept=before-restore-shop.casewright"),
    "job": ("/jobs/{job}", ""),
    "findings": ("/jobs/{job}/findings", "/findings"),
    "elevation": ("/jobs/{job}/elevation", "/elevation"),
    "size": ("/jobs/{job}/sizes/{name}", "/sizes/B1-B.length"),
    "part": ("/jobs/{job}/parts/{mark}", "/parts/B1-L"),
    "case": ("/jobs/{job}/cases/{mark}", "/cases/B1"),
    "run": ("/jobs/{job}/runs/{index}", "/runs/0"),
    "materials": ("/jobs/{job}/materials", "/materials"),
    "edging": ("/jobs/{job}/edging", "/edging"),
    "hardware": ("/jobs/{job}/hardware", "/hardware"),
    "construction": ("/jobs/{job}/construction", "/construction"),
    "settings": ("/jobs/{job}/settings", "/settings"),
    "unit": ("/jobs/{job}/unit", "/unit"),
    "kind": ("/jobs/{job}/kinds/{kind}", "/kinds/base"),
    "prices": ("/jobs/{job}/prices", "/prices"),
    "machines": ("/jobs/{job}/machines", "/machines"),
    "round": ("/jobs/{job}/round", "/round"),
    "parts": ("/jobs/{job}/parts", "/parts"),
    "hanging": ("/jobs/{job}/hanging", "/hanging"),
    "shelves": ("/jobs/{job}/shelves", "/shelves"),
    "fit": ("/jobs/{job}/fit", "/fit"),
    "fit-advice": ("/jobs/{job}/fit/advice", "/fit/advice"),
    "fit-gap": ("/jobs/{job}/fit/gap", "/fit/gap?name=B1: B1-F11 against B1-K"),
    "fit-case": ("/jobs/{job}/fit/case", "/fit/case?mark=B1"),
    "fit-square": ("/jobs/{job}/fit/square", "/fit/square?mark=B1&rising=42&falling=42 1/8"),
    "fit-measured": ("/jobs/{job}/fit/measured", "/fit/measured?readings=B1-K.width%3D23 5/16&cut=B1-K"),
    "fit-shop": ("/jobs/{job}/fit/shop", "/fit/shop"),
    "fit-measure": ("/jobs/{job}/fit/measure", "/fit/measure"),
    "fit-figures": ("/jobs/{job}/fit/figures", "/fit/figures"),
    "shop-test": ("/jobs/{job}/shop-test", "/shop-test"),
    "sheets": ("/jobs/{job}/sheets", "/sheets"),
    "costs": ("/jobs/{job}/costs", "/costs"),
    "papers": ("/jobs/{job}/papers", "/papers"),
    "shop": ("/jobs/{job}/shop", "/shop"),
    "repair": ("/jobs/{job}/repair", "/repair?mark=B1-L"),
    "text": ("/jobs/{job}/text", "/text"),
    "history": ("/jobs/{job}/history", "/history"),
    "revision": ("/jobs/{job}/history/{number}", "/history/1"),
}
NO_PAGES = {
    "/backup/file": "the shop's file itself",
    "/certificate.crt": "a certificate",
    "/jobs/{job}/costs/other-ways": "what is found hangs on a search; test_costs_page.py reads it",
    "/jobs/{job}/costs/other-ways/progress": "events",
    "/jobs/{job}/at/{name}": "leads on to a card",
    "/jobs/{job}/history/{number}/text": "the job file itself",
    "/jobs/{job}/model.glb": "a model",
    "/jobs/{job}/papers/{path:path}": "files; the packet is below",
    "/jobs/{job}/repair/labels.pdf": "labels, as PDF",
    "/jobs/{job}/repair/progress": "events",
    "/jobs/{job}/repair/ways/{number}": "needs a search that the clock ends",
    "/jobs/{job}/savings": "what is found hangs on a search; test_plan_pages.py reads it",
    "/jobs/{job}/savings/progress": "events",
    "/jobs/{job}/shop/dry-fits": "plain values for a tablet",
    "/jobs/{job}/sheets/progress": "events",
    "/jobs/{job}/shop/picture": "a picture",
    "/jobs/{job}/shop/findings": "data for the screen's script",
    "/jobs/{job}/shop/state": "data for the screen's script",
    "/jobs/{job}/shop/work": "data; its words are in shop-work.txt",
    "/jobs/{job}/shop/worker.js": "a script",
}
CARDS = {
    "findings",
    "elevation",
    "size",
    "part",
    "case",
    "run",
    "materials",
    "edging",
    "hardware",
    "construction",
    "settings",
    "prices",
}
CARDS |= {"kind", "machines", *(name for name in PAGES if name.startswith("fit-"))}

Compare = Callable[[str, str], None]


@cache
def planned() -> PlannedJob:
    """The job with a plan found by a count of work, not by a clock."""
    job = open_job(JOB)
    return job.with_plan({key: solve(problem, MaxIterations(300)) for key, problem in job.problems.items()})


@pytest.fixture(scope="module")
def app(tmp_path_factory: pytest.TempPathFactory) -> Iterator[FastAPI]:
    """The app over a shop file in which the job's work has been handed out."""
    saved = KeptJobs(open_file(tmp_path_factory.mktemp("shop") / "shop.sqlite3"), clock=lambda: NOW)
    saved.start(JOB)
    hand_out(saved.file, "larder", 1, planned().made.plans, "issue-1", NOW)
    yield make_app(saved)


@pytest.fixture
def compare(file_regression: FileRegressionFixture) -> Compare:
    """Compare a text with the one kept under its name."""
    return lambda name, text: file_regression.check(text, encoding="utf-8", fullpath=KEPT / f"{name}.txt")


@pytest.mark.parametrize("name", PAGES)
def test_a_page_reads_as_it_did(app: FastAPI, compare: Compare, name: str) -> None:
    route, asked = PAGES[name]
    path = f"/jobs/larder{asked}" if route.startswith("/jobs/") else asked
    answer = Client(app).ask("GET", path, htmx=name in CARDS)
    assert answer.status_code == 200, answer.text
    compare(f"pages/{name}", page_text(answer.text))


def test_the_steps_on_the_shop_screen_read_as_they_did(app: FastAPI, compare: Compare) -> None:
    work = Client(app).get("/jobs/larder/shop/work").json()
    lines = [work["statement"]]
    for number, batch in enumerate(work["batches"], 1):
        lines += ["", f"{number}. {batch['title']} | {batch['machine']}", *batch["setting"]]
        lines += [f"! {caution['hazard']}: {caution['text']}" for caution in batch["cautions"]]
        lines += [f"- {step['piece']} | {step['size']} | {step['hold']}" for step in batch["steps"]]
    for mark, thing in {**work["parts"], **work["cases"]}.items():
        lines += ["", f"{mark}: {thing['what']}"]
        lines += [f"- {size['words']} {size['text']}" for size in thing["sizes"]]
    compare("pages/shop-work", "\n".join(lines) + "\n")


def test_the_packet_reads_as_it_did(compare: Compare) -> None:
    content, _ = download(planned(), "packet.pdf")
    pages = [page.extract_text().strip() for page in PdfReader(BytesIO(content)).pages]
    compare("packet", "\n\n".join(f"--- page {number}\n{page}" for number, page in enumerate(pages, 1)))


def test_every_page_there_is_has_its_text() -> None:
    routes = {
        route.path
        for module in modules()
        for route in module.router.routes
        if isinstance(route, APIRoute) and "GET" in (route.methods or ())
        if not route.path.startswith("/api/")
    }
    assert routes == {route for route, _ in PAGES.values()} | set(NO_PAGES)
    kept = {path.stem for path in (KEPT / "pages").glob("*.txt")}
    assert kept == {*PAGES, "shop-work"}
