"""A spoiled part of rough boards on its page: the command's ways in its order, one chosen and undone."""

from __future__ import annotations

import html
import json
import re
from pathlib import Path

import pytest
from fastapi import FastAPI

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.cli.main import main
from casewright.web.web_app import make_app
from loft_job import LOFT
from web_bench import Client

REPAIR = "/jobs/loft/repair"


@pytest.fixture
def loft(tmp_path: Path) -> FastAPI:
    saved = KeptJobs.open(tmp_path / "shop.sqlite3")
    saved.start(LOFT)
    return make_app(saved, planning_seconds=0.1)


def words(client: Client, path: str) -> str:
    answer = client.get(path)
    assert answer.status_code == 200, answer.text
    return html.unescape(re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", answer.text)))


def test_page_and_command_give_the_same_ways_in_the_same_order(
    loft: FastAPI, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    client, job = Client(loft), tmp_path / "loft.toml"
    job.write_text(LOFT)
    assert main(["put-right", str(job), "--lost", "B1-RA1", "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert client.post(f"{REPAIR}/spoiled", data={"mark": "B1-RA1", "lost": "true"}).status_code == 303
    # The way's own page waits for the search.
    pages = [words(client, f"{REPAIR}/ways/{way['number']}") for way in told["ways"]]
    for way, page in zip(told["ways"], pages, strict=True):
        assert way["why"] in page and way["rank"] in page
        assert all(step in page for step in way["steps"])
    listed = words(client, REPAIR)
    places = [listed.index(way["what"]) for way in told["ways"]]
    assert places == sorted(places) and told["proof"] in listed
    assert "<svg" in client.get(f"{REPAIR}/ways/1").text


def test_the_way_chosen_is_on_the_sheets_page_and_is_taken_back(loft: FastAPI) -> None:
    client = Client(loft)
    assert client.post(f"{REPAIR}/spoiled", data={"mark": "B1-RA1", "lost": "true"}).status_code == 303
    way = client.get(f"{REPAIR}/ways/1").text
    place = re.search(r'name="place" value="(\d+)"', way)
    assert place is not None
    chosen = client.post(f"{REPAIR}/ways/1/choose", data={"place": place[1]})
    assert chosen.status_code == 303
    after = words(client, REPAIR)
    assert "Mill B1-RA1 again" in after and "B1-RA1 is lost" not in after
    assert "Board 3, to buy" in words(client, "/jobs/loft/sheets")
    assert client.get(f"{REPAIR}/labels.pdf").status_code == 200
    shop = words(client, "/jobs/loft/shop")
    assert "To put right, as chosen" in shop and "Mill B1-RA1 again" in shop
    assert client.post(f"{REPAIR}/undo").status_code == 303
    assert "B1-RA1 is lost" in words(client, REPAIR)
    assert "Board 3, to buy" not in words(client, "/jobs/loft/sheets")
