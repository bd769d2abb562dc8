"""The documentation builds as a site without a warning, and its pages ask no other host for anything."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest

import casewright

ROOT = Path(__file__).parents[2]
DOCS = ROOT / "docs"


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("site")
    words = [sys.executable, "-m", "sphinx", "--fail-on-warning", "--keep-going", "--quiet"]
    done = subprocess.run(
        [*words, "-d", str(folder / "doctrees"), str(DOCS), str(folder / "html")],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return folder / "html"


def test_every_page_is_there_and_loads_nothing_from_elsewhere(site: Path) -> None:
    pages = {path.stem: path.read_text(encoding="utf-8") for path in site.glob("*.html")}
    assert {path.stem for path in DOCS.glob("*.md")} <= set(pages)
    for name, text in pages.items():
        loaded = re.findall(r'<(?:script|img|iframe)[^>]*\ssrc="([^"]+)"', text)
        loaded += re.findall(r'<link[^>]*\shref="([^"]+)"', text)
        assert loaded, name
        assert not [address for address in loaded if re.match(r"(https?:)?//", address)], name
    for sheet in site.rglob("*.css"):
        assert not re.search(r"url\([\"']?(https?:)?//", sheet.read_text(encoding="utf-8")), sheet


def test_the_reference_has_every_promised_name(site: Path) -> None:
    text = (site / "reference.html").read_text(encoding="utf-8")
    described = set(re.findall(r'<dt class="sig[^"]*" id="casewright\.(\w+)"', text))
    assert described == set(casewright.__all__)
