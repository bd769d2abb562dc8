"""How solid wood moves: the parts list, its page, a part's card and the packet say the same."""

from __future__ import annotations

import csv
import html
import json
import re
from io import BytesIO, StringIO
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.app.papers.packet_files import packet_of
from casewright.cli.main import main
from casewright.packet.csv_tables import parts_csv
from casewright.packet.shop_packet import packet, packet_data
from casewright.web.web_app import make_app
from planned_once import planned_once
from web_bench import JOB, Client

CHERRY = """
[materials.cherry]
name = "cherry boards"
nominal = "3/4"
usual = "3/4"
deviation = "0.005"
size = [96, 24]
wood = "cherry"
"""
SOLID = JOB.replace('back = "thin"', 'back = "thin"\nshelf = "cherry"') + CHERRY
SAID = f"{SOLID}\n[climate]\nshop = 8\nhouse_dry = 6\nhouse_damp = 12\n"

BASIS = "8 % in the shop, 6 to 12 % in the house (as the job file says)"
FIXED, LOOSE = '7/64"', '15/64"'
"""What the fixed shelf of B1, 23 1/32 in wide, shrinks and swells: its width x 0.00248 x 2 = 0.114 and x 4 =
0.228 in, to the nearest 1/64."""


def test_the_sum_by_hand() -> None:
    width = planned_once(SAID).project.dimensions(planned_once(SAID).project.parts["B1-F11"])[1]
    for said, percents in ((FIXED, 2), (LOOSE, 4)):
        sixty_fourths = round(float(width) * 0.00248 * percents * 64)
        assert said == f'{sixty_fourths}/64"'


def test_the_parts_list_says_it(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job = tmp_path / "larder.toml"
    job.write_text(SAID, encoding="utf-8")
    assert main(["parts", str(job)]) == 0
    text = capsys.readouterr().out
    assert BASIS in text
    (line,) = (one for one in text.splitlines() if "flatsawn" in one and "B1-F11" in one)
    assert re.search(rf"{re.escape(FIXED)}\s+{re.escape(LOOSE)}", line)
    assert main(["parts", str(job), "--json"]) == 0
    rows = json.loads(capsys.readouterr().out)
    told = {mark: row["moves"] for row in rows for mark in row["marks"]}
    assert told["B1-F11"] == f"shrinks {FIXED} and swells {LOOSE}" and told["B1-B"] == ""


def test_the_pages_say_it(tmp_path: Path) -> None:
    saved = KeptJobs.open(tmp_path / "shop.sqlite3")
    work = saved.start(SAID)
    client = Client(make_app(saved, planning_seconds=0.1))
    page = html.unescape(client.get(f"/jobs/{work.id}/parts").text)
    assert "How the solid wood moves" in page and BASIS in page
    (row,) = (
        one for one in re.findall(r"<tr>.*?</tr>", page, re.DOTALL) if "flatsawn" in one and "B1-F11" in one
    )
    assert f'<td class="figure">{FIXED}</td>' in row and f'<td class="figure">{LOOSE}</td>' in row
    card = html.unescape(client.get(f"/jobs/{work.id}/parts/B1-F11").text)
    assert f"solid wood: shrinks {FIXED} and swells {LOOSE} in width" in card


def test_the_packet_says_it() -> None:
    contents = packet_of(planned_once(SAID))
    data: Any = packet_data(contents)
    (notice,) = (one for one in data["notices"] if one["title"] == "How the solid wood moves")
    assert BASIS in notice["lines"][0]
    assert any(
        "B1-F11" in line and f"shrinks {FIXED} and swells {LOOSE}." in line for line in notice["lines"]
    )
    rows = {mark: row["work"] for case in data["cases"] for row in case["parts"] for mark in row["marks"]}
    assert f"shrinks {FIXED} and swells {LOOSE}" in rows["B1-F11"] and "shrinks" not in rows["B1-B"]
    table = csv.DictReader(StringIO(parts_csv(contents.project).decode()))
    (line,) = (row for row in table if row["mark"] == "B1-F11")
    assert line["movement"] == f"shrinks {FIXED} and swells {LOOSE}"
    text = " ".join(page.extract_text() for page in PdfReader(BytesIO(packet(contents))).pages)
    assert "How the solid wood moves" in text


def test_where_nothing_is_said_of_the_climate_it_is_told_what_was_taken() -> None:
    planned = planned_once(SOLID)
    data: Any = packet_data(packet_of(planned))
    (notice,) = (one for one in data["notices"] if one["title"] == "How the solid wood moves")
    assert "6 to 10 % in the house (as is usual in most of the United States)" in notice["lines"][0]
    assert "climate-assumed" in {one.code for one in planned.worked.findings}


def test_beyond_the_coefficients_every_list_says_so() -> None:
    data: Any = packet_data(packet_of(planned_once(f'{SOLID}\n[climate]\nregion = "dry southwest"\n')))
    (notice,) = (one for one in data["notices"] if one["title"] == "How the solid wood moves")
    assert "total shrinkage" in notice["lines"][0]


def test_a_job_of_panels_says_nothing_of_it() -> None:
    planned = planned_once(JOB)
    data: Any = packet_data(packet_of(planned))
    assert "How the solid wood moves" not in {one["title"] for one in data["notices"]}
    assert not any("shrinks" in row["work"] for case in data["cases"] for row in case["parts"])
