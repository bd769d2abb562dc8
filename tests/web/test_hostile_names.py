"""Names that mean something to a browser, a typesetter, a drawing or a spreadsheet stay names, everywhere."""

from __future__ import annotations

import csv
import io
import json
import re
from html import unescape
from xml.etree import ElementTree

import pytest
from ezdxf.filemanagement import read as read_dxf
from pypdf import PdfReader

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.app.jobs.worked_job import open_job
from casewright.app.papers.downloads import download, list_downloads
from web_bench import JOB, Client

HOSTILE = (
    "<script>alert(1)</script>",
    '"><img src=x onerror=alert(1)>',
    "{{ 7*7 }}{% raw %}",
    '#eval("1+1") $x$ @ref <a> \\u{41} `r`',
    "%d %s {0} ${HOME} $(id)",
    "</title></svg>]]>--> &amp; '",
    "=HYPERLINK(1)",
    "\\P{\\fArial;x} %%c",
    "..\\..\\x ../../x",
)


SHAPES = {"svg", "g", "path", "text", "tspan", "line", "rect", "circle", "polygon", "polyline"}
SHAPES |= {"title", "desc", "defs", "pattern", "clipPath", "style"}


def named(job: str, run: str, sheet: str) -> str:
    """The job with these names; JSON's way to write a text is TOML's too."""
    text = JOB.replace('job = "Larder"', f"job = {json.dumps(job)}\nnotes = {json.dumps(sheet)}")
    text = text.replace('name = "north"', f"name = {json.dumps(run)}")
    return text.replace('3/4"\n', f'3/4"\nname = {json.dumps(sheet)}\n', 1)


THREE = [HOSTILE[at : at + 3] for at in range(0, len(HOSTILE), 3)]


@pytest.mark.parametrize("names", THREE)
def test_on_pages_a_hostile_name_is_only_a_name(client: Client, saved: KeptJobs, names: list[str]) -> None:
    job = saved.start(named(*names)).id
    assert saved.take(job).worked.project is not None
    for address in ("", "/materials", "/runs/0", "/history", "/sheets", "/parts", "/shop", "/settings"):
        html = client.get(f"/jobs/{job}{address}").text
        assert names[0] in unescape(html), address
        assert "<script>alert" not in html and "<img src=x" not in html and "49{%" not in html


@pytest.mark.parametrize("names", THREE)
def test_in_documents_a_hostile_name_is_only_a_name(names: list[str]) -> None:
    planned = open_job(named(*names)).planned(0.1)
    found = list_downloads(planned)
    kinds = set()
    for path in [one.path for one in (*found.whole, *found.sheets, *found.parts[:4])]:
        kind = path.rsplit(".", 1)[1]
        if kind in ("zip", "step", "glb", "toml"):  # the solids hold no name, the job file is the maker's own
            continue
        kinds.add(kind)
        content, _ = download(planned, path)
        match kind:
            case "svg":
                assert {
                    one.tag.rsplit("}", 1)[-1] for one in ElementTree.fromstring(content).iter()
                } <= SHAPES
            case "csv":
                table = csv.reader(io.StringIO(content.decode(), newline=""))
                assert not [cell for row in table for cell in row if cell.lstrip()[:1] in set("=+@")]
            case "dxf":
                assert not read_dxf(io.StringIO(content.decode())).audit().errors
            case "json":
                json.loads(content)
            case "pdf":
                words = "".join(page.extract_text() for page in PdfReader(io.BytesIO(content)).pages)
                squeezed = re.sub(r"\s", "", words)
                assert all(re.sub(r"\s", "", name) in squeezed for name in (names[0], names[2])), path
    assert {"svg", "csv", "dxf", "json", "pdf"} <= kinds
